// The page opens and answers, at a desk and on a phone.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';

for (const device of [
  { name: 'desk', width: 1280, height: 800 },
  { name: 'phone', width: 390, height: 844, touch: true, dpr: 3 },
]) {
  test(`the page opens and answers: ${device.name}`, async () => {
    const { page } = await open(device);
    assert.match(await page.title(), /Joistwise/);
    await page.waitForFunction(() => document.querySelector('#status')?.textContent.trim());
    await shot(page, `smoke-${device.name}`);
  });
}
