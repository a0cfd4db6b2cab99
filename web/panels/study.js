// The take-out study: a stretch of wall, posts of a beam or a line under joists, what happens without it, what could take over; nothing in the house is edited.
import { all, byId, caption, fill, make, watch, write } from './dom.js';

const STILL = matchMedia('(prefers-reduced-motion: reduce)');
/** Pixels of the drawing for a foot across; sag is drawn this many times as large, or as much as fits. */
const SIZE = { wide: 380, high: 116, top: 30 };
const TIMES = [40, 20, 10, 5, 2, 1];

export function study(page) {
  const panel = byId('study');
  const differs = watch();
  const set = (key, value) => page.ask({ study_set: { key, value } });
  const open = new Set(['told']);
  /** Steps of work ticked off: what is typed or moved meanwhile draws the list again. */
  const done = new Set();
  byId('study-wall').addEventListener('click', () => page.ask('study'));
  panel.querySelector('[data-close]').addEventListener('click', () => page.ask('study_close'));
  byId('study-keep').addEventListener('click', () => page.ask('study_keep'));
  byId('study-take').addEventListener('click', () => page.ask('study_take'));
  panel.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') page.ask('study_close');
  });
  panel.addEventListener('input', (event) => {
    if (event.target.type === 'range') set(event.target.dataset.study, event.target.value);
  });
  panel.addEventListener('change', (event) => {
    const { study: key } = event.target.dataset;
    if (key && event.target.type !== 'range') set(key, event.target.value);
  });
  byId('study-shown').addEventListener('click', (event) => {
    const shown = event.target.closest('[data-shown]')?.dataset.shown;
    if (shown) set('shown', shown);
  });

  /** A sentence; its figures open with one tap, each with its formula, inputs and source. */
  function line({ text, figures }) {
    const list = figures.length ? make('dl', {}, ...figures.flatMap(({ label, value, how }) => [
      make('dt', {}, label),
      make('dd', {}, make('details', {}, make('summary', { 'data-figure': label }, value), make('span', { class: 'how' }, how))),
    ])) : null;
    return make('li', {}, text ? make('p', {}, text) : null, list);
  }

  function option({ family, name, text, ratio, lightest, shallowest, figures }) {
    const marks = [lightest && caption('lightest'), shallowest && caption('shallowest')].filter(Boolean).join(', ');
    const part = Math.min(1, ratio);
    return make('li', {}, make('details', {},
      make('summary', { 'data-beam': name },
        make('b', {}, name), marks ? make('span', { class: 'best' }, marks) : null,
        make('span', { class: 'how' }, `${family}: ${text.replace(`${name}: `, '')}`),
        make('progress', { max: '1', value: String(part), 'aria-label': caption('strength-used', Math.round(part * 100)) })),
      make('ul', { class: 'plain' }, line({ text: '', figures }))));
  }

  /** The cut: two supports, the wall that goes, the joists as they lie now and as they would. */
  function section({ old_ft, new_ft, old_in, new_in, words }) {
    const svg = 'http://www.w3.org/2000/svg';
    const shape = (tag, attributes, text) => {
      const element = document.createElementNS(svg, tag);
      for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
      if (text) element.textContent = text;
      return element;
    };
    const { wide, high, top } = SIZE;
    const scale = (wide - 40) / new_ft;
    const left = 20;
    const right = left + new_ft * scale;
    const wall = left + Math.min(old_ft, new_ft) * scale;
    const px = (inches, times) => inches / 12 * scale * times;
    const most = new_in ?? new_ft;
    const times = TIMES.find((one) => px(most, one) <= high - top - 20) ?? 1;
    const sagged = (from, to, inches) => `M${from} ${top}Q${(from + to) / 2} ${top + 2 * px(inches, times)} ${to} ${top}`;
    const drawing = shape('svg', { viewBox: `0 0 ${wide} ${high}`, role: 'img', 'aria-label': caption('cut', words) });
    const post = (x, kind) => shape('path', { d: `M${x} ${top + 4}V${high - 12}`, class: kind });
    drawing.append(post(left, 'stays'), post(right, 'stays'));
    if (wall < right - 2) drawing.append(post(wall, 'goes'));
    drawing.append(shape('path', { d: wall < right - 2 ? `${sagged(left, wall, old_in)}${sagged(wall, right, old_in)}` : sagged(left, right, old_in), class: 'now' }));
    if (new_in !== null) {
      const path = shape('path', { d: sagged(left, right, new_in), class: 'without' });
      if (!STILL.matches) {
        const move = shape('animate', { attributeName: 'd', dur: '2.4s', repeatCount: '1', values: `${sagged(left, right, 0)};${sagged(left, right, new_in)}`, calcMode: 'spline', keySplines: '.3 0 .2 1' });
        path.append(move);
      }
      drawing.append(path);
    } else drawing.append(shape('path', { d: `M${left} ${top}L${wall} ${high - 14}M${wall} ${high - 14}L${right} ${top}`, class: 'without' }));
    drawing.append(shape('text', { x: left, y: 14 }, words));
    byId('study-section').replaceChildren(drawing, make('p', { class: 'say' }, new_in === null ? caption('falls') : caption('sags', new_in.toFixed(1), String(times))));
  }

  function fold(key, title, ...children) {
    const details = make('details', { 'data-group': key, open: open.has(key) }, make('summary', {}, title), ...children);
    details.addEventListener('toggle', () => (details.open ? open.add(key) : open.delete(key)));
    return details;
  }

  /** The house as it stands and with the beam, side by side; drawn when it is opened. */
  function beside() {
    const place = make('div', { class: 'beside' });
    const draw = () => {
      if (place.children.length) return;
      place.append(...page.sheet.study_drawings().map((text, number) => make('figure', {},
        make('img', { src: `data:image/svg+xml,${encodeURIComponent(text)}`, alt: caption(number ? 'drawn-after' : 'drawn-before') }),
        make('figcaption', {}, caption(number ? 'drawn-after' : 'drawn-before')))));
    };
    const details = fold('beside', caption('study-beside'), place);
    details.addEventListener('toggle', () => details.open && draw());
    if (details.open) draw();
    return details;
  }

  /** A kept study: one tap opens it again, another removes it. */
  function kept(name, number, ...more) {
    return make('li', {},
      make('button', { type: 'button', class: 'line', onclick: () => page.ask({ study_open: number }) }, make('b', {}, name), ...more),
      make('button', { type: 'button', class: 'quiet', 'aria-label': caption('study-drop', name), onclick: () => page.ask({ study_drop: number }) }, '✕'));
  }

  const others = watch();
  let shown = null;
  return ({ study: now, chosen, put_down, kept: names }) => {
    if (others(names)) {
      byId('kept-studies').hidden = !names.length;
      write(byId('kept-studies').querySelector('span'), `(${names.length})`);
      byId('kept-studies').querySelector('ul').replaceChildren(...names.map((name, number) => kept(name, number)));
    }
    const kind = put_down ? 'field' : ['wall', 'post', 'field'].find((one) => one === chosen?.part.kind);
    byId('study-wall').hidden = !kind || Boolean(now);
    if (kind) write(byId('study-wall'), caption(`study-open-${kind}`));
    if (!differs(now)) return;
    panel.hidden = !now;
    if (!now) {
      shown = null;
      done.clear();
      return;
    }
    write(byId('study-title'), caption(`study-of-${now.of}`, now.opening, now.line));
    byId('study-left').hidden = now.left === null;
    for (const control of all('[data-study]', panel)) {
      if (control.type === 'range') Object.assign(control, { max: String(now.length_ft) });
      fill(control, String(now[control.dataset.study] ?? ''));
    }
    for (const button of all('[data-shown]', panel)) button.setAttribute('aria-pressed', String(button.dataset.shown === now.shown));
    byId('study-told').replaceChildren(...now.told.map((text) => make('p', {}, text)));
    const cut = JSON.stringify(now.section);
    if (cut !== shown) {
      shown = cut;
      if (now.section) section(now.section);
      else byId('study-section').replaceChildren();
    }
    const blocks = now.refusals.filter((one) => one.blocks);
    byId('study-progress').hidden = !now.progress;
    if (now.progress) write(byId('study-progress'), now.progress[1] ? caption('study-reading', ...now.progress) : caption('study-drawn'));
    // What is not sized is not drawn into the house either.
    byId('study-take').disabled = Boolean(now.progress) || blocks.length > 0;
    byId('study-refused').replaceChildren(...blocks.map(({ text }) => make('li', {}, text)));
    const groups = Object.fromEntries(now.groups.map(({ key, lines }) => [key, lines]));
    const lines = (key) => (groups[key].length ? [fold(key, caption(`study-${key}`), make('ul', {}, ...groups[key].map(line)))] : []);
    const offered = now.choices.length ? make('ul', { class: 'beams' }, ...now.choices.map(option)) : make('p', {}, caption('no-beam'));
    byId('study-body').replaceChildren(
      ...lines('lands'), ...lines('lost'),
      fold('beams', caption('study-beams', now.choices.length), offered, make('ul', { class: 'plain' }, ...now.none.map((text) => make('li', {}, text))), make('p', { class: 'say' }, now.plies), make('ul', {}, ...groups.beam.map(line))),
      ...lines('ends'), ...lines('down'), ...lines('props'),
      fold('steps', caption('study-steps'), make('ol', { class: 'order' }, ...now.steps.map(([what, why]) => make('li', {}, make('label', { class: 'switch' }, make('input', { type: 'checkbox', checked: done.has(what), onchange: ({ target }) => (target.checked ? done.add(what) : done.delete(what)) }), ' ', make('b', {}, what)), make('span', { class: 'how' }, why))))),
      beside(),
      ...(now.kept.length ? [fold('kept', caption('study-kept', now.kept.length), make('ul', { class: 'kept' }, ...now.kept.map((one, number) => kept(one.name, number, make('span', { class: 'how' }, caption('study-row', one.beam, one.ends, one.props))))))] : []),
      fold('asked', caption('study-asked'), make('ul', { class: 'plain' }, ...now.refusals.filter((one) => !one.blocks).map(({ text }) => make('li', {}, text)))),
    );
  };
}
