// Everything on the plan as a list: the drawing in words, and another way to choose.
import { byId, make, watch, write } from './dom.js';
import { chips } from './card.js';

export function parts(page) {
  const place = byId('parts-list');
  const differs = watch();
  return ({ summary, chosen }) => {
    if (!differs(summary.parts, chosen?.part)) return;
    write(byId('parts-count'), `(${summary.parts.length})`);
    byId('parts').hidden = summary.parts.length === 0;
    const focused = document.activeElement?.dataset?.partNumber;
    const levels = [...new Set(summary.parts.map((part) => part.level))];
    place.replaceChildren(...levels.flatMap((level) => {
      const own = summary.parts.filter((part) => part.level === level);
      return [make('h4', {}, own[0].level_name), make('ul', {}, ...own.map((part) => line(part, chosen)))];
    }));
    if (focused) place.querySelector(`[data-part-number="${focused}"]`)?.focus();
  };

  function line(entry, chosen) {
    const { part, title, sentence } = entry;
    const here = chosen?.part.id === part.id;
    return make('li', {}, make('button', {
      type: 'button',
      class: 'line',
      'aria-pressed': String(here),
      'data-part-number': String(part.id),
      onclick: () => page.ask({ choose: part }),
    }, ...chips(entry), make('b', {}, title), make('span', {}, ` ${sentence}`)));
  }
}
