// What was seen: the list of kinds for the spot that was tapped, and the table of what counts as proof.
import { byId, caption, make, today, watch, write } from './dom.js';

export function seen(page) {
  const panel = byId('seeing');
  const differs = watch();
  const close = () => page.ask('see_nothing');
  panel.querySelector('[data-close]').addEventListener('click', close);
  panel.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') close();
  });
  byId('note-seen').addEventListener('click', () => page.ask('see_chosen'));
  for (const button of document.querySelectorAll('[data-proof]')) {
    button.addEventListener('click', () => {
      table();
      page.doors.show('proof');
    });
  }

  /** The table is the same for every house: filled once. */
  function table() {
    const place = byId('proof').querySelector('tbody');
    if (place.children.length) return;
    place.append(...page.sheet.proofs().map(({ what, proves, weight, source, memory }) => make('tr', {},
      make('th', { scope: 'row' }, what),
      make('td', {}, make('b', {}, weight), `. ${proves}.`, make('small', {}, memory ? caption('from-memory', source) : source)),
    )));
  }

  return ({ seeing }) => {
    if (!differs(seeing)) return;
    const opens = panel.hidden && seeing;
    panel.hidden = !seeing;
    if (!seeing) return;
    const { wall, level_name, place, groups } = seeing;
    write(byId('seeing-place'), wall ? caption('seen-at', wall, level_name) : caption('seen-in', place, level_name));
    byId('seeing-kinds').replaceChildren(...groups.filter(({ kinds }) => kinds.length).flatMap(({ about, kinds }) => [
      make('h3', {}, caption(`about-${about}`)),
      make('div', { class: 'kinds' }, ...kinds.map(({ key, detail, what, weight }) => make('button', {
        type: 'button', class: `kind ${weight}`, 'data-kind': key, 'data-detail': detail,
        onclick: () => page.ask({ record: [key, detail, today()] }),
      }, what))),
    ]));
    panel.scrollTop = 0;
    if (opens) byId('seeing-title').focus();
  };
}
