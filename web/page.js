// Starts the sheet, hands its state to the panels, says so when something breaks.
import { byId, caption, write } from './panels/dom.js';
import { card } from './panels/card.js';
import { doors } from './panels/doors.js';
import { form } from './panels/form.js';
import { keep } from './panels/keep.js';
import { levels } from './panels/levels.js';
import { look, steps } from './panels/look.js';
import { looks } from './panels/looks.js';
import { offline } from './panels/offline.js';
import { parts } from './panels/parts.js';
import { question } from './panels/question.js';
import { seen } from './panels/seen.js';
import { send } from './panels/send.js';
import { setup } from './panels/setup.js';
import { start } from './panels/start.js';
import { study } from './panels/study.js';
import { survey } from './panels/survey.js';
import { tools } from './panels/tools.js';

/** What every panel is given. */
const page = { sheet: null, doors: doors() };
page.state = () => page.sheet.state();
page.ask = (command) => {
  page.sheet.command(command);
  show();
};
let panels = [];

function broken() {
  if (document.body.dataset.broken !== 'yes') return;
  byId('broken').hidden = false;
  byId('broken').querySelector('button').onclick = () => location.reload();
}
for (const failure of ['error', 'unhandledrejection']) addEventListener(failure, broken);

function show() {
  const state = page.state();
  for (const panel of panels) panel(state);
}

async function openAddress() {
  if (location.hash.length < 2) return false;
  page.keep.opening = 'link';
  const opened = page.sheet.open_link(location.hash);
  page.keep.opening = opened ? 'link' : null;
  // The house is kept now; a reload must show its later changes, not the link again.
  history.replaceState(null, '', location.pathname + location.search);
  if (opened) page.doors.show(null);
  return opened;
}

async function begin() {
  const [glue, wasm] = document.querySelector('meta[name="joistwise"]').content.split(' ');
  const { default: init, Sheet } = await import(new URL(glue, document.baseURI));
  await init({ module_or_path: new URL(wasm, document.baseURI) });
  page.sheet = new Sheet(byId('sheet'), show);
  window.sheet = page.sheet;
  page.keep = keep(page);
  const first = start(page);
  setup(page);
  panels = [tools(page), question(page), levels(page), form(page), card(page), looks(page), seen(page), study(page), survey(page), parts(page), steps(page), look(page), page.keep.show, send(page)];
  const linked = await openAddress();
  if (!linked && !(await page.keep.last())) page.doors.show('start');
  page.keep.list().then(first.kept);
  byId('steps').querySelector('[data-door="start"]').addEventListener('click', () => page.keep.list().then(first.kept));
  addEventListener('hashchange', openAddress);
  show();
  if (!byId('status').textContent) write(byId('status'), caption('ready'));
  document.body.dataset.ready = 'yes';
  await offline();
}

begin().catch((error) => {
  document.body.dataset.broken = 'yes';
  broken();
  throw error;
});
