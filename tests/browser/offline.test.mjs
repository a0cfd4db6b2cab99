// No signal: everything after the first visit, versions side by side, a site that is half there.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, test } from 'node:test';
import { DIST, open, shot } from './lib/page.mjs';
import { relist } from './lib/site.mjs';
import { reads, ready, rename, sketch } from './lib/walk.mjs';

const made = [];
after(() => made.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

/** The built page as a later version: another name, one style more. */
function laterVersion() {
  const folder = mkdtempSync(path.join(tmpdir(), 'joistwise-next-'));
  made.push(folder);
  cpSync(DIST, folder, { recursive: true });
  const { version } = JSON.parse(readFileSync(path.join(folder, 'files.json'), 'utf8'));
  const next = version.replace(/./, (first) => (first === '0' ? '1' : '0'));
  renameSync(path.join(folder, version), path.join(folder, next));
  const page = path.join(folder, 'index.html');
  writeFileSync(page, readFileSync(page, 'utf8').replaceAll(version, next));
  relist(folder, next);
  return { folder, version, next };
}

const worker = (page) => page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated', null, { timeout: 15_000 });
/** Which version the page is of. */
const version = (page) => page.evaluate(() => document.querySelector('script[type="module"]').getAttribute('src').split('/')[0]);

test('a whole study is made on the second visit without a signal', async () => {
  const { page, site, hand, expectError } = await open({ own: true });
  // A browser asks for one beside every plain text.
  expectError(/favicon\.ico/);
  await ready(page);
  await worker(page);
  await site.close();
  await page.reload();
  await ready(page);
  await page.click('[data-house-file="one-storey-gable-centre-wall-laps.json"]');
  await reads(page, '#card-title', /Mill Lane house/);
  const wall = await page.evaluate(() => JSON.parse(window.sheet.file_text()).levels.find(({ kind }) => kind === 'storey').walls.find(({ side }) => side === 'inside').id);
  await page.evaluate((id) => window.sheet.command({ choose: { kind: 'wall', id } }), wall);
  await page.evaluate(() => window.sheet.command('study'));
  await page.waitForSelector('#study:not([hidden])');
  await reads(page, '#study', /Beams that would carry it|No beam is offered/);
  await shot(page, 'offline-study');
  await rename(page, 'Without a signal');
  const [licences] = await Promise.all([page.waitForEvent('popup'), page.click('#caution a')]);
  await licences.waitForLoadState();
  assert.match(await licences.locator('body').textContent(), /is built with the following packages[^]*idb 8/);
  await reads(page, '#kept', /kept in browser/);
  assert.ok(hand);
});

test('a newer version waits until it is asked for, and nothing that is drawn meanwhile is lost', async () => {
  const { page, site, context } = await open({ own: true });
  await sketch(page);
  await worker(page);
  const later = laterVersion();
  site.folder = later.folder;
  await rename(page, 'Before');
  await page.reload();
  await ready(page);
  assert.equal(await version(page), later.version, 'it does not take over by itself');
  await page.waitForSelector('#newer:not([hidden])', { timeout: 15_000 });
  await page.reload();
  await ready(page);
  assert.equal(await version(page), later.version, 'nor at the next load');
  await page.waitForSelector('#newer:not([hidden])', { timeout: 15_000 });
  await rename(page, 'In mid-drawing');
  await shot(page, 'offline-newer');
  // It is there already: no net is needed to take it.
  await context.setOffline(true);
  await Promise.all([page.waitForEvent('load'), page.click('#newer button')]);
  await ready(page);
  assert.equal(await version(page), later.next);
  assert.equal(await page.inputValue('#house-name'), 'In mid-drawing');
  await page.click('#undo');
  await page.waitForFunction(() => document.querySelector('#house-name').value === 'Before');
});

test('a newer version that was copied half way is not taken, and the one before goes on', async () => {
  const { page, site } = await open({ own: true });
  await ready(page);
  await worker(page);
  const later = laterVersion();
  site.folder = later.folder;
  // The list is of the new version, one module still of another.
  site.change = (name, body) => (name.endsWith('panels/card.js') ? Buffer.from(`${body}\n// another\n`) : body);
  await page.reload();
  await ready(page);
  await page.waitForTimeout(3000);
  assert.ok(await page.locator('#newer').isHidden());
  assert.equal(await version(page), later.version);
  site.change = null;
  await page.reload();
  await page.waitForSelector('#newer:not([hidden])', { timeout: 15_000 });
});

test('at no moment of taking a newer version is nothing kept', async () => {
  const { page, site, context } = await open({ own: true });
  await ready(page);
  await worker(page);
  site.folder = laterVersion().folder;
  await page.reload();
  await page.waitForSelector('#newer:not([hidden])', { timeout: 15_000 });
  const held = await page.evaluate(async () => {
    let least = Infinity;
    let over = false;
    navigator.serviceWorker.addEventListener('message', () => (over = true));
    navigator.serviceWorker.controller.postMessage('take');
    while (!over) {
      let files = 0;
      for (const name of await caches.keys()) files += (await (await caches.open(name)).keys()).length;
      least = Math.min(least, files);
    }
    return least;
  }).catch(() => Infinity);
  assert.ok(held > 20, `${held} files`);
  await context.setOffline(true);
  await page.reload();
  await ready(page);
});

test('a cache that lost the Rust part says so without a signal, and is mended with one', async () => {
  const { page, site, context, expectError } = await open({ own: true });
  expectError(/./);
  await ready(page);
  await worker(page);
  const lose = () => page.evaluate(async () => {
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) if (request.url.endsWith('.wasm')) await cache.delete(request);
    }
  });
  await lose();
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector('#broken:not([hidden])', { timeout: 15_000 });
  await shot(page, 'offline-no-rust');
  await context.setOffline(false);
  await page.reload();
  await ready(page);
  await page.waitForFunction(async () => {
    for (const name of await caches.keys()) {
      if ((await (await caches.open(name)).keys()).some(({ url }) => url.endsWith('.wasm'))) return true;
    }
    return false;
  }, null, { timeout: 15_000 });
  assert.ok(site);
});
