// Keeping: every change goes onto the shelf of this browser with its steps; nothing leaves the device. What could not be
// kept is said, with a file beside it.
import { all, byId, caption, clock, write } from './dom.js';
import { mark, read } from './marks.js';
import * as photos from './photos.js';
import * as shelf from './shelf.js';

const WEEK = 7 * 86_400_000;
/** After this long without stopping a house counts as opened. */
const SETTLED_MS = 10_000;
const some = () => [...crypto.getRandomValues(new Uint32Array(2))].map((number) => number.toString(36)).join('');
const TAB = some();

/** The house on the sheet, as it goes onto the shelf. `key` is null until its first change. */
const fresh = () => ({ key: null, name: '', revision: 0, ids: [], numbers: new Map(), texts: new Map(), now: null, shown: 0, at: null, waiting: false, unsaved: false, filed: null, since: null });

export function keep(page) {
  let house = fresh();
  let opened = null; // the sheet's count of opened houses
  let from = null; // how the house that is being opened came: 'shelf', 'link' or 'file'
  let refused = null; // why the last change is not kept
  let forGood = false;
  let busy = Promise.resolve();
  const channel = 'BroadcastChannel' in window ? new BroadcastChannel('joistwise') : null;
  const tell = (message) => channel?.postMessage({ ...message, tab: TAB });

  // What is kept.

  /** Takes down the steps of the sheet that are not known yet, and which is shown. */
  function capture(state) {
    const steps = [...page.sheet.steps()];
    const step = page.sheet.step();
    const place = steps.indexOf(step);
    const near = steps.slice(Math.max(0, place - shelf.STEPS), place + shelf.STEPS + 1);
    const { numbers, texts } = house;
    for (const number of near) {
      if (numbers.has(number)) continue;
      const id = some();
      numbers.set(number, id);
      texts.set(id, page.sheet.step_text(number));
    }
    house.ids = near.map((number) => numbers.get(number));
    house.now = numbers.get(step);
    house.shown = step;
    house.name = state.house.name;
    for (const [number, id] of numbers) {
      if (house.ids.includes(id)) continue;
      numbers.delete(number);
      texts.delete(id);
    }
  }

  async function put(it) {
    it.waiting = false;
    // The same link opened twice is one house.
    if (!it.key) {
      const text = it.texts.get(it.now);
      const same = it.ids.length === 1 && (await shelf.list()).kept.find((other) => other.text === text);
      [it.key, it.revision] = same ? [same.key, same.revision ?? 0] : [`${Date.now()}-${TAB}`, 0];
      tell({ open: it.key });
    }
    const kept = await shelf.keep({ ...it, namesOf: photos.named, photo: photos.bytesOf, also: it.also });
    if (kept.clash) {
      // Two tabs changed it: each keeps its own.
      [it.key, it.revision, it.at] = [null, 0, null];
      it.also = { copy: true, since: Date.now(), filed: null };
      bar('elsewhere', caption('copied-apart', it.name));
      return put(it);
    }
    it.also = undefined;
    it.revision = kept.revision;
    tell({ kept: it.key, revision: it.revision });
    const first = it.at === null;
    it.at = new Date(kept.at);
    it.since ??= kept.at;
    refused = null;
    it.unsaved = it.waiting;
    if (!it.unsaved && read('pending')?.key === it.key) mark('pending', null);
    mark('last', it.key);
    if (first) forGood = await Promise.resolve(navigator.storage?.persist?.()).catch(() => false) ?? false;
  }

  function keepNow() {
    const it = house;
    it.waiting = it.unsaved = true;
    busy = busy
      .then(() => (it.waiting ? put(it) : undefined))
      .catch((error) => {
        refused = error?.name === 'QuotaExceededError' ? 'full' : 'refused';
        it.waiting = true; // it still is to be kept
      })
      .then(say);
  }

  // What is said.

  function bar(name, text) {
    write(byId(name).querySelector('span'), text);
    byId(name).hidden = !text;
  }
  for (const one of all('.bar [data-close]')) one.addEventListener('click', () => (one.closest('.bar').hidden = true));
  byId('unkept').querySelector('[data-try]').addEventListener('click', () => {
    if (page.sheet && !page.stopped) capture(page.state());
    keepNow();
  });

  function say() {
    const word = refused ? 'not-kept' : house.at ? 'kept' : null;
    write(byId('kept'), word ? `· ${caption(word)}` : '');
    byId('kept').dataset.kept = refused ? 'no' : house.at ? 'yes' : '';
    const long = refused ? caption(`unkept-${refused}`) : house.at ? caption(forGood ? 'kept-for-good' : 'kept-for-now', clock(house.at)) : caption('no-change');
    write(byId('kept-long'), long);
    bar('unkept', refused ? caption(`unkept-${refused}`) : '');
  }

  /** A house that is in this browser alone for a week. */
  function remind(it) {
    const last = it.filed ?? it.since;
    const due = last && Date.now() - last > WEEK && !(it.filed && it.at <= it.filed);
    bar('remind', due ? caption('remind', it.name, Math.floor((Date.now() - last) / 86_400_000)) : '');
  }

  const show = (state) => {
    if (state.opened !== opened) {
      if (opened !== null && from !== 'shelf') house = fresh();
      // From the shelf the house was put in place by `open`.
      opened = state.opened;
      settle();
    }
    const brought = from === 'link' || from === 'file';
    if (page.sheet.step() !== house.shown || brought) {
      capture(state);
      keepNow();
    }
    from = null;
    say();
  };

  /** Takes the mark of an opening away, once the house is read or has been there for a while. */
  function settle() {
    const began = Date.now();
    const look = () => {
      if (page.stopped) return;
      if (page.state().progress && Date.now() - began < SETTLED_MS) setTimeout(look, 300);
      else mark('opening', null);
    };
    setTimeout(look, 300);
  }

  // Opening.

  /**
   * Opens a kept house with its steps; its changes go to the same place again. One that cannot be opened stays as it is.
   * `back` is how many steps before the kept one it opens.
   */
  async function open(key, back = 0) {
    await busy;
    const found = await shelf.get(key);
    if (!found) return false;
    const { house: kept, photos: pictures } = found;
    for (const { id, data } of pictures) photos.hold(id, data);
    let steps = found.steps;
    if (!steps.some(({ id }) => id === kept.now)) steps = [{ id: some(), text: photos.short(kept.text) }];
    let now = Math.max(0, steps.findIndex(({ id }) => id === kept.now));
    const pending = read('pending');
    if (pending?.key === key && pending.text !== steps[now].text && pending.at > kept.at) {
      // Typed in the last moment before the page went: its own step.
      steps = [...steps.slice(0, now + 1), { id: some(), text: pending.text }];
      now += 1;
    }
    now = Math.max(0, now - back);
    mark('opening', { key, name: kept.name });
    from = 'shelf';
    if (!page.sheet.open_steps(steps.map(({ text }) => text), now)) {
      from = null;
      mark('opening', null);
      unopened(kept, steps[now].text);
      return false;
    }
    const numbers = [...page.sheet.steps()];
    const first = now - numbers.indexOf(page.sheet.step());
    const mine = steps.slice(first, first + numbers.length);
    house = {
      ...fresh(),
      key,
      name: kept.name,
      revision: kept.revision ?? 0,
      ids: mine.map(({ id }) => id),
      numbers: new Map(mine.map(({ id }, place) => [numbers[place], id])),
      texts: new Map(mine.map(({ id, text }) => [id, text])),
      now: steps[now].id,
      // Another than the kept one is shown: it is to be kept.
      shown: steps[now].id === kept.now || !found.steps.length ? page.sheet.step() : -1,
      at: new Date(kept.at),
      filed: kept.filed ?? null,
      since: kept.since ?? kept.at,
    };
    refused = null;
    mark('last', key);
    bar('elsewhere', '');
    tell({ open: key });
    remind(house);
    return true;
  }

  /** Says why a kept house does not open, and offers its text as it is. */
  function unopened({ name }, text) {
    const why = page.state().notice;
    page.ask('dismiss');
    offer(caption('unopened', name, why), { save: () => page.download(name, photos.whole(text)) });
  }

  /** A sentence with what can be done: `open`, `before`, `back`, `save`, `anyway`; `calm` if nothing is wrong. */
  function offer(sentence, acts) {
    const place = byId('unopened');
    place.classList.toggle('calm', Boolean(acts.calm));
    for (const act of ['open', 'before', 'back', 'save', 'anyway']) {
      const button = place.querySelector(`[data-${act}]`);
      button.hidden = !acts[act];
      button.onclick = async () => {
        if (act !== 'save') place.hidden = true;
        await acts[act]();
      };
    }
    bar('unopened', sentence);
  }

  /** The house of last time; false if there is none, or if it stopped the page. */
  async function last() {
    await shelf.clean().catch(() => {});
    const { kept } = await list();
    const counted = read('count') ?? 0;
    if (counted > 0 && kept.length === 0) offer(caption('thrown-away', counted), {});
    mark('count', kept.length);
    const newest = kept.find(({ key }) => key === read('last')) ?? kept[0];
    const mine = read('trapped') ?? read('opening');
    const name = mine?.name ?? '';
    if (mine?.link) offer(caption('link-stopped'), {});
    else if (mine && newest?.key === mine.key) {
      const go = (back) => async () => {
        mark('trapped', null);
        if (await open(newest.key, back)) page.doors.show(null);
      };
      offer(caption(read('trapped') ? 'stopped-before' : 'opening-before', name), {
        open: go(0),
        before: newest.ids?.length > 1 ? go(1) : null,
        save: () => fileOf(newest.key),
      });
      mark('opening', null);
      return false;
    }
    mark('opening', null);
    mark('trapped', null);
    const pending = read('pending');
    if (pending && !pending.key) {
      // A first change that the page went away over.
      mark('pending', null);
      from = 'file';
      if (page.sheet.open_file(pending.text)) return true;
    }
    return newest ? open(newest.key).catch(() => false) : false;
  }

  const list = () => shelf.list().catch(() => ({ kept: [], forgotten: [] }));

  /** A kept house as a file, whether or not this page can open it. */
  async function fileOf(key) {
    const { house: kept, photos: pictures } = await shelf.get(key);
    for (const { id, data } of pictures) photos.hold(id, data);
    page.download(kept.name, photos.whole(kept.text));
    await shelf.note(key, { filed: Date.now() });
  }

  async function forget(key) {
    await shelf.forget(key);
    if (key === house.key) Object.assign(house, { key: null, at: null, revision: 0 });
    say();
  }

  /** Notes that the house on the sheet was saved as a file. */
  function filed() {
    house.filed = Date.now();
    byId('remind').hidden = true;
    busy = busy.then(() => (house.key ? shelf.note(house.key, { filed: house.filed }) : undefined)).catch(() => {});
  }

  // Other tabs.

  channel?.addEventListener('message', ({ data }) => {
    if (data.tab === TAB) return;
    if (data.open && data.open === house.key) {
      bar('elsewhere', caption('open-elsewhere', house.name));
      tell({ also: house.key });
    }
    if (data.also && data.also === house.key) bar('elsewhere', caption('open-elsewhere', house.name));
    if (data.kept && data.kept === house.key && data.revision > house.revision) {
      bar('elsewhere', caption('changed-elsewhere', house.name));
      byId('elsewhere').querySelector('[data-show]').hidden = false;
    }
  });
  byId('elsewhere').querySelector('[data-show]').addEventListener('click', (event) => {
    event.target.hidden = true;
    open(house.key);
  });

  shelf.told.cleared = () => {
    if (!house.at) return;
    house.revision = 0;
    offer(caption('cleared'), {});
    keepNow();
  };
  shelf.told.blocked = () => offer(caption('older-tab'), {});

  // The last moment: what is being typed is taken, and noted where nothing has to be waited for.
  function leave(controls) {
    const typing = document.activeElement;
    if (page.stopped || !page.sheet) return;
    if (typing?.matches?.(controls)) typing.dispatchEvent(new Event('change', { bubbles: true }));
    if (!house.unsaved || !house.now) return;
    mark('pending', { key: house.key, name: house.name, text: house.texts.get(house.now), at: Date.now() });
  }
  addEventListener('pagehide', () => leave('[data-key], [data-house]'));
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') leave('textarea, #house-name');
  });

  return {
    show, open, last, list, forget, fileOf, filed, offer,
    bringBack: shelf.bringBack, remove: shelf.remove, goesOn: shelf.goesOn,
    idle: () => busy,
    /** How the next house that opens came. */
    comes: (how) => (from = how),
    /** Whether everything drawn is on the shelf, or nothing was drawn. */
    held: () => !refused,
    /** The house on the sheet: its name, its text as last taken down, and when it was kept. */
    latest: () => ({ name: house.name, key: house.key, text: house.now ? photos.whole(house.texts.get(house.now)) : null, at: refused ? null : house.at }),
  };
}
