// What arrives from outside: a link, files picked, dropped, pasted or handed over by the system. Each opens as a house of its
// own beside what is on the shelf; what is refused says why and leaves the open house as it is.
import { all, byId, caption, make } from './dom.js';
import { mark } from './marks.js';
import { short } from './photos.js';

const LINK = /#?(house=[\w-]+)/;

export function arrive(page) {
  const name = () => page.state().house.name;

  /** What is drawn and could not be kept would be gone: then it is asked first. */
  function held(what, go) {
    if (page.keep.held()) return go();
    page.keep.offer(caption('would-lose', name(), what), { save: page.saveFile, anyway: go });
    return false;
  }

  /** After a house came from outside: which one it was beside. */
  function beside(before) {
    page.doors.show(null);
    if (before) page.keep.offer(caption('beside', name(), before.name), { back: () => page.keep.open(before.key), calm: true });
  }

  /** Opens a link; its damage is said beside whatever house is shown. */
  function link(part) {
    return held(caption('the-link'), () => {
      const before = page.keep.latest();
      mark('opening', { link: true, name: '' });
      page.keep.comes('link');
      const opened = page.sheet.open_link(part);
      if (!opened) {
        refuse(caption('the-link'));
        mark('opening', null);
      } else beside(before.key ? before : null);
      return opened;
    });
  }

  /** Says why something did not open, in a place of its own: the next thing said does not cover it. */
  function refuse(what) {
    page.keep.comes(null);
    const why = page.state().notice;
    page.ask('dismiss');
    page.keep.offer(caption('not-taken', what, why), {});
  }

  function text(text, what) {
    return held(what, () => {
      const before = page.keep.latest();
      page.keep.comes('file');
      const opened = page.sheet.open_file(short(text));
      if (opened) beside(before.key ? before : null);
      else refuse(what);
      return opened;
    });
  }

  async function file(one) {
    const read = await one.text().catch(() => null);
    if (read === null) return page.keep.offer(caption('not-read', one.name), {});
    const opened = text(read, one.name);
    if (opened) page.filed(one.name);
    return opened;
  }

  /** One is opened; of more than one it is asked which. */
  function files(list) {
    const several = [...list];
    if (several.length === 1) return file(several[0]);
    if (!several.length) return page.keep.offer(caption('no-file'), {});
    const place = byId('which');
    place.querySelector('ul').replaceChildren(...several.map((one) => make('li', {}, make('button', {
      type: 'button', class: 'line', onclick: () => {
        page.doors.show(null);
        file(one);
      },
    }, make('b', {}, one.name), make('span', {}, ` ${Math.max(1, Math.round(one.size / 1024)).toLocaleString()} kB`)))));
    page.doors.show('which');
    return place.querySelector('button').focus();
  }

  /** A text from the clipboard or dropped: a house file, a link, or neither. */
  function said(words) {
    const found = words.match(LINK);
    if (found) return link(`#${found[1]}`);
    if (words.trimStart().startsWith('{')) return text(words, caption('the-text'));
    return page.keep.offer(caption('no-house-in-it'), {});
  }

  const picker = byId('file');
  for (const button of all('[data-open-file]')) button.addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    if (picker.files.length) files([...picker.files]);
    picker.value = '';
  });
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    const { files: dropped } = event.dataTransfer;
    if (dropped.length) return files(dropped);
    return said(event.dataTransfer.getData('text/plain'));
  });
  document.addEventListener('paste', (event) => {
    if (event.target.closest?.('input, textarea, select')) return;
    event.preventDefault();
    const { files: pasted } = event.clipboardData;
    if (pasted.length) files(pasted);
    else said(event.clipboardData.getData('text/plain'));
  });
  // Where the page is installed the system opens house files with it.
  window.launchQueue?.setConsumer(async ({ files: handed }) => {
    if (handed?.length) files(await Promise.all(handed.map((one) => one.getFile())));
  });

  /** The link the page was opened with. It leaves the address at once: a link that stops the page is not met again. */
  function address() {
    const part = location.hash;
    if (part.length < 2) return false;
    history.replaceState(null, '', location.pathname + location.search);
    return link(part);
  }
  addEventListener('hashchange', address);
  return { address };
}
