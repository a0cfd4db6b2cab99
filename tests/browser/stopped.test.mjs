// A trap, a part that does not come: the page says what happened, and the house is in reach.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { reads, ready, rename, sketch } from './lib/walk.mjs';

const text = (page) => page.evaluate(() => window.sheet.file_text());
/** The next thing that is asked of Rust ends in a trap, as a panic does in the page that is shipped. */
const trap = (page) => page.evaluate(() => {
  window.sheet.command = () => {
    throw new WebAssembly.RuntimeError('unreachable');
  };
  document.querySelector('#look [data-look="in"]').click();
});

for (const [device, size] of [['desk', {}], ['phone', { width: 390, height: 844, touch: true }]]) {
  test(`a trap on the ${device}: the house is kept, offered as a file, and not opened again by itself`, async () => {
    const { page, expectError } = await open(size);
    expectError(/unreachable/);
    await sketch(page);
    await rename(page, 'Trapped');
    await rename(page, 'Trapped twice');
    const before = await text(page);
    await trap(page);
    await reads(page, '#broken', /met a fault of its own and stopped. Nothing was sent anywhere. “Trapped twice” is kept/);
    await shot(page, `stopped-${device}`);
    const [download] = await Promise.all([page.waitForEvent('download'), page.click('#broken [data-save]')]);
    assert.equal(readFileSync(await download.path(), 'utf8'), before);
    await page.click('#broken [data-reload]');
    await ready(page);
    await reads(page, '#unopened', /“Trapped twice” was open when this page stopped last time/);
    assert.equal(await page.inputValue('#house-name'), 'New house');
    await shot(page, `stopped-${device}-after`);
    await page.click('#unopened [data-before]');
    await page.waitForFunction(() => document.querySelector('#house-name').value === 'Trapped');
    await page.click('#redo');
    await page.waitForFunction(() => document.querySelector('#house-name').value === 'Trapped twice');
    await page.waitForTimeout(400);
    await page.reload();
    await ready(page);
    assert.equal(await page.inputValue('#house-name'), 'Trapped twice', 'what opened without a trap is opened again');
  });
}

test('a trap where nothing is kept does not say kept, and saves the file', async () => {
  const { page, expectError } = await open({
    init: () => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('refused', 'SecurityError');
      };
    },
  });
  expectError(/unreachable/);
  await sketch(page);
  await reads(page, '#kept', /not kept/);
  const before = await text(page);
  await trap(page);
  await reads(page, '#broken', /“New house” is not kept in this browser: save the file before you do anything else/);
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#broken [data-save]')]);
  assert.equal(readFileSync(await download.path(), 'utf8'), before);
});

test('a page that went away while a house was being opened does not open it again by itself', async () => {
  const { page } = await open();
  await sketch(page);
  await rename(page, 'Slow');
  await page.waitForFunction(() => document.querySelector('#kept').dataset.kept === 'yes');
  await page.evaluate(() => {
    const [last] = Object.keys(localStorage).filter((name) => name.endsWith('last'));
    localStorage.setItem('joistwise-opening', `{"key":${localStorage.getItem(last)},"name":"Slow"}`);
  });
  await page.reload();
  await ready(page);
  await reads(page, '#unopened', /“Slow” was being opened when this page was last closed/);
  await page.click('#unopened [data-open]');
  await page.waitForFunction(() => document.querySelector('#house-name').value === 'Slow');
});

test('without its Rust part the page says so, and kept houses can be saved', async () => {
  const { page, site, expectError } = await open({ own: true });
  expectError(/./);
  await sketch(page);
  await rename(page, 'On the shelf');
  await page.waitForFunction(() => document.querySelector('#kept').dataset.kept === 'yes');
  const before = await text(page);
  await page.evaluate(async () => {
    for (const one of await navigator.serviceWorker.getRegistrations()) await one.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
  });
  site.change = (name, body) => (name.endsWith('.wasm') ? null : body);
  await page.reload();
  await reads(page, '#broken', /could not start/);
  await page.waitForSelector('#kept-houses [data-kept]');
  await shot(page, 'stopped-no-rust');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#kept-houses [aria-label^="Save On the shelf"]')]);
  assert.equal(readFileSync(await download.path(), 'utf8'), before);
});

for (const missing of ['panels/card.js', 'page.js', 'panels/shelf.js', 'vendor/idb.js', 'style.css']) {
  test(`a first visit without ${missing}: it speaks up`, async () => {
    const { page, site, expectError } = await open({ own: true, url: null });
    expectError(/./);
    site.change = (name, body) => (name.endsWith(missing) ? null : body);
    await page.goto(`${site.origin}/`);
    if (missing === 'style.css') return ready(page);
    await reads(page, '#boot', new RegExp(`Missing: .*${missing.split('/').pop()}`));
    assert.ok(await page.locator('#boot').isVisible());
    return shot(page, 'stopped-part-missing');
  });
}

test('a part that never answers is said after 10 s', { timeout: 60_000 }, async () => {
  const { page, site, expectError } = await open({ own: true, url: null });
  expectError(/./);
  site.change = (name, body) => (name.endsWith('panels/card.js') ? new Promise(() => {}) : body);
  await page.goto(`${site.origin}/`, { waitUntil: 'commit' });
  await page.waitForFunction(() => document.styleSheets.length === 2);
  await page.waitForTimeout(5000);
  assert.ok(await page.locator('#boot').isHidden(), 'a slow signal is not told off');
  await page.waitForSelector('#boot', { state: 'visible', timeout: 15_000 });
  await reads(page, '#boot', /has not started/);
});
