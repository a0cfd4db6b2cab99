// The panels that open from the top right: one at a time, closed by Escape, the focus back where it was.
import { all, byId } from './dom.js';

export function doors() {
  const openers = new Map(all('[data-door]').map((button) => [button.dataset.door, button]));
  let open = null;
  const show = (name) => {
    for (const [each, button] of openers) {
      byId(each).hidden = each !== name;
      button.setAttribute('aria-expanded', String(each === name));
      button.setAttribute('aria-controls', each);
    }
    open = name;
  };
  const close = () => {
    const inside = open && byId(open).contains(document.activeElement);
    const opener = openers.get(open);
    show(null);
    if (inside) opener.focus();
  };
  for (const [name, button] of openers) {
    button.addEventListener('click', () => {
      show(open === name ? null : name);
      if (open) byId(open).querySelector('input, button')?.focus();
    });
    byId(name).addEventListener('keydown', (event) => {
      if (event.key === 'Escape') close();
    });
    byId(name).querySelector('[data-close]').addEventListener('click', close);
  }
  show(null);
  return { show, close, which: () => open };
}
