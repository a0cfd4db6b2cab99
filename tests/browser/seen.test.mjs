// What was seen: from "nothing seen" to certain by the look list alone, on a phone; two taps to note one; a contradiction.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { brokenRules } from './lib/axe.mjs';
import { open, shot } from './lib/page.mjs';
import { house, press, reads, spot } from './lib/walk.mjs';

/** A house of 36 x 24 ft with two inside walls and nothing seen, through its file. */
async function nothingSeen(page, observations = []) {
  const inside = (id, name, a, b) => ({ id, name, a, b, thickness: 4.5, side: 'inside' });
  const outside = (id, a, b) => ({ id, a, b, thickness: 6.5, side: 'outside' });
  const feet = (x, y) => [x * 12, y * 12];
  const corners = [feet(0, 0), feet(36, 0), feet(36, 24), feet(0, 24)];
  const walls = corners.map((corner, i) => outside(10 + i, corner, corners[(i + 1) % 4]));
  walls.push(inside(20, 'Centre', feet(0, 12), feet(36, 12)), inside(21, 'Closet', feet(24, 0), feet(24, 12)));
  const level = { id: 1, name: 'First floor', height: 96, walls, observations };
  const file = { format: 'joistwise house', version: 1, name: 'Nothing seen', levels: [level] };
  await house(page, file);
}

test('from nothing seen to certain by the look list alone, on a phone', async () => {
  const { page, hand } = await open({ width: 390, height: 844, touch: true, dpr: 3 });
  await nothingSeen(page);
  await press(page, '#grab', hand);
  await reads(page, '#settled', /0 of \d+ stretches/);
  await shot(page, 'seen-phone-nothing');
  let looks = 0;
  for (; looks < 8; looks += 1) {
    const settled = await page.locator('#settled').textContent();
    if (/^What all/.test(settled)) break;
    const first = '#card-looks li:first-child details';
    await press(page, `${first} summary`, hand);
    await shot(page, `seen-phone-look-${looks + 1}`);
    await press(page, `${first} li:first-child .outcome`, hand);
    await page.waitForFunction((before) => document.querySelector('#settled').textContent !== before, settled);
  }
  assert.ok(looks > 0 && looks <= 4, `${looks} looks`);
  await reads(page, '#settled', /^What all \d+ stretches of inside walls are for is certain/);
  await shot(page, 'seen-phone-certain');
});

test('two taps from the spot, on the desk', async () => {
  const { page, hand } = await open({ width: 1280, height: 800 });
  await nothingSeen(page);
  await shot(page, 'seen-desk-nothing');
  await press(page, '[data-tool="seen"]', hand);
  await hand.tap(await spot(page, 12, 12));
  await reads(page, '#seeing-place', /At Centre/);
  await shot(page, 'seen-desk-kinds');
  await press(page, '[data-kind="joists_lap"]', hand);
  await reads(page, '#card-title', /Joists lap/);
  await shot(page, 'seen-desk-noted');
});

/** A red dot of one pixel. */
const PHOTO = 'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8Dwn4EIwDiqEAAcjwP/9nL4pQAAAABJRU5ErkJggg==';

test('facts that cannot both be true, side by side; a photo that stays in the file', async () => {
  const { page, hand } = await open({ width: 1280, height: 800 });
  const feet = (x, y) => [x * 12, y * 12];
  await nothingSeen(page, [
    { id: 40, saw: 'joists_lap', at: feet(10, 12), known: 'seen', day: '2026-11-20', photo: PHOTO },
    { id: 41, saw: 'gap', at: feet(14, 12), known: 'seen' },
  ]);
  await reads(page, '#disagree', /These cannot all be true: .Joists lap or meet over it. \(seen\) against .A gap over it/);
  await shot(page, 'seen-desk-disagree');
  await hand.tap(await spot(page, 30, 12));
  await reads(page, '#card-why', /does not fit together/);
  await reads(page, '#card-sure', /needs a look/i);
  await press(page, '[data-door="send"]', hand);
  await reads(page, '#link-note', /Its photos \(1\) are left out/);
  const kept = await page.evaluate(() => [window.sheet.file_text().includes('data:image/png'), window.sheet.link().length]);
  assert.equal(kept[0], true);
  await page.evaluate(() => window.sheet.open_link(`#${window.sheet.link()}`));
  assert.equal(await page.evaluate(() => window.sheet.file_text().includes('data:image')), false);
});

test('what counts as proof is one table, and says what proves nothing', async () => {
  const { page, hand } = await open({ width: 390, height: 844, touch: true, dpr: 2 });
  await nothingSeen(page);
  await hand.tap(await spot(page, 10, 12));
  await press(page, '#grab', hand);
  await press(page, '[data-proof]', hand);
  await reads(page, '#proof', /A beam, post or wall below, in line with it/);
  await reads(page, '#proof', /proves nothing/);
  await shot(page, 'seen-phone-proof');
  assert.deepEqual(await brokenRules(page, '#proof'), []);
});
