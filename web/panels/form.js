// The values of the chosen part as a form: captions from the page, values from the sheet, one change at a time.
import { all, byId, caption, fill, make, watch } from './dom.js';
import { shown, take } from './photos.js';

export function form(page) {
  const place = byId('card-form');
  const differs = watch();

  place.addEventListener('change', (event) => {
    const { key } = event.target.dataset;
    if (event.target.matches('[data-add-layer]')) {
      const lines = place.querySelector('[data-key="layers"]').value;
      page.ask({ set: { key: 'layers', value: `${lines}\n${event.target.value}` } });
      event.target.value = '';
    }
    if (event.target.matches('[data-photo]')) photo(event.target.files[0], page.state().chosen);
    if (key) page.ask({ set: { key, value: event.target.value } });
  });
  place.addEventListener('click', (event) => {
    const button = event.target.closest('button');
    if (!button) return;
    if (button.dataset.nudge) {
      const [east, north] = button.dataset.nudge.split(',').map((inches) => `${inches} in`);
      page.ask({ move_by: [east, north] });
    }
    act(button.dataset.do);
  });
  place.addEventListener('keydown', (event) => {
    const row = event.key === 'Enter' && event.target.closest('[data-part]');
    if (row && event.target.matches('input')) act(row.dataset.part);
  });

  /** The published layers as choices: name and weight. */
  function layers() {
    const words = page.sheet.layers();
    const names = words.filter((_, i) => i % 2 === 0);
    return names.map((name, i) => make('option', { value: name }, `${name}: ${words[2 * i + 1]} psf`));
  }

  /** A photo for the part that was chosen when it was picked, whatever is chosen when it is read. */
  async function photo(file, { part }) {
    if (!file) return undefined;
    const { opened } = page.state();
    const taken = await take(file, page.sheet.file_text()).catch(() => undefined);
    if (taken === undefined) return page.ask({ say: caption('no-photo') });
    if (!taken) return page.ask({ say: caption('photo-too-much') });
    if (page.state().opened !== opened) return page.ask({ say: caption('photo-late') });
    page.ask({ photo: [part, taken.name] });
    const [of, is] = [taken.of, taken.is].map((sides) => sides.join(' x '));
    if (!page.state().notice) page.ask({ say: of === is ? caption('photo-taken', is) : caption('photo-shrunk', of, is) });
    return undefined;
  }

  function act(what) {
    const typed = (name) => place.querySelector(`[data-${name}]`);
    if (what === 'remove') page.ask('remove');
    if (what === 'strip') page.ask('strip');
    if (what === 'note-cut') page.ask({ tool: 'joist_cut' });
    if (what === 'cut') page.ask({ cut: typed('cut').value });
    if (what === 'move') {
      const moves = all('[data-move]', place);
      page.ask({ move_by: moves.map((control) => control.value) });
      if (!page.state().notice) for (const control of moves) control.value = '';
    }
  }

  return ({ chosen }) => {
    if (differs(chosen?.part, chosen?.moves, chosen?.lowest)) {
      const built = ['wall', 'field', 'roof'].includes(chosen?.part.kind) ? ['form-layers'] : [];
      const wood = ['beam', 'post', 'field', 'roof'].includes(chosen?.part.kind) ? ['form-wood'] : [];
      const parts = chosen ? [`form-${chosen.part.kind}`, ...wood, ...built, 'form-move'] : [];
      place.replaceChildren(...parts.map((id) => byId(id).content.cloneNode(true)));
      for (const one of all('[data-add-layer]', place)) one.append(...layers());
      for (const one of all('[data-part="move"]', place)) one.hidden = !chosen.moves;
      for (const one of all('[data-lowest]', place)) one.hidden = !chosen.lowest;
    }
    if (!chosen) return;
    for (const control of all('[data-key]', place)) {
      const value = chosen.values[control.dataset.key];
      control.closest('label').hidden = value === undefined || (control.closest('[data-unless-empty]') && !value);
      fill(control, value ?? '');
    }
    for (const image of all('[data-shows]', place)) {
      const named = chosen.values[image.dataset.shows];
      const address = shown(named);
      image.hidden = !address;
      const missing = image.parentElement.querySelector('[data-missing]');
      if (missing) missing.hidden = !named || Boolean(address);
      if (address && image.getAttribute('src') !== address) image.src = address;
    }
  };
}
