// Where to look next: the look list of the house, or of the chosen wall, each look with what it may show.
import { byId, caption, make, today, watch, write } from './dom.js';

export function looks(page) {
  const section = byId('card-looks');
  const list = section.querySelector('ol');
  const differs = watch();
  let opened = null;

  return ({ looks: all, chosen, put_down, settled, progress, empty }) => {
    const wall = chosen?.part.kind === 'wall' ? chosen.part.id : null;
    // A chosen wall has its own looks, and those that tell what is over it.
    const here = chosen && wall === null ? [] : all.filter((look) => wall === null || look.wall === null || look.wall.id === wall);
    const shown = put_down || empty ? [] : here;
    if (!differs(shown, settled, progress, wall, empty, !chosen, !put_down)) return;
    const going = progress ? caption('reading', progress.done.toLocaleString(), progress.all.toLocaleString()) : '';
    write(byId('reading'), going);
    const about = empty || settled.stretches === 0 || chosen || put_down ? '' : settled.certain === settled.stretches
      ? caption(settled.stretches === 1 ? 'one-certain' : 'all-certain', settled.stretches) : caption('some-certain', settled.certain, settled.stretches);
    const ends = about && !all.length && settled.certain < settled.stretches && !progress ? ` ${caption('no-look')}` : '';
    write(byId('settled'), about ? `${about} ${settled.readings}.${ends}` : '');
    const disagree = chosen ? [] : settled.disagree;
    byId('disagree').hidden = !disagree.length;
    byId('disagree').replaceChildren(...disagree.map((text) => make('li', {}, text)));
    list.replaceChildren(...shown.map(line));
    section.hidden = !shown.length && !about && !going;
  };

  function line({ number, title, look_for, level_name, settles, outcomes }) {
    const name = `${title} ${level_name}`;
    const details = make('details', { 'data-look-number': String(number), open: opened === name },
      make('summary', {}, make('span', { class: 'number', 'aria-hidden': 'true' }, String(number)), make('span', {}, make('b', {}, title), make('span', { class: 'how' }, `${level_name}: ${settles}`))),
      make('p', { class: 'say' }, look_for),
      make('p', { class: 'say' }, caption('what-is-it')),
      make('ul', {}, ...outcomes.map(({ text, share, means }, outcome) => make('li', {}, make('button', {
        type: 'button', class: 'line outcome', 'data-outcome': text,
        onclick: () => page.ask({ looked: [number, outcome, today()] }),
      }, make('b', {}, text), make('span', { class: 'how' }, ` ${caption('as-likely', share)}. ${means}.`))))));
    details.addEventListener('toggle', () => {
      if (details.open) opened = name;
      else if (opened === name) opened = null;
    });
    return make('li', {}, details);
  }
}
