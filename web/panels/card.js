// The card: what the chosen part does, why, how sure; or, with nothing chosen, what is open on the house.
import { all, byId, caption, fill, make, watch, write } from './dom.js';
import { ladder } from './ladder.js';

export function card(page) {
  const element = byId('card');
  const lists = ['stretches', 'gaps', 'watch', 'why', 'look', 'figures', 'ladder', 'ledger'].map((name) => byId(`card-${name}`));
  const grab = byId('grab');
  const sheet = (to) => {
    element.dataset.sheet = to;
    grab.setAttribute('aria-expanded', String(to === 'half'));
  };
  grab.addEventListener('click', () => sheet(element.dataset.sheet === 'half' ? 'peek' : 'half'));
  let from = null;
  grab.addEventListener('pointerdown', (event) => (from = event.clientY));
  grab.addEventListener('pointerup', (event) => {
    const by = event.clientY - (from ?? event.clientY);
    if (Math.abs(by) > 24) setTimeout(() => sheet(by < 0 ? 'half' : 'peek'));
  });
  byId('ladder-whole').addEventListener('click', () => page.ask({ stretch: null }));
  byId('card-close').addEventListener('click', () => page.ask({ choose: null }));

  const by = byId('figures-by').querySelector('select');
  by.addEventListener('change', () => page.ask({ by: by.value }));

  const differs = watch();
  const others = watch();
  let tool;
  return (state) => {
    const chosen = state.chosen;
    const shown = chosen ?? state.put_down;
    // On a narrow screen the sheet makes room for the hand that draws.
    if (state.tool !== tool && state.tool !== 'pick') sheet('peek');
    tool = state.tool;
    element.classList.toggle('chosen', Boolean(shown));
    byId('card-close').hidden = !shown;
    byId('card-change').hidden = !chosen;
    if (others(state.combinations)) {
      const named = state.combinations.map(([value, words]) => make('option', { value }, words));
      by.replaceChildren(...[...by.options].slice(0, 2), ...named);
    }
    fill(by, state.by);
    byId('figures-by').hidden = !chosen || chosen.part.kind === 'observation';
    if (!differs(shown?.card, chosen?.evidence, chosen?.told, state.looks.length > 0, shown?.level_name, shown?.stretch, shown ? null : state.summary, state.empty, state.house.name)) return;
    if (shown) part(shown, state);
    else house(state);
    for (const list of lists) list.hidden = !list.querySelector('li, dt') && !list.querySelector('p')?.textContent;
  };

  function part({ card, level_name, part, stretch, evidence, needs, told }, { looks }) {
    tellOf(part, told);
    write(byId('card-needs'), needs ?? '');
    write(byId('card-title'), part ? `${card.title} · ${level_name}` : card.title);
    write(byId('card-sentence'), card.sentence);
    write(byId('card-sure'), card.sure);
    fillList('stretches', card.stretches.map((it, number) => make('li', {}, ...line(it, number, stretch, card.stretches.length))));
    fillList('why', card.why.map(({ text, known, against }) =>
      make('li', { class: against ? 'against' : null }, text, known ? make('span', { class: 'known' }, ` ${known}`) : null),
    ));
    known(evidence);
    // The look list says where; the plain hints stand in where it has nothing to say.
    fillList('look', evidence && looks.length ? [] : card.look.map((text) => make('li', {}, text)));
    fillList('watch', card.watch.map((text) => make('li', {}, text)));
    byId('card-figures').querySelector('dl').replaceChildren(...card.figures.flatMap(({ label, value, how }) => [
      make('dt', {}, label),
      make('dd', {}, make('b', { 'data-figure': label }, value), how ? make('span', { class: 'how' }, how) : null),
    ]));
    ladder(page, byId('card-ladder').querySelector('ol'), card.ladder);
    write(byId('ladder-of'), card.ladder_of);
    byId('ladder-whole').hidden = !card.ladder_of;
    fillList('gaps', []);
    write(byId('card-ledger').querySelector('p'), '');
  }

  /** What was told of a part that is no wall: whoever saw it says so with one tap. */
  function tellOf(part, told) {
    const place = byId('card-told');
    place.hidden = !told;
    if (!told) return;
    write(place.querySelector('span'), told);
    const button = place.querySelector('button');
    button.textContent = caption('saw-it');
    button.onclick = () => page.ask({ saw_it: part });
  }

  /** How the role of an inside wall is known. */
  function known(evidence) {
    byId('card-known').hidden = !evidence;
    if (!evidence) return;
    const groups = ['disagree', 'looked', 'heard', 'assumed', 'ruled_out'].filter((name) => evidence[name].length);
    byId('card-known').querySelector('div').replaceChildren(
      // One stretch is what the head of the card says.
      ...(evidence.certainty.length > 1 ? evidence.certainty : []).map(([certainty, text]) => make('p', { class: `sure ${certainty}` }, text)),
      ...(evidence.range ? [make('p', { class: 'say' }, `${caption('known-range')}: `, make('b', {}, evidence.range))] : []),
      ...(evidence.told.length ? [make('h4', {}, caption('known-told')), make('ul', { class: 'plain told' }, ...evidence.told.map(([part, text]) =>
        make('li', {}, text, ' ', make('button', { type: 'button', class: 'link', onclick: () => page.ask({ saw_it: part }) }, caption('saw-it')))))] : []),
      ...groups.flatMap((name) => [make('h4', {}, caption(`known-${name}`)), make('ul', { class: `plain ${name}` }, ...evidence[name].map((text) => make('li', {}, text)))]),
    );
  }

  /** A stretch; one of several can be followed by itself. */
  function line({ role, badge, text }, number, stretch, count) {
    const words = [chip(role, badge), text];
    if (count < 2) return words;
    const pressed = number === stretch;
    const follow = () => page.ask({ stretch: pressed ? null : number });
    return [make('button', { type: 'button', class: 'line', 'aria-pressed': String(pressed), title: caption('follow'), onclick: follow }, ...words)];
  }

  function house({ summary, empty, house: { name } }) {
    const { findings, ledger } = summary;
    const gaps = findings.filter((finding) => finding.gap).length;
    write(byId('card-title'), name);
    const open = findings.length === 0 ? caption('paths') : findings.length === 1 ? caption('one-open') : caption('many-open', findings.length);
    const sentence = empty ? caption('empty') : gaps === 1 ? caption('gap') : gaps ? caption('gaps', gaps) : open;
    write(byId('card-sentence'), sentence);
    write(byId('card-sure'), empty ? '' : caption('choose'));
    known(null);
    tellOf(null, null);
    write(byId('card-needs'), '');
    for (const name of ['stretches', 'why', 'look', 'watch']) fillList(name, []);
    byId('card-figures').querySelector('dl').replaceChildren();
    ladder(page, byId('card-ladder').querySelector('ol'), []);
    write(byId('ladder-of'), '');
    byId('ladder-whole').hidden = true;
    fillList('gaps', empty ? [] : findings.map((finding) => {
      const words = [finding.gap ? make('b', { class: 'gap' }, caption('gap-badge')) : null, finding.text];
      const choose = () => page.ask(finding.part ? { choose: finding.part } : { level: finding.level });
      return make('li', {}, make('button', { type: 'button', class: 'line', onclick: choose }, ...words.filter(Boolean)));
    }));
    const { closes, applied, delivered, gaps: lost } = ledger;
    const said = !closes ? caption('open') : caption(lost ? 'closes-gap' : 'closes', applied, delivered, lost);
    write(byId('card-ledger').querySelector('p'), empty ? '' : said);
  }

  function fillList(name, items) {
    const place = byId(`card-${name}`);
    (place.matches('ul') ? place : place.querySelector('ul')).replaceChildren(...items);
  }
}

/** The badge of a role: its letter on its colour. */
export function chip(role, badge) {
  return make('span', { class: `chip ${role}`, 'aria-hidden': 'true' }, badge);
}

/** All badges of a part. */
export const chips = ({ roles, badges }) => [...new Set(roles)].map((role) => chip(role, badges[roles.indexOf(role)]));

export const close = () => all('#card details').forEach((one) => (one.open = false));
