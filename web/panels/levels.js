// The house section at the left: tap a level to bring it onto the sheet; levels above and below, and their values.
import { all, byId, caption, fill, make, watch, write } from './dom.js';

const ROOF = 'M2 34 48 4l46 30z';

export function levels(page) {
  const section = byId('section');
  byId('level-more').addEventListener('click', (event) => {
    const kind = event.target.closest('[data-add-level]')?.dataset.addLevel;
    if (!kind) return;
    page.ask({ add_level: kind });
    // The new level asks its questions over the sheet: the list must not lie on it.
    byId('level-more').open = false;
  });
  byId('remove-level').addEventListener('click', () => {
    page.ask({ remove_level: page.state().levels.find((level) => level.here).id });
  });
  for (const control of all('[data-level-key]')) {
    control.addEventListener('change', () => {
      page.ask({ set_level: { key: control.dataset.levelKey, value: control.value } });
    });
  }
  const roof = byId('roof-layer');
  roof.addEventListener('change', () => page.ask({ roof: roof.checked ? 'shown' : 'hidden' }));
  const differs = watch();
  return (state) => {
    for (const control of all('[data-level-key]')) fill(control, state.level[control.dataset.levelKey] ?? '');
    roof.checked = state.roof === 'shown';
    roof.closest('label').hidden = !state.levels.some((level) => level.roof);
    byId('remove-level').disabled = state.levels.length < 2;
    write(byId('level-name'), state.level.name);
    section.classList.toggle('no-roof', state.roof === 'hidden');
    if (!differs(state.levels)) return;
    const focused = document.activeElement?.dataset?.level;
    const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
    svg.setAttribute('viewBox', '0 0 96 36');
    svg.setAttribute('aria-hidden', 'true');
    const path = document.createElementNS('http://www.w3.org/2000/svg', 'path');
    path.setAttribute('d', ROOF);
    svg.append(path);
    svg.classList.toggle('open', !state.levels.some((level) => level.roof));
    const floors = state.levels.map((level) =>
      make('button', {
        type: 'button',
        class: level.path ? `${level.kind} on-path` : level.kind,
        title: level.path ? caption('on-path') : null,
        'data-level': String(level.id),
        'aria-pressed': String(level.here),
        onclick: () => page.ask({ level: level.id }),
      }, level.name.replace(/ floor$/, '')),
    );
    section.replaceChildren(svg, ...floors);
    if (focused) section.querySelector(`[data-level="${focused}"]`)?.focus();
  };
}
