// When the page stops: by a fault in Rust, or because a part of it did not come. What is kept stays kept; the house as it was
// last taken down is offered as a file.
import { byId, caption, clock, write } from './dom.js';
import { mark, read } from './marks.js';

export function stopped(page) {
  const bar = byId('broken');

  /** Nothing can be drawn any more: says what happened and what is left to do. */
  page.stop = (error) => {
    if (page.stopped) return;
    page.stopped = true;
    const began = Boolean(page.sheet);
    document.body.dataset.ready = began ? 'stopped' : 'failed';
    const { name, key, text, at } = page.keep?.latest() ?? {};
    // It is not opened again by itself.
    const opening = read('opening');
    if (began && (opening || key)) mark('trapped', opening ?? { key, name });
    mark('opening', null);
    const what = caption(began ? 'stopped' : 'not-started');
    const house = !text ? '' : at ? caption('stopped-kept', name, clock(at)) : caption('stopped-not-kept', name);
    write(bar.querySelector('p'), `${what} ${house}`);
    write(bar.querySelector('small'), error?.message ? caption('stopped-why', String(error.message).split('\n')[0]) : '');
    bar.querySelector('[data-save]').hidden = !text;
    bar.querySelector('[data-save]').onclick = () => page.download(name, text);
    bar.hidden = false;
    for (const id of ['top', 'tray', 'card', 'levels', 'look']) byId(id).inert = true;
    byId('sheet').inert = true;
    if (!began) page.doors.show('start');
    bar.querySelector('button:not([hidden])').focus();
  };
  bar.querySelector('[data-reload]').onclick = () => location.reload();

  const heard = (error) => {
    const trap = error instanceof WebAssembly.RuntimeError || document.body.dataset.broken === 'yes';
    if (trap) page.stop(error);
  };
  addEventListener('error', (event) => heard(event.error));
  addEventListener('unhandledrejection', (event) => heard(event.reason));
}
