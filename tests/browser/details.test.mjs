// A hole noted in a joist, a row of blocking drawn, jacks counted, figures by another combination, the soil by its class.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { brokenRules } from './lib/axe.mjs';
import { press, reads, ready, spot } from './lib/walk.mjs';

const HOUSE = new URL('../../fixtures/houses/one-storey-gable-basement-beam-and-posts.json', import.meta.url);
const DEVICES = [
  { name: 'desk', width: 1280, height: 800 },
  { name: 'phone', width: 390, height: 844, touch: true, dpr: 3 },
];

async function unfold(page) {
  const grab = page.locator('#grab');
  if ((await grab.isVisible()) && (await grab.getAttribute('aria-expanded')) === 'false') await grab.click();
}

async function openForm(page) {
  await unfold(page);
  const form = page.locator('#card-change');
  if (!(await form.evaluate((it) => it.open))) await form.locator('summary').click();
}

for (const { name, ...device } of DEVICES) {
  test(`cuts, boards, combinations and soil on the ${name}`, async () => {
    const { page, hand } = await open(device);
    await ready(page);
    const house = JSON.parse(await readFile(HOUSE, 'utf8'));
    await page.locator('#size').fill("36' x 24'");
    await page.locator('#size-form button.strong').click();
    await reads(page, '#parts-count', /4/);
    await page.evaluate((text) => window.sheet.open_file(text), JSON.stringify(house));
    const ask = (command) => page.evaluate((command) => window.sheet.command(command), command);
    await ask({ level: house.levels[0].id });
    await ask({ choose: { kind: 'field', id: house.levels[0].fields[0].id } });
    await reads(page, '#card-watch', /Hole 32.*within the limits of IRC R502\.8\.1/);
    await openForm(page);
    await press(page, '[data-do="note-cut"]', hand);
    await hand.tap(await spot(page, 5, 4));
    await reads(page, '#card-title', /Hole 35/);
    await openForm(page);
    const wide = page.locator('#card-form [data-key="diameter"]');
    await wide.fill('4');
    await wide.blur();
    await reads(page, '#card-sentence', /past the limits of IRC R502\.8\.1/);
    await reads(page, '#card-watch', /3 1\/16 in wide at the most/);
    await shot(page, `details-${name}-hole`);
    await page.locator('#card-form [data-key="cut"]').selectOption('notch');
    await reads(page, '#card-watch', /4 in deep and 4 in long/);
    await openForm(page);
    await shot(page, `details-${name}-notch`);

    await press(page, '[data-tool="board"]', hand);
    await reads(page, '#hints', /Rim, blocking or ledger/);
    await hand.drag(await spot(page, 12, 9), await spot(page, 22, 9));
    await press(page, '[data-tool="pick"]', hand);
    await reads(page, '#card-title', /Blocking 36/);
    await openForm(page);
    await page.locator('#card-form [data-key="kind"]').selectOption('ledger');
    await reads(page, '#card-watch', /No wall is drawn along it/);
    await shot(page, `details-${name}-board`);

    const girder = house.levels[0].beams[0].id;
    await ask({ choose: { kind: 'beam', id: girder } });
    await reads(page, '#card-watch', /3 in of bearing at the least/);
    await unfold(page);
    const by = page.locator('#figures-by select');
    await by.selectOption('apart');
    await reads(page, '#card-figures', /each kind apart/);
    await by.selectOption('dead');
    await reads(page, '#card-figures', /; by D/);
    await by.scrollIntoViewIfNeeded();
    await shot(page, `details-${name}-figures`);
    const box = await by.boundingBox();
    assert.ok(!device.touch || box.height >= 44, `${box.height} px`);
    assert.deepEqual(await brokenRules(page, '#card'), []);

    await page.locator('#steps [data-door="setup"]').click();
    await page.locator('[data-house="soil_class"]').selectOption('organic');
    await shot(page, `details-${name}-setup`);
    const { summary } = await page.evaluate(() => window.sheet.state());
    assert.ok(summary.findings.some(({ text }) => /no figure for it/.test(text)));
  });
}
