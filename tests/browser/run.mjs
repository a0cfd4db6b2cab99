// Runs the browser tests against web/dist: all of them, or those whose names are given.
//
//     node tests/browser/run.mjs [smoke ...]
//
// One file after another: two browsers at a time would share the cores and the clock. `CHROMIUM` names the browser.
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { run } from 'node:test';
import { spec } from 'node:test/reporters';
import { fileURLToPath } from 'node:url';

const HERE = path.dirname(fileURLToPath(import.meta.url));
const ENDING = '.test.mjs';
const LIMIT_MS = 600_000;
const COUNTS = /^(tests|suites|pass|fail|cancelled|skipped|todo|duration_ms) /;

const wanted = process.argv.slice(2);
const files = readdirSync(HERE)
  .filter((name) => name.endsWith(ENDING))
  .filter((name) => wanted.length === 0 || wanted.includes(name.slice(0, -ENDING.length)))
  .sort()
  .map((name) => path.join(HERE, name));
if (files.length === 0) {
  console.error(wanted.length === 0 ? 'no browser tests found' : `no browser test is named ${wanted.join(' or ')}`);
  process.exit(1);
}

const closing = [];
async function* withoutCounts(events) {
  for await (const event of events) {
    if (event.type === 'test:fail' && !event.data.todo) process.exitCode = 1;
    if (event.type === 'test:diagnostic' && COUNTS.test(event.data.message)) closing.push(event.data.message);
    else yield event;
  }
}

run({ files, concurrency: 1, timeout: LIMIT_MS })
  .compose(withoutCounts)
  .compose(new spec())
  .on('end', () => console.log(closing.map((line) => `# ${line}`).join('\n')))
  .pipe(process.stdout);
