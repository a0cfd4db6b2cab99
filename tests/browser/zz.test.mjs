import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready, spot } from './lib/walk.mjs';
async function file(page, plan) {
  await ready(page);
  await page.evaluate((text) => window.sheet.open_file(text), JSON.stringify(plan));
  await page.evaluate(() => document.querySelector('#start').hidden || document.querySelector('#start [data-close]').click());
}
const inside = (id, name, a, b, more = {}) => ({ id, name, a, b, thickness: 4.5, side: 'inside', ...more });
const outside = (id, a, b) => ({ id, a, b, thickness: 6.5, side: 'outside' });
const feet = (x, y) => [x * 12, y * 12];
function house(observations = [], more = {}) {
  const corners = [feet(0, 0), feet(36, 0), feet(36, 24), feet(0, 24)];
  const walls = corners.map((corner, i) => outside(10 + i, corner, corners[(i + 1) % 4]));
  walls.push(inside(20, 'Centre', feet(0, 12), feet(36, 12)), inside(21, 'Closet', feet(24, 0), feet(24, 12)));
  const level = { id: 1, name: 'First floor', height: 96, walls, observations, ...more };
  return { format: 'joistwise house', version: 1, name: 'Hill house', levels: [level] };
}
const fields = [{ id: 30, along: [0, 1], member: '2x6', spacing: 16, joints: 'not_seen', use: 'attic_bare', known: 'assumed' }];
test('wall card', async () => {
  const { page, hand } = await open({ width: 1280, height: 800 });
  await file(page, house([{ id: 40, saw: 'joists_run_through', at: feet(10, 12), known: 'seen', day: '2026-11-20' }, { id: 41, saw: 'in_line', below: 'beam', at: feet(14, 12), known: 'seen' }, { id: 42, saw: 'joist_size', member: '2x6', spacing: 16, at: feet(14, 6), known: 'measured' }], { fields }));
  await hand.tap(await spot(page, 30, 12));
  await reads(page, '#card-known', /Looked at/);
  await page.waitForTimeout(300);
  await shot(page, 'zz-wall');
  await page.evaluate(() => document.querySelector('#card-body').scrollTo(0, 420));
  await shot(page, 'zz-wall2');
  await page.evaluate(() => document.querySelector('#card-looks').scrollIntoView());
  const d = page.locator('#card-looks details').first();
  await d.locator('summary').click();
  await shot(page, 'zz-wall3');
  await press(page, '[data-proof]', hand);
  await shot(page, 'zz-proof');
});
test('contradiction', async () => {
  const { page } = await open({ width: 390, height: 844, touch: true, dpr: 2 });
  await file(page, house([{ id: 40, saw: 'joists_lap', at: feet(10, 12), known: 'seen' }, { id: 41, saw: 'gap', at: feet(14, 12), known: 'seen' }], { fields }));
  await page.evaluate(() => document.querySelector('#grab').click());
  await page.waitForTimeout(400);
  await shot(page, 'zz-disagree');
});
