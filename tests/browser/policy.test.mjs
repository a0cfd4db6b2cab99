// What the page may do: run its own scripts, ask its own origin, be framed by nobody; whatever a stranger writes stays text.
import assert from 'node:assert/strict';
import { createServer } from 'node:http';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { open } from './lib/page.mjs';
import { reads, ready, rename, sketch } from './lib/walk.mjs';

const HOUSE = JSON.parse(readFileSync(new URL('../../fixtures/houses/one-storey-gable-basement-beam-and-posts.json', import.meta.url), 'utf8'));

test('every file comes with the whole policy', async () => {
  const { page, site } = await open({ own: true, url: null });
  const answers = [];
  page.on('response', (response) => answers.push(response));
  await page.goto(`${site.origin}/`);
  await ready(page);
  assert.ok(answers.length > 20);
  for (const answer of answers) {
    const headers = answer.headers();
    assert.match(headers['content-security-policy'], /default-src 'none'.*require-trusted-types-for 'script'.*frame-ancestors 'none'/, answer.url());
    assert.equal(headers['x-content-type-options'], 'nosniff');
    assert.equal(headers['referrer-policy'], 'no-referrer');
    assert.match(headers['permissions-policy'], /camera=\(\)/);
  }
});

test('another origin cannot frame the page', async () => {
  const { page, site, expectError } = await open({ own: true, url: null });
  expectError(/frame/i);
  const other = createServer((_, response) => {
    response.setHeader('content-type', 'text/html');
    response.end(`<iframe src="${site.origin}/"></iframe>`);
  });
  await new Promise((done) => other.listen(0, '127.0.0.1', done));
  await page.goto(`http://127.0.0.1:${other.address().port}/`);
  await page.waitForTimeout(1000);
  assert.ok(!page.frames().some((frame) => frame.url().startsWith(site.origin)), 'the frame is empty');
  other.closeAllConnections();
  other.close();
});

test('what is shipped gives no script a hold on the sheet', async () => {
  const { page } = await open({ own: true, handle: false });
  await ready(page);
  // Elements with an id are named on window by every browser; nothing else of the page is.
  const own = await page.evaluate(() => {
    const frame = document.body.appendChild(document.createElement('iframe'));
    const plain = new Set(Object.getOwnPropertyNames(frame.contentWindow));
    frame.remove();
    return Object.getOwnPropertyNames(window).filter((name) => !plain.has(name) && !/^\d+$|^__playwright/.test(name));
  });
  assert.deepEqual(own, []);
  assert.ok(await page.evaluate(() => window.sheet instanceof HTMLCanvasElement));
});

test('a whole session asks its own origin alone', async () => {
  const { page, site, context } = await open({ own: true, url: null });
  const asked = [];
  context.on('request', (request) => asked.push(request.url()));
  await page.goto(`${site.origin}/`);
  await sketch(page);
  await rename(page, 'Session');
  for (const door of ['survey', 'setup', 'send', 'start']) await page.click(`#steps [data-door="${door}"]`);
  await page.click('[data-house-file="one-storey-gable-centre-wall-laps.json"]');
  await reads(page, '#card-title', /Mill Lane house/);
  await page.click('#steps [data-door="send"]');
  await Promise.all([page.waitForEvent('download'), page.click('#save-file')]);
  await page.reload();
  await ready(page);
  const elsewhere = asked.filter((url) => !url.startsWith(`${site.origin}/`) && !/^(blob|data):/.test(url));
  assert.deepEqual(elsewhere, []);
});

/** 60 texts that would run if anything took them for markup, a script, a style or an address. */
const TAGS = ['img src=x', 'svg', 'iframe src=javascript:ran()', 'body', 'video><source', 'details open', 'input autofocus', 'style', 'object data=javascript:ran()', 'marquee', 'math', 'embed src=javascript:ran()', 'base href=javascript:/', 'link rel=stylesheet href=data:text/css,*{}', 'form action=javascript:ran()><button'];
const EVENTS = ['onerror', 'onload', 'ontoggle'];
const TEXTS = [
  ...TAGS.flatMap((tag) => EVENTS.map((event) => `"><${tag} ${event}=ran()>`)),
  '<script>ran()</script>', '</script><script>ran()</script>', "';ran();//", '";ran();//', '`;ran();//', '${ran()}', '{{constructor.constructor("ran()")()}}', 'javascript:ran()',
  'data:text/html,<script>parent.ran()</script>', '</textarea><script>ran()</script>', '</title><script>ran()</script>', '<!--<script>ran()//-->', ']]><script>ran()</script>', '\u202e<script>ran()</script>', '<scr\u0000ipt>ran()</scr\u0000ipt>',
];

test('60 injected texts in every field, file and link stay texts', { timeout: 180_000 }, async () => {
  assert.equal(TEXTS.length, 60);
  const { page } = await open({
    init: () => {
      window.ranAll = [];
      window.ran = () => window.ranAll.push('ran');
      document.addEventListener('securitypolicyviolation', ({ violatedDirective, sample }) => window.ranAll.push(`${violatedDirective} ${sample}`));
    },
  });
  await ready(page);
  const count = () => page.evaluate(() => document.querySelectorAll('script, iframe, object, embed, style, base, video, form[action]').length);
  const before = await count();
  const told = await page.evaluate(async ([texts, house]) => {
    const frame = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    const refused = [];
    for (const text of texts) {
      const short = text.slice(0, 40);
      const file = structuredClone(house);
      file.name = file.note = text;
      for (const level of file.levels) {
        level.name = short;
        for (const kind of ['walls', 'beams', 'posts', 'things']) for (const part of level[kind] ?? []) part.name = short;
        for (const seen of level.observations ?? []) Object.assign(seen, { note: text, day: short.slice(0, 20) });
      }
      for (const opens of [() => window.sheet.open_file(JSON.stringify(file)), () => window.sheet.open_link(window.sheet.link())]) {
        if (!opens()) refused.push(text);
        await frame();
        const { levels } = JSON.parse(window.sheet.file_text());
        for (const kind of ['wall', 'beam', 'post']) {
          const part = levels.flatMap((level) => level[`${kind}s`] ?? [])[0];
          if (part) window.sheet.command({ choose: { kind, id: part.id } });
          await frame();
        }
      }
      for (const what of [{ set_house: { key: 'name', value: text } }, { set_house: { key: 'note', value: text } }, { set: { key: 'name', value: text } }, { set_level: { key: 'name', value: text } }, { typed: text }, { say: text }, { set: { key: 'photo', value: text } }, { answer: { ask: 'size', say: text, texts: [text, text] } }]) window.sheet.command(what);
      await frame();
      window.sheet.open_file(text);
      window.sheet.open_link(`#house=${text}`);
      await frame();
    }
    return refused;
  }, [TEXTS, HOUSE]);
  // A text that a check refuses is refused in a sentence; most are taken as they are.
  assert.ok(told.length < 20, `${told.length} refused`);
  for (const panel of ['survey', 'setup', 'send', 'start']) await page.click(`#steps [data-door="${panel}"]`);
  assert.deepEqual(await page.evaluate(() => window.ranAll), []);
  assert.equal(await count(), before);
});
