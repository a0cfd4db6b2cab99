// Keeping: every change goes into this browser's own storage, house by house; nothing leaves the device.
import { byId, caption, clock, write } from './dom.js';

const MOST = 24;
const asPromise = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});
/** Whether it is kept is told by the transaction, not by the request: a full disk refuses only at its end. */
const done = (transaction) => new Promise((resolve, reject) => {
  transaction.oncomplete = () => resolve();
  transaction.onabort = () => reject(transaction.error ?? new DOMException('', 'AbortError'));
});

export function keep(page) {
  let key = null; // of the open house; null until its first change
  let opened = null;
  let revision = null;
  let stored = null; // when it was last kept
  let refused = false;
  let forGood = false;
  let base = null;
  const openBase = async () => {
    const request = indexedDB.open('joistwise', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('houses', { keyPath: 'key' });
    const opened = await asPromise(request);
    // Somebody cleared what this site keeps: it is opened anew, and the house on the sheet is kept again.
    opened.onclose = () => {
      base = null;
      if (stored) keepAgain();
    };
    opened.onversionchange = () => {
      opened.close();
      base = null;
    };
    return opened;
  };
  /** A transaction, on a store that is opened anew when the last one is gone or was refused. */
  async function begin(mode) {
    for (const last of [false, true]) {
      try {
        base ??= openBase();
        return (await base).transaction('houses', mode, { durability: 'strict' });
      } catch (error) {
        base = null;
        if (last) throw error;
      }
    }
  }
  const read = async (ask) => asPromise(ask((await begin('readonly')).objectStore('houses')));
  async function change(act) {
    const transaction = await begin('readwrite');
    const end = done(transaction);
    act(transaction.objectStore('houses'));
    return end;
  }
  const list = async () => (await read((houses) => houses.getAll())).sort((a, b) => b.at - a.at);

  async function put(state) {
    const text = page.sheet.file_text();
    // The same link opened twice is one house.
    key ??= (await list()).find((house) => house.text === text)?.key ?? `${Date.now()}-${state.opened}`;
    const at = Date.now();
    await change((houses) => houses.put({ key, name: state.house.name, text, at }));
    const first = stored === null;
    stored = new Date(at);
    refused = false;
    if (!first) return;
    forGood = await Promise.resolve(navigator.storage?.persist?.()).catch(() => false) ?? false;
    const old = (await list()).slice(MOST);
    if (old.length) await change((houses) => old.forEach(({ key }) => houses.delete(key)));
  }

  let busy = Promise.resolve();
  const keepNow = (state) => (busy = busy.then(() => put(state)).catch(() => (refused = true)).then(say));
  const keepAgain = () => keepNow(page.state());
  byId('unkept').querySelector('[data-try]').addEventListener('click', keepAgain);
  const say = () => {
    byId('unkept').hidden = !refused;
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
    if (state.revision !== revision && changed) keepNow(state);
    revision = state.revision;
    page.keep.opening = null;
    say();
  };

  /** Opens a kept house; its changes go to the same place again. One that cannot be opened stays as it is. */
  async function open(from) {
    const house = await read((houses) => houses.get(from));
    if (!house) return false;
    await busy;
    page.keep.opening = 'shelf';
    const opens = page.sheet.open_file(house.text);
    if (opens) [key, stored] = [house.key, new Date(house.at)];
    else unopened(house);
    return opens;
  }

  /** Says why a kept house does not open, and offers its text as it is. */
  function unopened({ name, text }) {
    page.keep.opening = null;
    const why = page.state().notice;
    page.ask('dismiss');
    const bar = byId('unopened');
    write(bar.querySelector('span'), caption('unopened', name, why));
    bar.querySelector('[data-save]').onclick = () => page.download(name, text);
    bar.querySelector('[data-close]').onclick = () => (bar.hidden = true);
    bar.hidden = false;
  }

  async function forget(from) {
    await change((houses) => houses.delete(from));
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
