// Keeping: every change goes into this browser's own storage, house by house; nothing leaves the device.
import { byId, caption, clock, write } from './dom.js';

const MOST = 24;
const asPromise = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

export function keep(page) {
  let key = null; // of the open house; null until its first change
  let opened = null;
  let revision = null;
  let stored = null; // when it was last kept
  let refused = false;
  let forGood = false;
  const base = (async () => {
    const request = indexedDB.open('joistwise', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('houses', { keyPath: 'key' });
    return asPromise(request);
  })();
  const shelf = async (mode) => (await base).transaction('houses', mode).objectStore('houses');
  const list = async () => (await asPromise((await shelf('readonly')).getAll())).sort((a, b) => b.at - a.at);

  async function put(state) {
    const text = page.sheet.file_text();
    // The same link opened twice is one house.
    key ??= (await list()).find((house) => house.text === text)?.key ?? `${Date.now()}-${state.opened}`;
    const at = Date.now();
    await asPromise((await shelf('readwrite')).put({ key, name: state.house.name, text, at }));
    if (stored === null) {
      forGood = (await navigator.storage?.persist?.()) ?? false;
      for (const old of (await list()).slice(MOST)) (await shelf('readwrite')).delete(old.key);
    }
    stored = new Date(at);
    refused = false;
  }

  let busy = Promise.resolve();
  const say = () => {
    write(byId('kept'), refused ? `· ${caption('not-kept')}` : stored ? `· ${caption('kept')}` : '');
    byId('kept').dataset.kept = refused ? 'no' : stored ? 'yes' : '';
    const long = refused ? caption('kept-never') : stored ? caption(forGood ? 'kept-for-good' : 'kept-for-now', clock(stored)) : caption('no-change');
    write(byId('kept-long'), long);
  };
  const show = (state) => {
    if (state.opened !== opened) {
      // Another house: it gets its own place on the shelf once it is changed.
      if (opened !== null && page.keep.opening !== 'shelf') [key, stored] = [null, null];
      [opened, revision] = [state.opened, null];
    }
    const changed = state.undo || state.redo || ['link', 'file'].includes(page.keep.opening);
    if (state.revision !== revision && changed) {
      busy = busy.then(() => put(state)).catch(() => (refused = true)).then(say);
    }
    revision = state.revision;
    page.keep.opening = null;
    say();
  };

  /** Opens a kept house; its changes go to the same place again. */
  async function open(from) {
    const house = await asPromise((await shelf('readonly')).get(from));
    if (!house) return false;
    await busy;
    page.keep.opening = 'shelf';
    [key, stored] = [house.key, new Date(house.at)];
    return page.sheet.open_file(house.text);
  }

  async function forget(from) {
    await asPromise((await shelf('readwrite')).delete(from));
    if (from === key) [key, stored] = [null, null];
    return list();
  }

  /** The house of last time; false if there is none. */
  async function last() {
    const [newest] = await list().catch(() => []);
    return newest ? open(newest.key) : false;
  }
  return { show, open, forget, last, list: () => list().catch(() => []), idle: () => busy, opening: null };
}
