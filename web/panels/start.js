// The first panel: a size, an outline, a house file, a house kept here, or a worked house. It stands in nobody's way.
import { byId, caption, make } from './dom.js';

export function start(page) {
  const size = byId('size');
  byId('size-form').addEventListener('submit', (event) => {
    event.preventDefault();
    held(() => {
      page.ask({ new: size.value });
      if (!page.state().notice) away();
    });
  });
  byId('draw-outline').addEventListener('click', () => held(() => {
    if (!page.state().empty) page.ask('clear');
    page.ask({ tool: 'outline' });
    away();
  }));
  const away = () => {
    size.value = '';
    page.doors.show(null);
    byId('sheet').focus({ preventScroll: true });
  };
  /** Goes on, unless what is drawn could not be kept: then it is asked first. */
  const held = (go) => {
    if (page.stopped || !page.sheet) return undefined;
    if (page.keep.held()) return go();
    return page.keep.offer(caption('would-lose', page.state().house.name, caption('the-other')), { save: page.saveFile, anyway: go });
  };

  /** What the shelf refuses is said. */
  const told = (act) => act.catch(() => page.keep.offer(caption('shelf-refused'), {}));
  const when = (at) => new Date(at).toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' });
  const day = (at) => new Date(at).toLocaleDateString([], { dateStyle: 'medium' });
  const button = (act, label, words) => make('button', { type: 'button', class: 'quiet', 'aria-label': label, title: label, onclick: act }, words);

  /** The houses kept in this browser, newest first, and those that can be brought back. */
  async function list() {
    const { kept, forgotten } = await page.keep.list();
    byId('kept-houses').hidden = kept.length === 0;
    byId('kept-houses').querySelector('ul').replaceChildren(...kept.map(({ key, name, at, copy }) => {
      const label = copy ? caption('copy-of', name) : name;
      return make('li', {},
        make('button', { type: 'button', class: 'line', 'data-kept': key, onclick: () => held(() => told(page.keep.open(key).then((opens) => opens && away()))) },
          make('b', {}, label), make('span', {}, ` ${when(at)}`)),
        button(() => told(page.keep.fileOf(key)), caption('save-kept', label), caption('file')),
        button(() => told(page.keep.forget(key).then(list)), caption('forget', label), '✕'));
    }));
    const place = byId('forgotten-houses');
    place.hidden = forgotten.length === 0;
    place.querySelector('ul').replaceChildren(...forgotten.map((house) => make('li', {},
      make('span', { class: 'line' }, make('b', {}, house.name), ` ${caption('goes-on', day(page.keep.goesOn(house)))}`),
      button(() => told(page.keep.bringBack(house.key).then(list)), caption('bring-back', house.name), caption('bring')),
      button((event) => sure(event.target, house), caption('for-good', house.name), caption('delete')))));
  }
  /** Asked twice: nothing brings it back afterwards. */
  function sure(control, house) {
    if (control.dataset.sure) return told(page.keep.remove(house.key).then(list));
    control.dataset.sure = 'yes';
    control.textContent = caption('really');
    return undefined;
  }

  const worked = async () => {
    const houses = await (await fetch(new URL('../houses/index.json', import.meta.url))).json();
    byId('worked-houses').hidden = houses.length === 0;
    byId('worked-houses').querySelector('ul').replaceChildren(...houses.map(({ file, title, why }) =>
      make('li', {}, make('button', { type: 'button', class: 'line', 'data-house-file': file, onclick: () => held(() => open(file)) },
        make('b', {}, title), make('span', {}, ` ${why}`)))));
  };
  const open = async (file) => {
    const answer = await fetch(new URL(`../houses/${file}`, import.meta.url)).catch(() => null);
    if (!answer?.ok) return page.keep.offer(caption('no-worked'), {});
    if (page.sheet.open_file(await answer.text())) away();
    return undefined;
  };
  // Without them the page still works: they come from the same place as the page itself.
  worked().catch(() => (byId('worked-houses').hidden = true));
  list();
  document.querySelector('#steps [data-door="start"]').addEventListener('click', list);
  return { list };
}
