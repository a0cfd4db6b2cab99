import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready, spot } from './lib/walk.mjs';
const inside = (id, name, a, b, more = {}) => ({ id, name, a, b, thickness: 4.5, side: 'inside', ...more });
const outside = (id, a, b) => ({ id, a, b, thickness: 6.5, side: 'outside' });
const feet = (x, y) => [x * 12, y * 12];
function level(n, count) {
  const corners = [feet(0, 0), feet(48, 0), feet(48, 30), feet(0, 30)];
  const walls = corners.map((corner, i) => outside(n * 100 + i, corner, corners[(i + 1) % 4]));
  for (let i = 0; i < count; i += 1) {
    walls.push(i % 2 ? inside(n * 100 + 20 + i, `P${n}${i}`, feet(4 + 5 * i, 0), feet(4 + 5 * i, 15)) : inside(n * 100 + 20 + i, `W${n}${i}`, feet(5 * i, 15 - i), feet(5 * i + 10, 15 - i)));
  }
  return { id: n, name: n === 1 ? 'First floor' : 'Second floor', height: 96, walls };
}
for (const count of [3, 5, 8]) test(`two storeys of ${count} inside walls`, async () => {
  const { page } = await open({ width: 1280, height: 800 });
  await ready(page);
  const file = { format: 'joistwise house', version: 1, name: 'Big', levels: [level(1, count), level(2, count)] };
  const told = await page.evaluate(async (text) => {
    const gaps = []; let last = performance.now();
    let running = true;
    const tick = () => { const now = performance.now(); gaps.push(now - last); last = now; if (running) requestAnimationFrame(tick); };
    requestAnimationFrame(tick);
    await new Promise((r) => setTimeout(r, 100));
    const t0 = performance.now();
    window.sheet.open_file(text);
    const opened = performance.now() - t0;
    let progress = 0;
    while (!document.querySelector('#settled').textContent || performance.now() - t0 < 50) { if (document.querySelector('#reading').textContent) progress += 1; await new Promise((r) => setTimeout(r, 5)); if (performance.now() - t0 > 30000) break; }
    const all = performance.now() - t0; running = false;
    return { opened, all, worst: Math.max(...gaps), progress, settled: document.querySelector('#settled').textContent };
  }, JSON.stringify(file));
  console.log(JSON.stringify(told));
});
