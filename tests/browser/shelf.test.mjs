// The shelf: what is kept in this browser is there again, and what is not kept is said.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { reads, ready } from './lib/walk.mjs';

const text = (page) => page.evaluate(() => window.sheet.file_text());

/** A house of a typed size. */
async function sketch(page, size = "30' x 20'") {
  await ready(page);
  if (await page.locator('#start').isHidden()) await page.click('[data-door="start"]');
  await page.fill('#size', size);
  await page.press('#size', 'Enter');
}

test('what a transaction takes back at its end is not called kept, and a file is offered', async () => {
  // A full disk refuses like this: every request succeeds, and the transaction ends in an abort.
  const { page } = await open({
    init: () => {
      const { put } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.put = function (...values) {
        const request = put.apply(this, values);
        if (window.diskIsFull) request.addEventListener('success', () => request.transaction.abort());
        return request;
      };
      window.diskIsFull = true;
    },
  });
  await sketch(page);
  await page.waitForSelector('#unkept:not([hidden])', { timeout: 5000 });
  await reads(page, '#kept', /not kept/);
  await shot(page, 'shelf-full');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#unkept [data-save-file]')]);
  assert.match(download.suggestedFilename(), /\.json$/);
  await page.evaluate(() => (window.diskIsFull = false));
  await page.click('#unkept [data-try]');
  await reads(page, '#kept', /kept in browser/);
  assert.ok(await page.locator('#unkept').isHidden());
});

test('after the site data was cleared the house is kept anew, without a reload', async () => {
  const { page, context, another } = await open();
  await sketch(page);
  await reads(page, '#kept', /kept in browser/);
  const session = await context.newCDPSession(page);
  const origin = await page.evaluate(() => location.origin);
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
  await page.click('#level-more summary');
  await page.fill('#house-name', 'Elm Street');
  await page.press('#house-name', 'Enter');
  await page.waitForTimeout(500);
  await reads(page, '#kept', /kept in browser/);
  const before = await text(page);
  await page.close();
  const again = await another('/');
  await ready(again);
  assert.equal(await text(again), before);
});

/** Puts a text on the shelf of this browser, as an earlier version of the page could have left it. */
const put = (page, house) => page.evaluate((house) => new Promise((resolve, reject) => {
  const request = indexedDB.open('joistwise');
  request.onsuccess = () => {
    const transaction = request.result.transaction('houses', 'readwrite');
    transaction.objectStore('houses').put(house);
    transaction.oncomplete = () => resolve(request.result.close());
    transaction.onabort = () => reject(transaction.error);
  };
}), house);
const shelf = (page) => page.evaluate(() => new Promise((resolve) => {
  const request = indexedDB.open('joistwise');
  request.onsuccess = () => {
    const all = request.result.transaction('houses').objectStore('houses').getAll();
    all.onsuccess = () => resolve(all.result, request.result.close());
  };
}));

for (const [what, kept, sentence] of [
  ['of a newer version', '{"format":"joistwise house","version":9,"name":"Later","levels":[]}', /newer version \(9\)/],
  ['that a check refuses', '{"format":"joistwise house","version":1,"name":"Checked","levels":[]}', /does not open/],
  ['that was cut short', '{"format":"joistwise house","version":1,"na', /does not open/],
]) {
  test(`a kept house ${what} is never written over, and is offered as a file`, async () => {
    const { page, another } = await open();
    await sketch(page);
    await reads(page, '#kept', /kept in browser/);
    await put(page, { key: 'old', name: 'Old house', text: kept, at: Date.now() + 60_000 });
    await page.close();
    const again = await another('/');
    await ready(again);
    await reads(again, '#unopened', sentence);
    await shot(again, 'shelf-unopened');
    const [download] = await Promise.all([again.waitForEvent('download'), again.click('#unopened [data-save]')]);
    assert.equal(readFileSync(await download.path(), 'utf8'), kept);
    await sketch(again, "20' x 20'");
    await reads(again, '#kept', /kept in browser/);
    const houses = await shelf(again);
    assert.equal(houses.find(({ key }) => key === 'old').text, kept);
    assert.equal(houses.length, 3);
  });
}
