// The shelf: what is kept in this browser is there again, and what is not kept is said.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { houses as shelf, reads, ready, rename, sketch } from './lib/walk.mjs';

const text = (page) => page.evaluate(() => window.sheet.file_text());

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
for (const [what, kept, sentence] of [
  ['of a newer version', '{"format":"joistwise house","version":9,"name":"Later","levels":[]}', /newer version \(9\)/],
  ['that a check refuses', '{"format":"joistwise house","version":1,"name":"Checked","levels":[]}', /does not open/],
  ['that was cut short', '{"format":"joistwise house","version":1,"na', /does not open/],
]) {
  test(`a kept house ${what} is never written over, and is offered as a file`, async () => {
    const { page, another } = await open();
    await sketch(page);
    await reads(page, '#kept', /kept in browser/);
    await page.evaluate(() => localStorage.clear());
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
    const there = await shelf(again);
    assert.equal(there.find(({ key }) => key === 'old').text, kept);
    assert.equal(there.length, 3);
  });
}

const MILL_LANE = readFileSync(new URL('../../fixtures/houses/one-storey-gable-centre-wall-laps.json', import.meta.url), 'utf8');
const idle = (page) => page.waitForFunction(() => document.querySelector('#kept').dataset.kept === 'yes');
const command = (page, what) => page.evaluate((what) => window.sheet.command(what), what);

test('after a reload the steps are there to be taken back and taken again', async () => {
  const { page } = await open();
  await sketch(page);
  const names = ['Ash', 'Beech', 'Cedar', 'Elm'];
  for (const name of names) await rename(page, name);
  await page.click('#undo');
  await idle(page);
  await page.waitForTimeout(300);
  await page.reload();
  await ready(page);
  assert.equal(await page.inputValue('#house-name'), 'Cedar');
  assert.ok(await page.isEnabled('#redo'), 'the step taken back is kept too');
  await page.click('#redo');
  await page.waitForFunction(() => document.querySelector('#house-name').value === 'Elm');
  for (const name of ['Cedar', 'Beech', 'Ash']) {
    await page.click('#undo');
    await page.waitForFunction((name) => document.querySelector('#house-name').value === name, name);
  }
});

test('of a long history the last 50 states are kept, and no more', async () => {
  const { page } = await open();
  await sketch(page);
  for (let number = 1; number <= 70; number += 1) await command(page, { set_house: { key: 'name', value: `House ${number}` } });
  await page.waitForFunction(() => document.querySelector('#house-name').value === 'House 70');
  await page.waitForTimeout(600);
  await page.reload();
  await ready(page);
  assert.equal(await page.inputValue('#house-name'), 'House 70');
  assert.equal(await page.evaluate(() => window.sheet.steps().length), 51);
});

test('a note that is being typed is there after a reload', async () => {
  const { page } = await open();
  await sketch(page);
  await idle(page);
  await page.click('#steps [data-door="setup"]');
  await page.locator('[data-house="note"]').pressSequentially('Rot at the north sill');
  await page.reload();
  await ready(page);
  assert.match(await text(page), /Rot at the north sill/);
  // A short field too, which is taken only when the page goes.
  await page.click('#steps [data-door="setup"]');
  await page.locator('[data-house="soil"]').pressSequentially('2000');
  await page.reload();
  await ready(page);
  await page.click('#steps [data-door="setup"]');
  assert.match(await page.inputValue('[data-house="soil"]'), /2,?000/);
  await page.waitForFunction(() => document.querySelector('#undo:not(:disabled)'));
});

test('two tabs on one house notice each other, and each keeps what was drawn in it', async () => {
  const { page, another } = await open();
  await sketch(page);
  await rename(page, 'Shared');
  await idle(page);
  const second = await another('/');
  await ready(second);
  await reads(second, '#elsewhere', /“Shared” is open in another tab too/);
  await reads(page, '#elsewhere', /“Shared” is open in another tab too/);
  await rename(page, 'First tab');
  await reads(second, '#elsewhere', /changed in another tab/);
  await shot(second, 'shelf-two-tabs');
  await rename(second, 'Second tab');
  await reads(second, '#elsewhere', /kept from now on as a copy/);
  await rename(second, 'Second tab again');
  await rename(page, 'First tab again');
  const names = (await shelf(page)).map(({ name }) => name).sort();
  assert.deepEqual(names, ['First tab again', 'Second tab again']);
  // A third one shows what the first did, with one tap.
  const third = await another('/');
  await ready(third);
  await third.click('#steps [data-door="start"]');
  await third.click('[data-kept] >> text=First tab again');
  await rename(page, 'First tab at last');
  await third.click('#elsewhere [data-show]');
  await third.waitForFunction(() => document.querySelector('#house-name').value === 'First tab at last');
});

test('a forgotten house can be brought back, and goes for good only when it is asked twice', async () => {
  const { page } = await open();
  await sketch(page);
  await rename(page, 'Once');
  await page.click('#steps [data-door="start"]');
  await page.click('#kept-houses [aria-label^="Forget Once"]');
  await page.waitForSelector('#forgotten-houses:not([hidden])');
  await shot(page, 'shelf-forgotten');
  await page.reload();
  await ready(page);
  assert.ok(await page.locator('#kept-houses').isHidden());
  await page.click('#forgotten-houses [aria-label^="Bring back"]');
  await page.waitForSelector('#kept-houses [data-kept]');
  await page.click('#kept-houses [data-kept]');
  await page.waitForFunction(() => document.querySelector('#house-name').value === 'Once');
  await page.click('#steps [data-door="start"]');
  await page.click('#kept-houses [aria-label^="Forget Once"]');
  await page.click('#forgotten-houses [aria-label^="Delete"]');
  assert.equal((await shelf(page)).length, 1);
  await page.click('#forgotten-houses [aria-label^="Delete"]');
  await page.waitForSelector('#forgotten-houses', { state: 'hidden' });
  assert.deepEqual(await shelf(page), []);
});

test('what was forgotten over 30 days ago is gone, and nothing younger', async () => {
  const { page } = await open();
  await sketch(page);
  await idle(page);
  const day = 86_400_000;
  for (const days of [29, 31]) await put(page, { key: `old-${days}`, name: `${days} days`, text: MILL_LANE, at: 1, forgotten: Date.now() - days * day });
  await page.reload();
  await ready(page);
  assert.deepEqual((await shelf(page)).map(({ key }) => key).filter((key) => key.startsWith('old')), ['old-29']);
});

test('300 houses are kept: none is taken away, and the list opens', async () => {
  const { page } = await open();
  await sketch(page);
  await rename(page, 'Mine');
  for (let number = 0; number < 300; number += 1) await put(page, { key: `n${number}`, name: `House ${number}`, text: MILL_LANE, at: number });
  await page.reload();
  await ready(page);
  assert.equal(await page.inputValue('#house-name'), 'Mine');
  await rename(page, 'Mine still');
  await page.click('#steps [data-door="start"]');
  await page.waitForFunction(() => document.querySelectorAll('#kept-houses [data-kept]').length === 301);
  await page.click('#kept-houses li:last-child [data-kept]');
  await reads(page, '#card-title', /Mill Lane house/);
  assert.equal((await shelf(page)).length, 301);
});

test('a house that is in this browser alone for a week is said to be', async () => {
  const { page } = await open();
  await ready(page);
  const at = Date.now() - 9 * 86_400_000;
  await put(page, { key: 'old', name: 'Old one', text: MILL_LANE, at, since: at });
  await page.reload();
  await ready(page);
  await reads(page, '#remind', /“Old one” is in this browser alone, for 9 days/);
  await shot(page, 'shelf-remind');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#remind [data-save-file]')]);
  assert.ok(download);
  await page.reload();
  await ready(page);
  assert.ok(await page.locator('#remind').isHidden(), 'it was saved as a file');
});

test('where nothing can be kept it is said at the first change, and another house is not opened over it unasked', async () => {
  const { page } = await open({
    init: () => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('refused', 'SecurityError');
      };
    },
  });
  await sketch(page);
  await reads(page, '#unkept', /Not kept: this browser refused/);
  await page.click('#steps [data-door="start"]');
  const before = await text(page);
  await page.click('[data-house-file="one-storey-gable-centre-wall-laps.json"]');
  await reads(page, '#unopened', /could not be kept. Opening another house would lose it/);
  assert.equal(await text(page), before);
  await shot(page, 'shelf-would-lose');
  await page.click('#unopened [data-anyway]');
  await reads(page, '#card-title', /Mill Lane house/);
});

test('a photo goes to the part that was chosen when it was picked', async () => {
  const { page } = await open();
  const file = JSON.parse(readFileSync(new URL('../../fixtures/evidence/s01-laps-seen.json', import.meta.url), 'utf8'));
  await ready(page);
  await page.evaluate((text) => window.sheet.open_file(text), JSON.stringify(file));
  const seen = file.levels.flatMap((level) => level.observations ?? []).map(({ id }) => id);
  assert.ok(seen.length > 1);
  const choose = (id) => command(page, { choose: { kind: 'observation', id } });
  await choose(seen[0]);
  await page.waitForSelector('#card-form [data-photo]', { state: 'attached' });
  // The picture takes its time.
  await page.evaluate(() => {
    const { createImageBitmap } = window;
    window.createImageBitmap = async (...of) => {
      await new Promise((done) => setTimeout(done, 600));
      return createImageBitmap(...of);
    };
  });
  const picture = await page.screenshot();
  await page.locator('#card-form [data-photo]').setInputFiles({ name: 'a.png', mimeType: 'image/png', buffer: picture });
  await choose(seen[1]);
  await reads(page, '#notice', /Photo taken: 1280 x 800 pixels, made 1200 x 750/);
  const after = JSON.parse(await text(page)).levels.flatMap((level) => level.observations ?? []);
  assert.deepEqual(after.filter(({ photo }) => photo).map(({ id }) => id), [seen[0]]);
});

test('40 photos are kept once each, the sheet stays quick, and the file carries them', { timeout: 120_000 }, async () => {
  const { page } = await open();
  await ready(page);
  // 40 pictures of about 90 kB that differ, as a camera gives them.
  const house = JSON.parse(readFileSync(new URL('../../fixtures/evidence/s01-laps-seen.json', import.meta.url), 'utf8'));
  const level = house.levels.find(({ observations }) => observations?.length);
  const [seen] = level.observations;
  let id = Math.max(...JSON.stringify(house).match(/"id":\d+/g).map((found) => Number(found.slice(5))));
  const body = 'A'.repeat(90_000);
  level.observations = Array.from({ length: 40 }, (_, number) => ({ ...seen, id: (id += 1), photo: `data:image/jpeg;base64,${String(number).padStart(4, '0')}${body}` }));
  const file = JSON.stringify(house);
  await page.locator('#file').setInputFiles({ name: 'photos.json', mimeType: 'application/json', buffer: Buffer.from(file) });
  await reads(page, '#kept', /kept in browser/);
  const short = await text(page);
  assert.ok(short.length < 100_000, `the sheet holds ${short.length} characters`);
  for (let number = 0; number < 60; number += 1) await command(page, { set_house: { key: 'name', value: `Step ${number}` } });
  await page.waitForTimeout(800);
  const { usage } = await page.evaluate(() => navigator.storage.estimate());
  assert.ok(usage < 40_000_000, `${usage} bytes for 51 steps of 40 photos`);
  await page.reload();
  await ready(page);
  assert.equal(await page.inputValue('#house-name'), 'Step 59');
  await page.click('#steps [data-door="send"]');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#save-file')]);
  const saved = JSON.parse(readFileSync(await download.path(), 'utf8'));
  const photos = JSON.stringify(saved).match(/data:image\/jpeg;base64,\d{4}/g);
  assert.equal(new Set(photos).size, 40);
  const { page: other } = await open();
  await ready(other);
  await other.locator('#file').setInputFiles(await download.path());
  await reads(other, '#kept', /kept in browser/);
  assert.equal(JSON.parse(await text(other)).levels.flatMap(({ observations }) => observations ?? []).filter(({ photo }) => photo).length, 40);
});

test('a photo too many is refused in a sentence before the file would be too large', async () => {
  const { page } = await open();
  await ready(page);
  const house = JSON.parse(readFileSync(new URL('../../fixtures/evidence/s01-laps-seen.json', import.meta.url), 'utf8'));
  const level = house.levels.find(({ observations }) => observations?.length);
  level.observations[0].photo = `data:image/jpeg;base64,${'A'.repeat(13_990_000)}`;
  await page.locator('#file').setInputFiles({ name: 'photos.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(house)) });
  await reads(page, '#kept', /kept in browser/);
  const before = await text(page);
  await command(page, { choose: { kind: 'observation', id: level.observations[1].id } });
  await page.waitForSelector('#card-form [data-photo]', { state: 'attached' });
  await page.locator('#card-form [data-photo]').setInputFiles({ name: 'a.png', mimeType: 'image/png', buffer: await page.screenshot() });
  await reads(page, '#notice', /more than fits into a house file/);
  assert.equal(await text(page), before);
});

test('what the shelf refuses later is said, and the house on the sheet stays', async () => {
  const { page } = await open();
  await sketch(page);
  await rename(page, 'Mine');
  await page.click('#steps [data-door="start"]');
  await page.waitForSelector('[data-kept]');
  await page.evaluate(() => {
    IDBDatabase.prototype.transaction = () => {
      throw new DOMException('refused', 'UnknownError');
    };
  });
  const before = await text(page);
  await page.click('#kept-houses [aria-label^="Forget Mine"]');
  await reads(page, '#unopened', /refused to get at what it keeps here: nothing was changed/);
  await page.click('[data-kept]');
  await reads(page, '#unopened', /nothing was changed/);
  assert.equal(await text(page), before);
});
