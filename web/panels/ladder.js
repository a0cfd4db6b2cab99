// The path ladder: a rung for each part between roof and soil, what arrives first, then where it goes.
import { caption, make } from './dom.js';

export function ladder(page, place, rungs) {
  const first = (way) => rungs.findIndex((rung) => rung.way === way);
  const heads = new Map([[first('up'), 'arrives'], [first('down'), 'goes']]);
  place.replaceChildren(...rungs.flatMap((rung, number) => {
    const head = heads.get(number);
    const level = rung.level === rungs[number - 1]?.level ? '' : rung.level;
    return [head ? make('li', { class: 'way' }, caption(head)) : null, line(page, { ...rung, level })].filter(Boolean);
  }));
}

function line(page, { way, title, level, figure, note, gap, role, part }) {
  const words = [
    make('span', { class: 'rung-title' }, title),
    make('span', { class: 'rung-figure' }, figure),
    make('span', { class: 'rung-note' }, [note, level].filter(Boolean).join(' · ')),
  ];
  const body = part && way !== 'here'
    ? make('button', { type: 'button', class: 'line', onclick: () => page.ask({ choose: part }) }, ...words)
    : make('div', { class: 'line' }, ...words);
  return make('li', { class: `${way} ${role ?? ''}${gap ? ' gap' : ''}` }, body);
}
