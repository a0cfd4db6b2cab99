// The page's own files, kept at the first load and served from there ever after. A newer version is fetched beside the
// old one and waits until the page asks for it: it never takes over in the middle of a drawing.
const KEPT = 'joistwise-kept';
const NEXT = 'joistwise-next';
const HOUSES = 'houses/index.json';
const here = (path) => new URL(path, self.registration.scope).href;

/** Every file of the page, as its first page and the list of worked houses name them. */
async function files(fetched) {
  const page = await fetched('./');
  const named = [...page.matchAll(/(?:href|src|content)="([^":\s]+\.(?:js|wasm|css|svg|webmanifest))(?: ([^":\s]+\.wasm))?"/g)];
  const houses = JSON.parse(await fetched(HOUSES)).map(({ file }) => `houses/${file}`);
  return [...new Set(['./', HOUSES, ...named.flatMap(([, one, two]) => (two ? [one, two] : [one])), ...houses])].map(here);
}

/** Fetches the whole page anew into a cache of its own; nothing is kept if one file fails. */
async function fill(name) {
  await caches.delete(name);
  const get = async (path) => {
    const answer = await fetch(here(path), { cache: 'no-cache' });
    if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
    return answer;
  };
  const all = await files(async (path) => (await get(path)).text());
  const answers = await Promise.all(all.map(get));
  const cache = await caches.open(name);
  await Promise.all(all.map((url, index) => cache.put(url, answers[index])));
}

async function bytes(cache, request) {
  const answer = await cache.match(request);
  return answer ? new Uint8Array(await answer.arrayBuffer()) : new Uint8Array();
}

/** Whether two caches hold the same files. */
async function same(one, other) {
  const [a, b] = await Promise.all([caches.open(one), caches.open(other)]);
  const [requests, others] = await Promise.all([a.keys(), b.keys()]);
  if (requests.length !== others.length) return false;
  for (const request of requests) {
    const [left, right] = await Promise.all([bytes(a, request), bytes(b, request)]);
    if (left.length !== right.length || left.some((byte, index) => byte !== right[index])) return false;
  }
  return true;
}

async function look(client) {
  await fill(NEXT);
  if (await same(KEPT, NEXT)) await caches.delete(NEXT);
  else client.postMessage('newer');
}

async function take(client) {
  const next = await caches.open(NEXT);
  const requests = await next.keys();
  if (requests.length > 0) {
    const kept = await caches.open(KEPT);
    await Promise.all((await kept.keys()).map((request) => kept.delete(request)));
    for (const request of requests) await kept.put(request, await next.match(request));
    await caches.delete(NEXT);
  }
  client.postMessage('taken');
}

self.addEventListener('install', (event) => {
  event.waitUntil(caches.has(KEPT).then((there) => (there ? undefined : fill(KEPT))).then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('message', (event) => {
  const act = { look, take }[event.data];
  // Without a net there is nothing newer to be had.
  if (act) event.waitUntil(act(event.source).catch(() => {}));
});
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  const path = request.mode === 'navigate' ? here('./') : request.url;
  event.respondWith(caches.open(KEPT).then((cache) => cache.match(path)).then((kept) => kept ?? fetch(request)));
});
