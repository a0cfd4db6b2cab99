// The shelf: what is kept in this browser is there again, and what is not kept is said.
import assert from 'node:assert/strict';
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
