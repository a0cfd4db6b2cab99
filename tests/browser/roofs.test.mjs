// Roofs of several shapes, a purlin on struts, a heavy thing and a pad: drawn, changed on the card, read from the screen.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready, spot } from './lib/walk.mjs';

const DEVICES = [
  { name: 'desk', width: 1280, height: 800 },
  { name: 'phone', width: 390, height: 844, touch: true, dpr: 3 },
];

/** On a phone the card peeks out from below: a tap brings all of it up. */
async function unfold(page) {
  const grab = page.locator('#grab');
  if ((await grab.isVisible()) && (await grab.getAttribute('aria-expanded')) === 'false') await grab.click();
}

/** Opens the card's form and sets one value, as a person does with a list or a field. */
async function change(page, key, value) {
  await unfold(page);
  const form = page.locator('#card-change');
  if (!(await form.evaluate((it) => it.open))) await form.locator('summary').click();
  const control = page.locator(`#card-form [data-key="${key}"]`);
  if ((await control.evaluate((it) => it.tagName)) === 'SELECT') await control.selectOption(value);
  else {
    await control.fill(value);
    await control.blur();
  }
}

/** The part of the list whose line holds these words, chosen from the list. */
async function choose(page, words) {
  await unfold(page);
  const list = page.locator('#parts');
  if (!(await list.evaluate((it) => it.open))) await list.locator('> summary').click();
  await page.locator('#parts-list button', { hasText: words }).first().click();
}

/** Puts the card back to where it peeks out, so that the sheet can be seen and drawn on. */
async function fold(page) {
  const grab = page.locator('#grab');
  if ((await grab.isVisible()) && (await grab.getAttribute('aria-expanded')) === 'true') await grab.click();
}

async function house(page, hand, size) {
  await ready(page);
  await page.locator('#size').fill(size);
  await page.locator('#size-form button.strong').click();
  await reads(page, '#parts-count', /4/);
  await press(page, '[data-question="overhead"] [data-say="joists"]', hand);
  await page.locator('[data-tool="roof"]').click();
  await press(page, '[data-question="roof"] [data-say="ridge_board"]', hand);
}

for (const device of DEVICES) {
  test(`a gable made a hip, a gambrel, a roof on a ridge beam: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await house(page, hand, "40' x 26'");
    await choose(page, 'East outside wall');
    await reads(page, '#card-sentence', /carries the ceiling/);
    await choose(page, 'Gable roof');
    await reads(page, '#card-sentence', /the eave walls carry it/);
    await change(page, 'form', 'hip');
    await reads(page, '#card-sentence', /hips to the corners/);
    await reads(page, '#card-figures', /Hip rafter/);
    await fold(page);
    await shot(page, `roof-hip-${device.name}`);
    await choose(page, 'East outside wall');
    await reads(page, '#card-sentence', /carries the roof/);
    await choose(page, 'Hip roof');
    await change(page, 'form', 'gambrel');
    await change(page, 'lower_run', "6'");
    await reads(page, '#card-title', /Gambrel roof/);
    await fold(page);
    await shot(page, `roof-gambrel-${device.name}`);
    await change(page, 'form', 'gable');
    await change(page, 'frame', 'ridge_beam');
    await reads(page, '#card-sentence', /ridge beam/);
    await reads(page, '[data-figure="Ridge beam"]', /^40' 0" long/);
    // Slate and wood shingles from the list, 10 + 3 psf on a slope of 6 in 12: 13 x sqrt(1.25) = 14.5 psf on plan; then as it was.
    for (const layer of ['slate roofing', 'wood shingles']) {
      await page.locator('[data-add-layer]').selectOption(layer);
    }
    await reads(page, '[data-figure="Dead load on plan"]', /^1[45] psf$/);
    await reads(page, '#card-figures', /slate roofing 10 psf .*\+ wood shingles 3 psf/);
    await shot(page, `roof-layers-${device.name}`);
    await change(page, 'layers', '');
    await reads(page, '[data-figure="Dead load on plan"]', /^17 psf$/);
    await fold(page);
    await shot(page, `roof-ridge-beam-${device.name}`);
    // A rafter of 13 ft with 1 ft of eave: moments about the eave wall give (13^2 - 1^2) / (2 x 13) ft to the ridge.
    await choose(page, 'East outside wall');
    await reads(page, '#card-sentence', /the ridge beam/);
    // Two slopes, 40 ft long, half at each gable wall; 15 psf on a slope of 6 in 12 and 20 psf of roof live load.
    const [pounds] = /[\d,]+ lb/.exec(await page.locator("[data-figure^='Gable roof at']").textContent());
    const byHand = ((13 ** 2 - 1) / 13) * (40 / 2) * (15 * Math.hypot(1, 0.5) + 20);
    assert.ok(Math.abs(Number(pounds.replace(/\D/g, '')) - byHand) < 1, `${pounds}, by hand ${byHand.toFixed(0)} lb`);
    await shot(page, `roof-ridge-beam-end-${device.name}`);
  });

  test(`a purlin on struts brings the roof to an inside wall: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await house(page, hand, "40' x 28'");
    await press(page, '[data-tool="inside_wall"]', hand);
    await hand.drag(await spot(page, 2, 14), await spot(page, 38, 14));
    await choose(page, 'Inside wall');
    await reads(page, '#card-sentence', /ceiling|counts as bearing/);
    assert.doesNotMatch(await page.locator('#card-sentence').textContent(), /roof/);
    await fold(page);
    await press(page, '[data-tool="purlin"]', hand);
    await reads(page, '#hints', /purlin starts/);
    await hand.drag(await spot(page, 2, 9), await spot(page, 38, 9));
    await press(page, '[data-tool="pick"]', hand);
    await choose(page, 'Purlin');
    await change(page, 'feet', "20'; 14'");
    await change(page, 'spacing', "4'");
    await reads(page, '#card-sentence', /down its struts/);
    // 14 ft from eave to ridge, 9 ft up: 9 / 2 + 5 / 2.
    await reads(page, '[data-figure="Tributary width, roof"]', /^7' 0"$/);
    await reads(page, '#card-watch', /flatter than 45 degrees/);
    await fold(page);
    await shot(page, `purlin-${device.name}`);
    await choose(page, 'Inside wall');
    await reads(page, '#card-sentence', /roof/);
    await fold(page);
    await shot(page, `purlin-wall-${device.name}`);
  });

  test(`a tub on joists, and a post that stands on nothing until its pad is drawn: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await house(page, hand, "36' x 24'");
    await fold(page);
    await press(page, '#level-more > summary', hand);
    await press(page, '[data-add-level="basement"]', hand);
    await reads(page, '#level-name', /Basement/);
    await press(page, '[data-tool="joists"]', hand);
    await hand.drag(await spot(page, 12, 4), await spot(page, 12, 20));
    await press(page, '[data-tool="beam"]', hand);
    await hand.drag(await spot(page, 0, 12), await spot(page, 36, 12));
    await press(page, '[data-tool="post"]', hand);
    await hand.tap(await spot(page, 18, 12));
    await press(page, '[data-tool="pick"]', hand);
    // What has no way down comes first of all that is open.
    await press(page, '#card-close', hand);
    await unfold(page);
    await reads(page, '#card-sentence', /A load has nowhere to go/);
    await reads(page, '#card-gaps li:first-child', /^path gap *Post/);
    await fold(page);
    await shot(page, `post-on-slab-${device.name}`);
    await press(page, '[data-tool="pad"]', hand);
    await hand.tap(await spot(page, 18, 12));
    await press(page, '[data-tool="pick"]', hand);
    await press(page, '#card-close', hand);
    await reads(page, '#card-sentence', /reaches the ground/);
    await page.evaluate(() => [...document.querySelectorAll('#section button')].find((one) => /First/.test(one.textContent)).click());
    await reads(page, '#level-name', /First/);
    await press(page, '[data-tool="thing"]', hand);
    await reads(page, '#hints', /stands on/);
    await hand.drag(await spot(page, 20, 15), await spot(page, 25, 18));
    await press(page, '[data-tool="pick"]', hand);
    await choose(page, 'Bathtub');
    await reads(page, '[data-figure="Weight"]', /^900 lb$/);
    // 900 lb on 5 x 3 ft.
    await reads(page, '[data-figure="On its area"]', /^60 psf$/);
    await fold(page);
    await shot(page, `tub-${device.name}`);
    await page.evaluate(() => [...document.querySelectorAll('#section button')].find((one) => /Basement/.test(one.textContent)).click());
    await shot(page, `pad-${device.name}`);
  });
}
