// The page's own files, kept at the first load and served from there ever after. A newer version is fetched whole beside the
// old one and waits until the page asks for it: it never takes over in the middle of a drawing. What is served is named last:
// there is no moment in which nothing is kept.
const PREFIX = 'joistwise-';
/** Names the version that is served. */
const POINTER = 'joistwise';
const LIST = 'files.json';
/** Names the version that waits. */
const NEXT = 'next.json';
const here = (path) => new URL(path, self.registration.scope).href;

async function list() {
  const answer = await fetch(here(LIST), { cache: 'no-cache' });
  if (!answer.ok) throw new Error(`${LIST}: ${answer.status}`);
  return answer.json();
}

const hex = (bytes) => [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

/** A file of a version, checked: a site that was copied half way serves some of the old ones. */
async function get({ path, sha256 }) {
  const answer = await fetch(here(path), { cache: 'no-cache' });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const bytes = await answer.clone().arrayBuffer();
  if (hex(await crypto.subtle.digest('SHA-256', bytes)) !== sha256) throw new Error(`${path}: of another version`);
  return answer;
}

/** Fetches a whole version into a cache of its own; nothing of it is kept if one file fails. */
async function fill({ version, files }) {
  const name = PREFIX + version;
  const answers = await Promise.all(files.map(get));
  const cache = await caches.open(name);
  try {
    await Promise.all(files.map(({ path }, index) => cache.put(here(path), answers[index])));
  } catch (error) {
    // What is served stays, even if it lacks a file.
    if (version !== await current()) await caches.delete(name);
    throw error;
  }
}

const read = async (name) => (await (await caches.open(POINTER)).match(here(name)))?.json();
const note = async (name, value) => (await caches.open(POINTER)).put(here(name), new Response(JSON.stringify(value)));

let served = null;
async function current() {
  served ??= (await read(LIST))?.version ?? null;
  return served;
}

/** From now on this version is served; the one before is still there for pages that are open. */
async function serve(version) {
  const before = await current();
  await note(LIST, { version });
  served = version;
  const stay = [POINTER, PREFIX + version, PREFIX + before];
  await Promise.all((await caches.keys()).filter((name) => name.startsWith(POINTER) && !stay.includes(name)).map((name) => caches.delete(name)));
}

/** Whether all of a version is in its cache. */
async function whole({ version, files }) {
  const cache = await caches.open(PREFIX + version);
  return (await cache.keys()).length >= files.length;
}

let looking = null;
async function look(client) {
  looking ??= (async () => {
    const newest = await list();
    const same = newest.version === await current();
    // A cache that lost a file is filled again, too.
    if (!(await whole(newest))) await fill(newest);
    await note(NEXT, { version: newest.version });
    return same ? null : newest.version;
  })().finally(() => (looking = null));
  if (await looking) client.postMessage('newer');
}

async function take(client) {
  // It is whole, and needs no net any more.
  const next = await read(NEXT);
  if (next) await serve(next.version);
  client.postMessage('taken');
}

async function first() {
  if (await current()) return;
  const newest = await list();
  await fill(newest);
  await serve(newest.version);
}

self.addEventListener('install', (event) => event.waitUntil(first().then(() => self.skipWaiting())));
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('message', (event) => {
  const act = { look, take }[event.data];
  // Without a net, or with a site that is half copied, there is nothing newer to be had.
  if (act) event.waitUntil(act(event.source).catch(() => {}));
});

async function answer(request) {
  const version = await current();
  const cache = version ? await caches.open(PREFIX + version) : null;
  // An address that is no file of the page is the page itself.
  const page = request.mode === 'navigate' ? here('./') : request.url;
  const kept = (await cache?.match(request.url)) ?? (await cache?.match(page));
  // A page of the version before asks for its own files, which no other version has.
  return kept ?? (await caches.match(page)) ?? fetch(request);
}
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});
