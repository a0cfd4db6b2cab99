// One page of the built site in headless Chromium, as a phone or a desk would show it.
//
// Started once per test file, closed after its last test. After each test every page it opened is closed, and the test
// fails on an error in the console, an uncaught exception, a crash, or a request to anything but this machine.
import assert from 'node:assert/strict';
import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { after, afterEach } from 'node:test';
import { chromium } from 'playwright-core';
import { fingers, mouse } from './hands.mjs';
import { serve } from './site.mjs';

const HERE = path.dirname(fileURLToPath(import.meta.url));
export const DIST = process.env.DIST ?? path.resolve(HERE, '../../../web/dist');
const SHOTS = path.resolve(HERE, '../shots');

export const FLAGS = [
  '--no-sandbox', // runs as root on build machines
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
];

let started;
const opened = [];

/** The address of the site under test, without a slash at its end. Starts the server when nothing did yet. */
export async function origin() {
  return (await start()).site.origin;
}

/**
 * Opens the page in a fresh profile: nothing stored, nothing cached.
 *
 * `width` and `height` are CSS pixels; `touch` makes it a phone; `dpr` is device pixels per CSS pixel; `url` is a path on
 * the site, with `?` and `#` as wanted; `options` go to the browser profile as they are (`colorScheme`, `locale`,
 * `reducedMotion`, ...); `init` is a function that runs in each document before its
 * scripts; `own` serves the page from a server of its own, which comes back as `site` and can be changed, `handle` false as it
 * is shipped; a `url` of `null` opens nothing yet. Returns once the document and its scripts are loaded, which may be before Rust answers.
 *
 * What comes back: `page` and `context` of playwright; `hand`, which taps and drags with a finger on a phone and with
 * the mouse at a desk (see hands.mjs); `another(url)`, a second tab in the same profile; `expectError(pattern)`, for a
 * test that provokes an error and says so.
 */
export async function open({ width = 1280, height = 800, touch = false, dpr = 1, url = '/', init = null, own = false, handle = true, options = {} } = {}) {
  const { browser, site: shared } = await start();
  const site = own ? await serve(DIST, { handle }) : shared;
  const context = await browser.newContext({
    viewport: { width, height },
    deviceScaleFactor: dpr,
    hasTouch: touch,
    isMobile: touch,
    ...options,
  });
  const record = { context, errors: [], expected: [], site: own ? site : null };
  opened.push(record);
  if (init) await context.addInitScript(init);
  context.on('request', (request) => checkHost(record, request.url()));
  context.on('page', (page) => listen(record, page));
  const another = async (path = '/') => {
    const page = await context.newPage();
    if (path !== null) await page.goto(new URL(path, `${site.origin}/`).href, { waitUntil: 'load' });
    return page;
  };
  const page = await another(url);
  return {
    site,
    page,
    context,
    hand: touch ? fingers(page) : mouse(page),
    another,
    expectError: (pattern) => record.expected.push(pattern),
  };
}

/** Writes what the page shows to `shots/NAME.png`, for a person to look at. Nothing is compared. */
export async function shot(page, name, options = {}) {
  assert.match(name, /^[a-z0-9-]+$/, 'a screenshot is named in small letters, digits and hyphens');
  mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: path.join(SHOTS, `${name}.png`), ...options });
}

/** The point of an element at a fraction of its width and height, in CSS pixels of the window: 0.5, 0.5 is its middle. */
export async function pointIn(page, selector, across = 0.5, down = 0.5) {
  const box = await page.locator(selector).boundingBox();
  assert.ok(box, `${selector} is not on the page`);
  return { x: box.x + box.width * across, y: box.y + box.height * down };
}

afterEach(async () => {
  const records = opened.splice(0);
  await Promise.all(records.map(({ context }) => context.close().catch(() => {})));
  await Promise.all(records.map(({ site }) => site?.close()));
  const errors = records.flatMap(({ errors, expected }) =>
    errors.filter((error) => !expected.some((pattern) => pattern.test(error))),
  );
  assert.deepEqual(errors, [], 'the page reported errors');
});

after(async () => {
  const { browser, site } = (await started?.catch(() => null)) ?? {};
  await browser?.close();
  await site?.close();
});

function start() {
  started ??= (async () => {
    assert.ok(existsSync(path.join(DIST, 'index.html')), 'web/dist is empty: run `cargo xtask build` first');
    const site = await serve(DIST);
    try {
      return { site, browser: await chromium.launch({ executablePath: chromiumPath(), args: FLAGS }) };
    } catch (error) {
      await site.close();
      throw error;
    }
  })();
  return started;
}

/** `CHROMIUM` when set, else the first of the usual names on the PATH. */
export function chromiumPath() {
  if (process.env.CHROMIUM) return process.env.CHROMIUM;
  for (const name of ['chromium', 'chromium-browser', 'google-chrome']) {
    for (const folder of (process.env.PATH ?? '').split(path.delimiter)) {
      const file = path.join(folder, name);
      try {
        accessSync(file, constants.X_OK);
        return file;
      } catch {
        // Not here: the next one.
      }
    }
  }
  throw new Error('no Chromium found: install it, or set CHROMIUM to its path');
}

function listen(record, page) {
  page.on('console', (message) => {
    if (message.type() === 'error') record.errors.push(`console: ${message.text()} (${message.location().url})`);
  });
  page.on('pageerror', (error) => record.errors.push(`exception: ${error.stack ?? error}`));
  page.on('crash', () => record.errors.push('the page crashed'));
  page.on('websocket', (socket) => checkHost(record, socket.url()));
}

function checkHost(record, address) {
  const { protocol, hostname } = new URL(address);
  if (!['http:', 'https:', 'ws:', 'wss:'].includes(protocol)) return;
  if (['127.0.0.1', 'localhost', '[::1]'].includes(hostname)) return;
  record.errors.push(`request to another machine: ${address}`);
}
