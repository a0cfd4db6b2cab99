// Keeping and sending: a link in a fresh profile, the shelf of this browser, a house file, and what is refused.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { press, reads, ready } from './lib/walk.mjs';

const fixture = (name) => new URL(`../../fixtures/${name}`, import.meta.url);
const MILL_LANE = 'houses/one-storey-gable-centre-wall-laps.json';

/** What the page has: the file it would save and the trace it shows. */
const whole = (page) => page.evaluate(() => [window.sheet.file_text(), window.sheet.trace_text()]);

async function openFile(page, ...files) {
  await page.locator('#file').setInputFiles(files);
}

test('a link opened in a fresh profile shows the same plan and the same trace', async () => {
  const { page, hand } = await open();
  await ready(page);
  await press(page, '[data-house-file="one-storey-gable-centre-wall-laps.json"]', hand);
  await reads(page, '#card-title', /Mill Lane house/);
  await press(page, '#steps [data-door="send"]', hand);
  const link = await page.locator('#link').inputValue();
  assert.match(link, /#house=[\w-]+$/);
  const there = await open({ url: link.slice(link.indexOf('/#')) });
  await ready(there.page);
  await reads(there.page, '#card-title', /Mill Lane house/);
  assert.deepEqual(await whole(there.page), await whole(page));
  await shot(there.page, 'link-fresh-profile');
});

test('a link that was cut short says so in one sentence and leaves the open house as it is', async () => {
  const { page } = await open();
  await ready(page);
  await openFile(page, { name: 'a.json', mimeType: 'application/json', buffer: readFileSync(fixture(MILL_LANE)) });
  await reads(page, '#card-title', /Mill Lane house/);
  const before = await whole(page);
  const link = await page.evaluate(() => window.sheet.link());
  await page.evaluate((part) => (location.hash = part), link.slice(0, -40));
  await reads(page, '#unopened', /damaged or was cut short/);
  assert.deepEqual(await whole(page), before);
});

test('a file that is no house says so in one sentence and leaves the open house as it is', async () => {
  const { page } = await open();
  await ready(page);
  await openFile(page, { name: 'a.json', mimeType: 'application/json', buffer: readFileSync(fixture(MILL_LANE)) });
  await reads(page, '#card-title', /Mill Lane house/);
  const before = await whole(page);
  for (const [name, sentence] of [
    ['broken/newer-version.json', /saved by a newer version \(9\)/],
    ['broken/openings-overlap.json', /openings 7 and 8 overlap/],
    ['README.md', /not a house file/],
  ]) {
    await openFile(page, { name, mimeType: 'application/json', buffer: readFileSync(fixture(name)) });
    await reads(page, '#unopened', sentence);
    assert.deepEqual(await whole(page), before, name);
  }
  await shot(page, 'file-refused');
});

test('a change is kept in this browser and there again after a reload', async () => {
  const { page, another } = await open();
  await ready(page);
  await page.fill('#size', "30' x 20'");
  await page.press('#size', 'Enter');
  await reads(page, '#kept', /kept/i);
  const [before] = await whole(page);
  const again = await another('/');
  await ready(again);
  assert.equal((await whole(again))[0], before);
});

test('a saved house file is the house', async () => {
  const { page, hand } = await open();
  await ready(page);
  await press(page, '[data-house-file="one-storey-truss-inside-walls.json"]', hand);
  await reads(page, '#card-title', /Station Street house/);
  await press(page, '#steps [data-door="send"]', hand);
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, '#save-file', hand)]);
  const text = readFileSync(await download.path(), 'utf8');
  assert.equal(text, (await whole(page))[0]);
  assert.match(download.suggestedFilename(), /^station-street-house\.house\.json$/);
});

test('it opens without a signal once it has been opened', async () => {
  const { page, context } = await open();
  await ready(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated', null, { timeout: 10_000 });
  await context.setOffline(true);
  await page.reload();
  await ready(page);
  await press(page, '[data-house-file="one-storey-truss-inside-walls.json"]', { tap: ({ x, y }) => page.mouse.click(x, y) });
  await reads(page, '#card-title', /Station Street house/);
});
