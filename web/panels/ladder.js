// The path ladder: a rung for each part between roof and soil, with what arrives there.
import { make } from './dom.js';

export function ladder(page, place, rungs) {
  place.replaceChildren(...rungs.map(({ title, figure, note, gap, role, part }) => {
    const words = [
      make('span', { class: 'rung-title' }, title),
      make('span', { class: 'rung-figure' }, figure),
      make('span', { class: 'rung-note' }, note),
    ];
    const body = part
      ? make('button', { type: 'button', class: 'line', onclick: () => page.ask({ choose: part }) }, ...words)
      : make('div', { class: 'line' }, ...words);
    return make('li', { class: `${role ?? ''}${gap ? ' gap' : ''}` }, body);
  }));
}
