// Moving and scaling the sheet with buttons, its size, and how much of it the panels cover.
import { all, byId } from './dom.js';

const STEP = 80;
/** The height of a row of buttons on a narrow screen. */
const ROW = 48;
const NARROW = matchMedia('(max-width: 760px)');

export function look(page) {
  const acts = {
    in: { zoom: 1.25 },
    out: { zoom: 0.8 },
    fit: 'fit',
    left: { pan: [STEP, 0] },
    right: { pan: [-STEP, 0] },
    up: { pan: [0, STEP] },
    down: { pan: [0, -STEP] },
  };
  byId('look').addEventListener('click', (event) => {
    const act = acts[event.target.closest('[data-look]')?.dataset.look];
    if (act) page.ask(act);
  });
  const desk = byId('desk');
  const size = () => {
    const { width, height } = byId('sheet').getBoundingClientRect();
    page.sheet.resize(width, height, devicePixelRatio);
    cover();
  };
  const cover = () => {
    const box = desk.getBoundingClientRect();
    const card = byId('card').getBoundingClientRect();
    const tray = byId('tray').getBoundingClientRect();
    const asked = byId('question').getBoundingClientRect();
    const top = Math.max(0, asked.bottom - box.top);
    desk.style.setProperty('--asked', `${top}px`);
    const narrow = NARROW.matches;
    const open = ['survey', 'study'].map(byId).find((panel) => !panel.hidden);
    const walk = open ? open.getBoundingClientRect() : card;
    page.ask({
      covered: {
        left: narrow ? 0 : byId('section').getBoundingClientRect().right - box.left,
        top: narrow ? top + ROW : top,
        right: narrow ? 0 : box.right - Math.min(card.left, walk.left),
        bottom: box.bottom - (narrow ? Math.min(card.top, tray.top, walk.top) : tray.top),
      },
    });
  };
  size();
  new ResizeObserver(size).observe(byId('sheet'));
  const covers = new ResizeObserver(cover);
  for (const id of ['card', 'tray', 'section', 'question', 'survey', 'study']) covers.observe(byId(id));
  const sharper = () => matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => {
    size();
    sharper();
  }, { once: true });
  sharper();
  return () => {
    for (const id of ['undo', 'redo']) byId(id).disabled = !page.state()[id];
  };
}

/** Undo and redo: buttons, and keys wherever the focus is, but for text that is being typed. */
export function steps(page) {
  for (const step of ['undo', 'redo']) byId(step).addEventListener('click', () => page.ask(step));
  document.addEventListener('keydown', (event) => {
    const key = event.key.toLowerCase();
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (event.target.matches('input, textarea, canvas')) return;
    if (key !== 'z' && key !== 'y') return;
    event.preventDefault();
    page.ask(key === 'y' || event.shiftKey ? 'redo' : 'undo');
  });
  const notice = byId('notice');
  notice.querySelector('button').addEventListener('click', () => page.ask('dismiss'));
  return (state) => {
    notice.hidden = !state.notice;
    const span = notice.querySelector('span');
    const sentence = state.notice ?? '';
    if (span.textContent !== sentence) span.textContent = sentence && sentence[0].toUpperCase() + sentence.slice(1);
    if (state.status && byId('status').textContent !== state.status) byId('status').textContent = state.status;
    document.documentElement.dataset.scheme = state.scheme;
    for (const control of all('[data-house]')) {
      if (document.activeElement !== control) control.value = state.house[control.dataset.house] ?? '';
    }
  };
}
