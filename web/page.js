// Starts the sheet, hands its state to the panels, says so when something stops it.
import { byId, caption, write } from './panels/dom.js';
import { arrive } from './panels/arrive.js';
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
import { stopped } from './panels/stopped.js';
import { study } from './panels/study.js';
import { survey } from './panels/survey.js';
import { tools } from './panels/tools.js';

/** What every panel is given. */
const page = { sheet: null, stopped: false, doors: doors() };
page.state = () => page.sheet.state();
page.ask = (command) => {
  if (page.stopped) return;
  page.sheet.command(command);
  show();
};
let panels = [];

function show() {
  if (page.stopped) return;
  const state = page.state();
  for (const panel of panels) panel(state);
}

async function begin() {
  stopped(page);
  // The shelf comes first: it works without Rust.
  page.keep = keep(page);
  const first = start(page);
  const sending = send(page);
  const [glue, wasm] = document.querySelector('meta[name="joistwise"]').content.split(' ');
  const { default: init, Sheet } = await import(new URL(glue, document.baseURI));
  await init({ module_or_path: new URL(wasm, document.baseURI) });
  page.sheet = new Sheet(byId('sheet'), show);
  setup(page);
  panels = [tools(page), question(page), levels(page), form(page), card(page), looks(page), seen(page), study(page), survey(page), parts(page), steps(page), look(page), page.keep.show, sending];
  const arriving = arrive(page);
  if (!(await page.keep.last()) && location.hash.length < 2) page.doors.show('start');
  arriving.address();
  first.list();
  show();
  if (!byId('status').textContent) write(byId('status'), caption('ready'));
  document.body.dataset.ready = 'yes';
  await offline(page);
}

begin().catch((error) => {
  page.stop(error);
  throw error;
});
