// What arrives from outside: it opens beside what is there, or says why not. Nothing happens silently.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { open, shot } from './lib/page.mjs';
import { houses, reads, ready, rename, sketch } from './lib/walk.mjs';

const fixture = (name) => readFileSync(new URL(`../../fixtures/${name}`, import.meta.url), 'utf8');
const MILL_LANE = fixture('houses/one-storey-gable-centre-wall-laps.json');
const STATION = fixture('houses/one-storey-truss-inside-walls.json');
const text = (page) => page.evaluate(() => window.sheet.file_text());

/** The link of a house file. */
async function linkOf(file) {
  const { page } = await open();
  await ready(page);
  return page.evaluate((file) => {
    window.sheet.open_file(file);
    return window.sheet.link();
  }, file);
}

test('a link opens beside the house that is open, as a house of its own, and one tap leads back', async () => {
  const link = await linkOf(MILL_LANE);
  const { page } = await open();
  await sketch(page);
  await rename(page, 'My own');
  await page.evaluate((part) => (location.hash = part), link);
  await reads(page, '#card-title', /Mill Lane house/);
  await reads(page, '#unopened', /“Mill Lane house” was opened as a house of its own. “My own” is kept as it was./);
  await shot(page, 'arrive-beside');
  assert.equal(await page.evaluate(() => location.hash), '');
  await page.waitForTimeout(500);
  assert.deepEqual((await houses(page)).map(({ name }) => name).sort(), ['Mill Lane house', 'My own']);
  await page.click('#unopened [data-back]');
  await page.waitForFunction(() => document.querySelector('#house-name').value === 'My own');
  // The same link again is the same house.
  await page.evaluate((part) => (location.hash = part), link);
  await reads(page, '#card-title', /Mill Lane house/);
  await page.waitForTimeout(500);
  assert.equal((await houses(page)).length, 2);
});

test('a damaged link says so although a kept house is shown', async () => {
  const link = await linkOf(MILL_LANE);
  const { page, another } = await open();
  await sketch(page);
  await rename(page, 'My own');
  const before = await text(page);
  await page.close();
  const again = await another(`/#${link.slice(0, -40)}`);
  await ready(again);
  await reads(again, '#unopened', /This did not open \(the link\).*damaged or was cut short.*The house you see is the one you had/);
  assert.equal(await text(again), before);
  await again.waitForTimeout(1500);
  assert.ok(await again.locator('#unopened').isVisible(), 'it stays until it is read');
  await shot(again, 'arrive-damaged');
});

test('of more than one file it is asked which', async () => {
  const { page } = await open({ width: 390, height: 844, touch: true });
  await ready(page);
  const file = (name, content) => ({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
  await page.locator('#file').setInputFiles([file('mill.json', MILL_LANE), file('station.json', STATION)]);
  await page.waitForSelector('#which:not([hidden])');
  await shot(page, 'arrive-which');
  await page.tap('#which li:nth-child(2) button');
  await reads(page, '#card-title', /Station Street house/);
  assert.ok(await page.locator('#which').isHidden());
});

/** Drops or pastes texts and files on the sheet. */
const bring = (page, how, words, files = []) => page.evaluate(([how, words, files]) => {
  const data = new DataTransfer();
  if (words) data.setData('text/plain', words);
  for (const [name, content] of files) data.items.add(new File([content], name));
  const event = how === 'drop' ? new DragEvent('drop', { dataTransfer: data, bubbles: true }) : new ClipboardEvent('paste', { clipboardData: data, bubbles: true });
  document.querySelector('#sheet').dispatchEvent(event);
}, [how, words, files]);

for (const how of ['drop', 'paste']) {
  test(`what is ${how === 'drop' ? 'dropped' : 'pasted'} opens or is refused in a sentence: a text, a link, files, nothing`, async () => {
    const link = await linkOf(STATION);
    const { page } = await open();
    await ready(page);
    await bring(page, how, MILL_LANE);
    await reads(page, '#card-title', /Mill Lane house/);
    await bring(page, how, 'shopping: milk, nails');
    await reads(page, '#unopened', /neither a house file nor a link/);
    await bring(page, how, `Look: https://example.invalid/page/#${link} ok?`);
    await reads(page, '#card-title', /Station Street house/);
    await bring(page, how, '', [['mill.json', MILL_LANE]]);
    await reads(page, '#card-title', /Mill Lane house/);
    const before = await text(page);
    await bring(page, how, '', [['notes.txt', 'no house']]);
    await reads(page, '#unopened', /This did not open \(notes.txt\)/);
    await bring(page, how, '', [['a.json', MILL_LANE], ['b.json', STATION]]);
    await page.waitForSelector('#which:not([hidden])');
    await page.click('#which [data-close]');
    await bring(page, how, '');
    await reads(page, '#unopened', /nothing was opened/);
    assert.equal(await text(page), before);
  });
}

test('a mail carries a plain summary and the link, or says that the file goes with it', async () => {
  const { page } = await open();
  await ready(page);
  await page.evaluate((file) => window.sheet.open_file(file), MILL_LANE);
  await page.click('#steps [data-door="send"]');
  const mail = new URL(await page.getAttribute('#mail', 'href'));
  assert.equal(mail.protocol, 'mailto:');
  assert.equal(mail.searchParams.get('subject'), 'Mill Lane house');
  assert.match(mail.searchParams.get('body'), /^Mill Lane house\n/);
  assert.ok(mail.searchParams.get('body').endsWith(await page.inputValue('#link')));
  await shot(page, 'arrive-send');
  await page.click('#show-qr');
  await reads(page, '#qr', /Point the camera/);
  assert.match(await page.getAttribute('#qr path', 'd'), /^M0 0h7v1h-7z/);
  await shot(page, 'arrive-qr');
});

for (const name of ['roof-10000ft-1in', 'field-100ft-1in-300walls']) {
  test(`the link ${name} takes nobody's house, and the list of houses is in reach`, { timeout: 120_000 }, async () => {
    const { page, another, expectError } = await open();
    expectError(/./);
    await sketch(page);
    await rename(page, 'My own');
    await page.waitForFunction(() => document.querySelector('#kept').dataset.kept === 'yes');
    await page.close();
    const part = fixture(`links/${name}.link`).trim();
    const met = await another(`/#${part}`);
    // Refused, opened, or stopped: each is said, and the page answers.
    await met.waitForFunction(() => ['yes', 'stopped', 'failed'].includes(document.body.dataset.ready), null, { timeout: 60_000 });
    await met.waitForTimeout(2000);
    await met.close({ runBeforeUnload: false });
    const again = await another('/');
    await ready(again);
    if ((await again.inputValue('#house-name')) !== 'My own') {
      if (await again.locator('#start').isHidden()) await again.click('#steps [data-door="start"]');
      await shot(again, `arrive-after-${name.slice(0, 5)}`);
      await again.click('[data-kept] >> text=My own');
    }
    await again.waitForFunction(() => document.querySelector('#house-name').value === 'My own');
  });
}
