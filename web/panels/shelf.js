// The shelf: what this browser keeps, a record for each house, its last steps and its photos. Knows neither the sheet nor
// the page: it works when Rust does not.
import { openDB } from '../vendor/idb.js';

const STORES = ['houses', 'steps', 'photos'];
/** How many steps before the one that is shown are kept, and as many of those taken back. */
export const STEPS = 50;
/** How long a forgotten house can be brought back, in days. */
export const DAYS = 30;
const DAY = 86_400_000;

let base = null;
/** What the page is told: the store was cleared under it; another tab with an older page holds it. */
export const told = { cleared() {}, blocked() {} };

function open() {
  base ??= openDB('joistwise', 2, {
    upgrade(store, from) {
      if (from < 1) store.createObjectStore('houses', { keyPath: 'key' });
      if (from < 2) {
        for (const name of ['steps', 'photos']) store.createObjectStore(name, { keyPath: ['house', 'id'] }).createIndex('house', 'house');
      }
    },
    blocked: () => told.blocked(),
    blocking(_current, _next, event) {
      event.target.close();
      base = null;
    },
    terminated() {
      base = null;
      told.cleared();
    },
  });
  return base;
}

/** A transaction; on a store opened anew when the last one is gone. */
async function begin(mode) {
  for (const last of [false, true]) {
    try {
      const transaction = (await open()).transaction(STORES, mode, { durability: 'strict' });
      // Its end is awaited where it is used; here it only must not go unheard.
      transaction.done.catch(() => {});
      return transaction;
    } catch (error) {
      base = null;
      if (last) throw error;
    }
  }
}

/** All houses, newest first; the forgotten ones apart. */
export async function list() {
  const all = await (await begin('readonly')).objectStore('houses').getAll();
  all.sort((a, b) => b.at - a.at);
  return { kept: all.filter((house) => !house.forgotten), forgotten: all.filter((house) => house.forgotten) };
}

/** A house with its steps in order and its photos; `undefined` if it is not there. */
export async function get(key) {
  const transaction = await begin('readonly');
  const house = await transaction.objectStore('houses').get(key);
  if (!house) return undefined;
  const steps = await transaction.objectStore('steps').index('house').getAll(key);
  const photos = await transaction.objectStore('photos').index('house').getAll(key);
  const byId = new Map(steps.map((step) => [step.id, step.text]));
  const ids = (house.ids ?? []).filter((id) => byId.has(id));
  return { house, steps: ids.map((id) => ({ id, text: byId.get(id) })), photos };
}

/**
 * Keeps a house as it is now, all of it or nothing: `ids` are its steps in order, `texts` what each is, `now` the one that
 * is shown, `photos` the bytes of a photo by its name. Answers with the new revision, or with `clash` if another tab has
 * kept the house since `revision`: then nothing is written.
 */
export async function keep({ key, name, ids, texts, now, revision, namesOf, photo, also = {} }) {
  const transaction = await begin('readwrite');
  const [houses, steps, photos] = STORES.map((store) => transaction.objectStore(store));
  const old = await houses.get(key);
  if (old && (old.revision ?? 0) !== revision) {
    transaction.abort();
    return { clash: true };
  }
  const keysOf = async (store) => new Set((await store.index('house').getAllKeys(key)).map(([, id]) => id));
  const [thereSteps, therePhotos] = [await keysOf(steps), await keysOf(photos)];
  const writes = [];
  for (const id of ids) if (!thereSteps.has(id)) writes.push(steps.put({ house: key, id, text: texts.get(id) }));
  for (const id of thereSteps) if (!ids.includes(id)) writes.push(steps.delete([key, id]));
  const shown = new Set(ids.flatMap((id) => namesOf(texts.get(id) ?? '')));
  for (const id of shown) if (!therePhotos.has(id) && photo(id)) writes.push(photos.put({ house: key, id, data: photo(id) }));
  for (const id of therePhotos) if (!shown.has(id)) writes.push(photos.delete([key, id]));
  const at = Date.now();
  const next = (old?.revision ?? revision) + 1;
  writes.push(houses.put({ since: at, ...old, ...also, key, name, text: texts.get(now), at, revision: next, ids, now, forgotten: null }));
  // A request that fails ends the transaction: that is told by its end.
  await Promise.all(writes.map((write) => write.catch(() => {})));
  await transaction.done;
  return { revision: next, at };
}

/** Changes what is noted of a house, not the house. */
export async function note(key, values) {
  const transaction = await begin('readwrite');
  const houses = transaction.objectStore('houses');
  const house = await houses.get(key);
  if (house) await houses.put({ ...house, ...values });
  await transaction.done;
}

/** Puts a house among the forgotten ones, from where it can be brought back. */
export const forget = (key) => note(key, { forgotten: Date.now() });
export const bringBack = (key) => note(key, { forgotten: null });
export const goesOn = ({ forgotten }) => new Date(forgotten + DAYS * DAY);

/** Takes a house away for good. */
export async function remove(...keys) {
  if (!keys.length) return;
  const transaction = await begin('readwrite');
  for (const key of keys) {
    await transaction.objectStore('houses').delete(key);
    for (const name of ['steps', 'photos']) {
      const store = transaction.objectStore(name);
      for (const one of await store.index('house').getAllKeys(key)) await store.delete(one);
    }
  }
  await transaction.done;
}

/** Takes away what was forgotten longer ago than it can be brought back. */
export async function clean() {
  const { forgotten } = await list();
  await remove(...forgotten.filter((house) => goesOn(house) < new Date()).map(({ key }) => key));
}
