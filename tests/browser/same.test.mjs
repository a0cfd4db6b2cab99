// The trace of every fixture house is the same to the byte natively and in the browser.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { test } from 'node:test';
import { open } from './lib/page.mjs';

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const HOUSES = path.join(ROOT, 'fixtures/houses');

/** What `joistwise trace FILE --json` prints. */
function native(file) {
  const command = ['run', '--quiet', '-p', 'joistwise', '--', 'trace', file, '--json'];
  return execFileSync('cargo', command, { cwd: ROOT, encoding: 'utf8', maxBuffer: 1 << 28 }).trim();
}

test('every fixture house has one trace, natively and in the browser', async () => {
  const { page } = await open();
  await page.waitForSelector('body[data-ready="yes"]');
  const files = readdirSync(HOUSES).filter((name) => name.endsWith('.json') && name !== 'index.json');
  assert.ok(files.length >= 19, `${files.length} houses`);
  for (const file of files) {
    const text = readFileSync(path.join(HOUSES, file), 'utf8');
    const here = await page.evaluate((text) => (window.sheet.open_file(text) ? window.sheet.trace_text() : null), text);
    assert.ok(here && here.length > 1000, `${file} opens`);
    assert.equal(here, native(path.join(HOUSES, file)), file);
  }
  console.log(`${files.length} traces are the same to the byte`);
});
