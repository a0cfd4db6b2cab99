// The survey: what to look at in the order people walk, one stage open at a time, each answer a tap or two.
import { byId, caption, make, today, watch, write } from './dom.js';

export function survey(page) {
  const panel = byId('survey');
  const list = byId('stages');
  const differs = watch();
  let stages = null;
  let stage = null; // the stage that is open, and the step in it
  let step = null;
  let asked = false; // whether Rust was told that the panel is open

  const nameOf = (value) => JSON.stringify(value);
  const openIn = (one) => one?.steps.find((each) => each.open);
  const find = () => stages?.find((one) => nameOf(one.stop) === stage);

  // The door opens and closes by its own rules; the steps are asked for only while it is open.
  new MutationObserver(() => {
    if (panel.hidden === !asked) return;
    asked = !panel.hidden;
    page.ask({ survey: asked });
  }).observe(panel, { attributes: true, attributeFilter: ['hidden'] });

  /** Opens a stage at its first open step, or closes it. */
  function turnTo(one) {
    const again = one && nameOf(one.stop) === stage;
    stage = one && !again ? nameOf(one.stop) : null;
    walkTo(stage ? openIn(one) : null);
  }
  function walkTo(next) {
    step = next?.key ?? null;
    draw();
    if (next) page.ask({ survey_at: next.key });
    inView();
  }
  function inView() {
    const at = list.querySelector('.step[open]') ?? list.querySelector('.stage > [aria-expanded="true"]');
    at?.scrollIntoView({ block: 'nearest' });
  }

  function say(one, said) {
    page.ask({ surveyed: [one.key, said, today()] });
    const { notice, survey: now } = page.state();
    if (notice || !now) return;
    stages = now;
    // On to the next open step after this one, then any that was passed over.
    // A new level under the house takes the place of the stage that asked for it.
    const here = find() ?? stages.find((each) => each.stop.stop === JSON.parse(stage)?.stop);
    stage = here ? nameOf(here.stop) : null;
    const at = here?.steps.findIndex((each) => each.key === one.key) ?? -1;
    const next = here && [...here.steps.slice(at + 1), ...here.steps.slice(0, at)].find((each) => each.open);
    if (said === 'open') return draw();
    if (next) walkTo(next);
    else turnTo(stages.slice(stages.indexOf(here) + 1).find(openIn) ?? stages.find(openIn));
    focusOn();
  }
  const focusOn = () => (list.querySelector('.step[open] > summary') ?? list.querySelector('.stage > button'))?.focus({ preventScroll: true });

  function drawOnSheet(one) {
    page.ask({ survey_at: one.key });
    page.doors.close();
    page.ask({ tool: one.draw });
    byId('sheet').focus({ preventScroll: true });
  }

  function typed(one) {
    const hint = caption(`type-${one.typed}`);
    const box = make('input', {
      'aria-label': `${one.title}: ${hint}`, placeholder: hint, autocomplete: 'off', spellcheck: 'false', enterkeyhint: 'done',
      inputmode: one.typed === 'year' ? 'numeric' : null,
    });
    const form = make('form', { class: 'row' }, box, make('button', {}, caption('take-text')));
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      if (box.value.trim()) say(one, { text: box.value });
    });
    return form;
  }

  function line(one) {
    const name = one.key;
    const mark = one.open ? '' : one.not_seen ? '–' : '✓';
    const details = make('details', { class: `step${one.open ? ' due' : ''}`, name: 'survey-step', 'data-task': one.task, open: name === step },
      make('summary', {},
        make('span', {}, make('b', {}, one.title), make('span', { class: 'how' }, one.said || one.how)),
        make('span', { class: 'mark', 'aria-hidden': 'true' }, mark)),
      one.said ? make('p', { class: 'say' }, one.how) : null,
      make('div', { class: 'replies' },
        ...one.replies.map(({ text, said }, number) => make('button', {
          type: 'button', 'aria-pressed': String(said), 'data-reply': text, onclick: () => say(one, { tap: number }),
        }, text)),
        one.draw ? make('button', { type: 'button', class: 'draw', onclick: () => drawOnSheet(one) }, caption('draw-it')) : null),
      one.typed ? typed(one) : null,
      make('div', { class: 'replies' },
        make('button', { type: 'button', class: 'later', 'aria-pressed': String(one.not_seen), onclick: () => say(one, 'not_seen') }, caption('not-seen-today')),
        one.open ? null : make('button', { type: 'button', class: 'later', onclick: () => say(one, 'open') }, caption('take-back'))));
    details.addEventListener('toggle', () => {
      if (details.open && step !== name) {
        step = name;
        page.ask({ survey_at: one.key });
      } else if (!details.open && step === name) step = null;
    });
    return details;
  }

  function draw() {
    const held = list.contains(document.activeElement) ? document.activeElement : null;
    const place = held && [...list.querySelectorAll('button, summary, input')].indexOf(held);
    const rows = stages.map((one, number) => {
      const open = nameOf(one.stop) === stage;
      const id = `stage-${number}`;
      const done = one.settled === one.steps.length;
      const head = make('button', {
        type: 'button', class: done ? 'done' : null, 'aria-expanded': String(open), 'aria-controls': open ? id : null, 'data-stop': one.stop.stop,
        onclick: () => turnTo(one),
      }, make('span', {}, one.title), make('span', { class: 'how' }, caption('stage-done', one.settled, one.steps.length)));
      return make('section', { class: 'stage' }, head, open ? make('div', { id }, ...one.steps.map(line)) : null);
    });
    list.replaceChildren(...rows);
    if (held) [...list.querySelectorAll('button, summary, input')][place]?.focus({ preventScroll: true });
  }

  let shown = false;
  return ({ survey: now }) => {
    const opens = Boolean(now) && !shown;
    shown = Boolean(now);
    if (!now || (!differs(now) && !opens)) return;
    stages = now;
    const steps = now.flatMap((one) => one.steps);
    const settled = steps.filter((one) => !one.open).length;
    write(byId('survey-done'), settled === steps.length ? caption('survey-all', steps.length) : caption('survey-done', settled, steps.length));
    if (opens) {
      // Where one was, if anything is open there; else the first stop where something is.
      const here = [find(), ...now].find(openIn);
      stage = here ? nameOf(here.stop) : null;
      if (!here?.steps.some((one) => one.open && one.key === step)) step = openIn(here)?.key ?? null;
    }
    draw();
    if (opens) inView();
  };
}
