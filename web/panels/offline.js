// Without a net: the page keeps its own files after the first load, and takes a newer version only when asked.
import { byId } from './dom.js';

const POLICY = 'joistwise';
/** The one script that is named by an address: this page's own worker, and no other. */
const own = (name) => {
  const policy = window.trustedTypes?.createPolicy(POLICY, {
    createScriptURL: (address) => {
      if (address !== 'sw.js') throw new TypeError(address);
      return address;
    },
  });
  return policy ? policy.createScriptURL(name) : name;
};

export async function offline(page) {
  if (!navigator.serviceWorker) return;
  const worker = await navigator.serviceWorker.register(own('sw.js')).catch(() => null);
  if (!worker) return; // A browser that keeps nothing, or no site that is whole: it works as long as there is a net.
  const bar = byId('newer');
  navigator.serviceWorker.addEventListener('message', ({ data }) => {
    if (data === 'newer') bar.hidden = false;
    // What was drawn last is on the shelf before the page goes.
    if (data === 'taken') page.keep.idle().then(() => location.reload());
  });
  bar.querySelector('button').addEventListener('click', () => worker.active?.postMessage('take'));
  const ready = await navigator.serviceWorker.ready;
  if (navigator.serviceWorker.controller) ready.active.postMessage('look');
}
