// Without a net: the page keeps its own files after the first load, and takes a newer version only when asked.
import { byId } from './dom.js';

export async function offline() {
  if (!navigator.serviceWorker) return;
  const worker = await navigator.serviceWorker.register('sw.js');
  const bar = byId('newer');
  navigator.serviceWorker.addEventListener('message', ({ data }) => {
    if (data === 'newer') bar.hidden = false;
    if (data === 'taken') location.reload();
  });
  bar.querySelector('button').addEventListener('click', () => worker.active?.postMessage('take'));
  const ready = await navigator.serviceWorker.ready;
  if (navigator.serviceWorker.controller) ready.active.postMessage('look');
}
