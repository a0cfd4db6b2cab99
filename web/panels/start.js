// The first panel: a size, an outline, a house file, a house kept here, or a worked house. It stands in nobody's way.
import { byId, caption, make } from './dom.js';

export function start(page) {
  const size = byId('size');
  byId('size-form').addEventListener('submit', (event) => {
    event.preventDefault();
    page.ask({ new: size.value });
    if (!page.state().notice) away();
  });
  byId('draw-outline').addEventListener('click', () => {
    if (!page.state().empty) page.ask('clear');
    page.ask({ tool: 'outline' });
    away();
  });
  const away = () => {
    size.value = '';
    page.doors.show(null);
    byId('sheet').focus({ preventScroll: true });
  };

  /** The houses kept in this browser, newest first. */
  const kept = (houses) => {
    byId('kept-houses').hidden = houses.length === 0;
    byId('kept-houses').querySelector('ul').replaceChildren(...houses.map(({ key, name, at }) =>
      make('li', {},
        make('button', { type: 'button', class: 'line', onclick: () => page.keep.open(key).then(away) },
          make('b', {}, name), make('span', {}, ` ${new Date(at).toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' })}`)),
        make('button', {
          type: 'button', class: 'quiet', 'aria-label': caption('forget', name), onclick: () => page.keep.forget(key).then(kept),
        }, '✕'))));
  };

  const worked = async () => {
    const houses = await (await fetch('houses/index.json')).json();
    byId('worked-houses').hidden = houses.length === 0;
    byId('worked-houses').querySelector('ul').replaceChildren(...houses.map(({ file, title, why }) =>
      make('li', {}, make('button', { type: 'button', class: 'line', 'data-house-file': file, onclick: () => open(file) },
        make('b', {}, title), make('span', {}, ` ${why}`)))));
  };
  const open = async (file) => {
    const text = await (await fetch(`houses/${file}`)).text();
    if (page.sheet.open_file(text)) away();
  };
  // Without them the page still works: they come from the same place as the page itself.
  worked().catch(() => (byId('worked-houses').hidden = true));
  return { kept };
}
