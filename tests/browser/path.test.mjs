// Where a load goes, asked on the screen: of a wall, of one stretch of it, of a weight put down on bare joists; and the roof
// taken off the sheet.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { brokenRules } from './lib/axe.mjs';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready, spot } from './lib/walk.mjs';

const DEVICES = [
  { name: 'desk', width: 1280, height: 800 },
  { name: 'phone', width: 390, height: 844, touch: true, dpr: 3 },
];

/** On a phone the card peeks out from below: a tap brings all of it up, another puts it back. */
async function unfold(page, to = 'true') {
  const grab = page.locator('#grab');
  if ((await grab.isVisible()) && (await grab.getAttribute('aria-expanded')) !== to) await grab.click();
}
const fold = (page) => unfold(page, 'false');

async function worked(page, file) {
  await ready(page);
  await page.locator(`[data-house-file="${file}"]`).click();
  await reads(page, '#parts-count', /[1-9]/);
}

async function level(page, hand, name) {
  await fold(page);
  const number = await page.evaluate((name) =>
    [...document.querySelectorAll('#section button')].find((one) => one.textContent.includes(name)).dataset.level, name);
  await press(page, `#section [data-level="${number}"]`, hand);
}

/** The pounds on the rung that holds these words. */
async function pounds(page, words) {
  const figure = page.locator('#card-ladder li', { hasText: words }).first().locator('.rung-figure');
  return Number((await figure.textContent()).replace(/\D/g, ''));
}

/** How far a finger may be off, in pounds: half a pixel of a screen on which a foot is so many, and the last digit. */
async function off(page) {
  const [a, b] = [await spot(page, 0, 0), await spot(page, 1, 0)];
  return 1 + (0.5 / (b.x - a.x)) * (1000 / 13 + 1000 / 7);
}

function close(what, got, byHand, by = 1) {
  assert.ok(Math.abs(got - byHand) <= by, `${what}: ${got} lb, by hand ${byHand.toFixed(1)} lb`);
}

for (const device of DEVICES) {
  test(`the centre wall goes by girder and columns to pads, and the roof can be taken off: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await worked(page, 'one-storey-gable-basement-beam-and-posts.json');
    await hand.tap(await spot(page, 5, 13));
    await reads(page, '#card-title', /Centre wall/);
    await shot(page, `path-wall-${device.name}`);
    await unfold(page);
    await reads(page, '#card-ladder', /What arrives here.*Ceiling joists.*Where it goes.*Girder.*Pad 36/s);
    await page.locator('#card-ladder').scrollIntoViewIfNeeded();
    await page.locator('#card-ladder li').last().scrollIntoViewIfNeeded();
    await shot(page, `path-wall-ladder-${device.name}`);
    // Both levels are marked in the section, and a rung goes to its part on its level.
    assert.equal(await page.locator('#section .on-path').count(), 2);
    await page.locator('#card-ladder button', { hasText: 'Girder' }).first().click();
    await reads(page, '#card-title', /Girder.*Basement/);
    await reads(page, '#card-ladder', /Ceiling joists.*Centre wall/s);
    await fold(page);
    await shot(page, `path-girder-${device.name}`);
    await press(page, '#card-close', hand);
    await level(page, hand, 'First');
    await press(page, '#roof-layer', hand);
    assert.ok(!(await page.locator('#roof-layer').isChecked()));
    const drawn = () => page.evaluate(() => window.sheet.svg());
    assert.doesNotMatch(await drawn(), /rafters, ridge board/);
    await shot(page, `roof-off-${device.name}`);
    await page.locator('#sheet').focus();
    await page.keyboard.press('e');
    assert.match(await drawn(), /rafters, ridge board/);
    await page.waitForSelector('#roof-layer:checked');
  });

  test(`1,000 lb put down on bare joists: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await worked(page, 'one-storey-gable-basement-beam-and-posts.json');
    await level(page, hand, 'Basement');
    await hand.tap(await spot(page, 10, 4));
    await reads(page, '#card-title', /^1,000 lb put down here/);
    await shot(page, `put-down-${device.name}`);
    await unfold(page);
    const lb = await off(page);
    // 4 ft from the south wall on a span of 13 ft, between columns at 7 and 14 ft.
    close('south wall', await pounds(page, 'South outside wall'), (1000 * 9) / 13, lb);
    close('girder', await pounds(page, 'Girder'), (1000 * 4) / 13, lb);
    close('column at 7 ft', await pounds(page, 'Steel column 11'), (1000 * 4 / 13) * (4 / 7), lb);
    close('column at 14 ft', await pounds(page, 'Steel column 13'), (1000 * 4 / 13) * (3 / 7), lb);
    const joists = await page.locator('#card-ladder li', { hasText: 'Floor joist' }).locator('.rung-figure').allTextContents();
    close('both joists', joists.reduce((sum, text) => sum + Number(text.replace(/\D/g, '')), 0), 1000);
    await page.locator('#card-ladder li').last().scrollIntoViewIfNeeded();
    await shot(page, `put-down-ladder-${device.name}`);
    assert.deepEqual(await brokenRules(page), []);
    await fold(page);
    await page.locator('#sheet').focus();
    await page.keyboard.press('Escape');
    await reads(page, '#card-title', /Chapel Hill house/);
    await hand.tap(await spot(page, 20, 5));
    await reads(page, '#card-title', /^1,000 lb/);
    await press(page, '#card-close', hand);
    await reads(page, '#card-title', /Chapel Hill house/);
  });

  test(`one stretch of a wall alone: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await worked(page, 'one-storey-gable-wall-bears-in-part.json');
    await hand.tap(await spot(page, 2, 12));
    await reads(page, '#card-title', /Hall wall/);
    await unfold(page);
    await page.locator('#card-stretches button').first().click();
    await reads(page, '#ladder-of', /^0' 0" to .* alone$/);
    await shot(page, `stretch-${device.name}`);
    await page.locator('#card-ladder li').last().scrollIntoViewIfNeeded();
    await fold(page);
    await shot(page, `stretch-sheet-${device.name}`);
    await unfold(page);
    await page.locator('#ladder-whole').click();
    await reads(page, '#ladder-of', /^$/);
  });
}
