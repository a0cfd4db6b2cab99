// The take-out study: 12 ft of a wall of a two-storey house, read from the screen; a refusal; what a tap opens.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { brokenRules } from './lib/axe.mjs';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready, spot } from './lib/walk.mjs';

async function house(page, name) {
  await ready(page);
  const text = await readFile(new URL(`../../fixtures/houses/${name}`, import.meta.url), 'utf8');
  await page.evaluate((text) => window.sheet.open_file(text), text);
  await page.evaluate(() => document.querySelector('#start').hidden || document.querySelector('#start [data-close]').click());
}

const DEVICES = [
  { name: 'desk', width: 1280, height: 800 },
  { name: 'phone', width: 390, height: 844, touch: true, dpr: 2 },
];

for (const device of DEVICES) {
  test(`12 ft out of the bearing wall of a two-storey house: ${device.name}`, async () => {
    const { page, hand } = await open(device);
    await house(page, 'two-storey-gable-upper-wall-offset.json');
    await hand.tap(await spot(page, 10, 13));
    await reads(page, '#card-sentence', /carries/);
    if (device.touch) await press(page, '#grab', hand);
    await press(page, '#study-wall', hand);
    const ends = page.locator('#study .ends').first();
    await ends.locator('[data-study="from"]').fill("6'");
    await ends.locator('[data-study="from"]').press('Enter');
    await ends.locator('[data-study="to"]').fill("18'");
    await ends.locator('[data-study="to"]').press('Enter');
    await reads(page, '#study-title', /Taking out 12' 0"/);
    await shot(page, `study-${device.name}`);
    for (const key of ['lands', 'lost', 'beams', 'ends', 'down', 'props', 'steps']) {
      await page.locator(`[data-group="${key}"] > summary`).click();
      await shot(page, `study-${device.name}-${key}`);
      await page.locator(`[data-group="${key}"] > summary`).click();
    }
    await press(page, '[data-shown="proposed"]', hand);
    await shot(page, `study-${device.name}-proposed`);
    console.log(await page.locator('#study').innerText());
    assert.deepEqual(await brokenRules(page, '#study'), []);
  });
}
