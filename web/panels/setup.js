// The sheet's inks and tape, remembered in this browser, and what is known of the house as a whole.
import { all, byId } from './dom.js';

const remembered = (name) => {
  try {
    return localStorage.getItem(name);
  } catch {
    return null; // A browser that keeps nothing.
  }
};
const remember = (name, value) => {
  try {
    localStorage.setItem(name, value);
  } catch {
    // A browser that keeps nothing.
  }
};

export function setup(page) {
  const dark = byId('dark');
  const metric = byId('metric');
  const scheme = () => page.ask({ scheme: dark.checked ? 'dark' : 'paper' });
  const tape = () => page.ask({ tape: metric.checked ? 'metric' : 'feet' });
  dark.addEventListener('change', () => {
    remember('scheme', dark.checked ? 'dark' : 'paper');
    scheme();
  });
  metric.addEventListener('change', () => {
    remember('tape', metric.checked ? 'metric' : 'feet');
    tape();
  });
  for (const control of all('[data-house]')) {
    control.addEventListener('change', () => page.ask({ set_house: { key: control.dataset.house, value: control.value } }));
  }
  byId('house-name').addEventListener('keydown', (event) => {
    if (event.key === 'Enter') event.target.blur();
  });
  dark.checked = (remembered('scheme') ?? (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : '')) === 'dark';
  metric.checked = remembered('tape') === 'metric';
  scheme();
  tape();
}
