// The survey on a phone without a signal: an outline-only house, walked from asking to the ends of a wall, fills the plan.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { brokenRules } from './lib/axe.mjs';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready } from './lib/walk.mjs';

const PHONE = { width: 390, height: 844, touch: true, dpr: 2 };
const DOOR = '#steps [data-door="survey"]';
const OPEN_STEP = '#stages .step[open]';

/** A house of 36 x 24 ft: its outline and one inside wall, nothing seen. */
async function outlineOnly(page) {
  const feet = (x, y) => [x * 12, y * 12];
  const corners = [feet(0, 0), feet(36, 0), feet(36, 24), feet(0, 24)];
  const walls = corners.map((a, i) => ({ id: 10 + i, a, b: corners[(i + 1) % 4], thickness: 6.5, side: 'outside' }));
  walls.push({ id: 20, name: 'Centre', a: feet(0, 12), b: feet(36, 12), thickness: 4.5, side: 'inside' });
  const level = { id: 1, name: 'First floor', height: 96, walls };
  const file = { format: 'joistwise house', version: 1, name: 'Outline only', levels: [level] };
  await page.evaluate((text) => window.sheet.open_file(text), JSON.stringify(file));
  await page.evaluate(() => document.querySelector('#start').hidden || document.querySelector('#start [data-close]').click());
}

/** Opens a stage unless it is open. */
async function stage(page, hand, stop) {
  const head = `#stages [data-stop="${stop}"]`;
  if ((await page.locator(head).getAttribute('aria-expanded')) !== 'true') await press(page, head, hand);
}

/** Opens a step unless it is open already. */
async function step(page, hand, task) {
  const selector = `#stages [data-task="${task}"]`;
  await page.locator(selector).waitFor();
  if ((await page.locator(selector).getAttribute('open')) === null) await press(page, `${selector} > summary`, hand);
  return `${selector}[open]`;
}

async function tap(page, hand, task, reply) {
  await press(page, `${await step(page, hand, task)} [data-reply^="${reply}"]`, hand);
}

async function type(page, hand, task, text) {
  const form = `${await step(page, hand, task)} form`;
  await page.locator(`${form} input`).fill(text);
  await press(page, `${form} button`, hand);
}

test('a house is walked on a phone without a signal, and the plan fills', async () => {
  const { page, hand, context } = await open(PHONE);
  await ready(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated', null, { timeout: 10_000 });
  await context.setOffline(true);
  await page.reload();
  await ready(page);
  await outlineOnly(page);
  await page.evaluate(() => window.sheet.command({ choose: { kind: 'wall', id: 20 } }));
  await reads(page, '#card-sentence', /look|not known|nothing/i);
  const before = await page.locator('#card-sentence').textContent();
  await shot(page, 'survey-phone-before');

  await press(page, DOOR, hand);
  await reads(page, '#survey-done', /^\d+ of \d+ settled$/);
  await shot(page, 'survey-phone-ask');
  await type(page, hand, 'year', '1931');
  await reads(page, '#stages [data-task="year"] .how', /Built in 1931 \(told\)/);
  // The next open step came into view by itself.
  assert.equal(await page.locator(OPEN_STEP).getAttribute('data-task'), 'altered');
  await tap(page, hand, 'altered', 'Nothing, they say');
  await press(page, `${OPEN_STEP} .later`, hand);
  await reads(page, '#stages [data-task="drawings"] .how', /not seen today/);
  await tap(page, hand, 'stored', 'Attic with storage');
  await tap(page, hand, 'wanted', 'Told');
  // The stage is done: the next one opened.
  assert.equal(await page.locator('#stages [data-stop="outside"]').getAttribute('aria-expanded'), 'true');
  await tap(page, hand, 'photos', 'Taken');
  await type(page, hand, 'rise', '9');
  await reads(page, '#stages [data-task="rise"] .how', /9 in 12 \(measured\)/);
  await shot(page, 'survey-phone-outside');

  await stage(page, hand, 'lowest');
  await tap(page, hand, 'under', 'A basement');
  await reads(page, '#stages [data-stop="lowest"]', /Basement/);
  await stage(page, hand, 'storey');
  await tap(page, hand, 'height', "9' 0");
  await stage(page, hand, 'attic');
  await tap(page, hand, 'framing', 'Rafters against a thin ridge board, their feet tied by joists');
  await tap(page, hand, 'joist_way', 'Joists run north–south');
  await type(page, hand, 'joist_size', '2x6 at 16');
  await reads(page, '#stages [data-task="joist_size"] .how', /Joists 2x6 at 16 in \(seen\)/);
  await shot(page, 'survey-phone-attic');

  await stage(page, hand, 'wall');
  await tap(page, hand, 'over', 'Joists lap or meet over it');
  await tap(page, hand, 'sag', 'Sags 1/2 in');
  await shot(page, 'survey-phone-wall');
  await stage(page, hand, 'ends');
  await reads(page, `${OPEN_STEP} b`, /West end: in the ground/);
  await press(page, `${OPEN_STEP} [data-reply="There is one"]`, hand);
  await reads(page, `${OPEN_STEP} b`, /East end: in the ground/);
  await shot(page, 'survey-phone-ends');
  assert.deepEqual(await brokenRules(page, '#survey'), []);

  // What the screen says of the plan now.
  await press(page, '#survey [data-close]', hand);
  await page.evaluate(() => window.sheet.command({ choose: { kind: 'wall', id: 20 } }));
  await reads(page, '#card-sentence', /carries/);
  assert.notEqual(await page.locator('#card-sentence').textContent(), before);
  await reads(page, '#section', /Basement/);
  await reads(page, '#parts-list', /Ceiling joists 2x6 at 16 in/);
  await shot(page, 'survey-phone-after');

  // Kept like everything else: there again after a reload, still without a signal.
  await page.reload();
  await ready(page);
  await press(page, DOOR, hand);
  await reads(page, '#stages [data-stop="ask"]', /5 of 5/);
});

test('rows are large enough for a thumb, and one stage is open at a time', async () => {
  const { page, hand } = await open(PHONE);
  await ready(page);
  await outlineOnly(page);
  await press(page, DOOR, hand);
  await page.locator(OPEN_STEP).waitFor();
  await stage(page, hand, 'wall');
  assert.equal(await page.locator('#stages [aria-expanded="true"]').count(), 1);
  const low = await page.$$eval('#survey button, #survey summary, #survey input', (all) =>
    all.filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 44).map((one) => one.textContent));
  assert.deepEqual(low, []);
  const wide = await page.evaluate(() => document.querySelector('#survey').scrollWidth > document.querySelector('#survey').clientWidth);
  assert.equal(wide, false, 'nothing runs out to the side');
  await shot(page, 'survey-phone-rows');

  // What is drawn and not told leads to its tool, and back to where one was.
  await stage(page, hand, 'storey');
  await press(page, `${await step(page, hand, 'doors')} .draw`, hand);
  assert.equal(await page.locator('#survey').isHidden(), true);
  assert.equal(await page.locator('[data-tool="opening"]').getAttribute('aria-pressed'), 'true');
  await press(page, DOOR, hand);
  assert.equal(await page.locator(OPEN_STEP).getAttribute('data-task'), 'doors');
});

test('by keyboard alone, at a desk', async () => {
  const { page } = await open({ width: 1280, height: 800 });
  await ready(page);
  await outlineOnly(page);
  await page.locator(DOOR).focus();
  await page.keyboard.press('Enter');
  await page.locator(OPEN_STEP).waitFor();
  await page.locator(`${OPEN_STEP} input`).focus();
  await page.keyboard.type('1950');
  await page.keyboard.press('Enter');
  await reads(page, '#stages [data-task="year"] .how', /Built in 1950/);
  assert.equal(await page.evaluate(() => document.activeElement.parentElement.dataset.task), 'altered');
  await shot(page, 'survey-desk');
  await page.keyboard.press('Escape');
  assert.equal(await page.locator('#survey').isHidden(), true);
});
