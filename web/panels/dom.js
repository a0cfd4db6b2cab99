// The few steps every panel takes with the page: find, make, write, caption.

export const byId = (id) => document.getElementById(id);
export const all = (selector, root = document) => [...root.querySelectorAll(selector)];

/** An element with attributes and children; `null` children are left out. */
export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (value !== null && value !== false) element.setAttribute(name, value === true ? '' : value);
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

/** Writes text only when it is another: what is read aloud is not read twice. */
export function write(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** Whether a value is another than at the last call: what is the same is not drawn again. */
export function watch() {
  let last;
  return (...values) => {
    const now = JSON.stringify(values);
    const differs = now !== last;
    last = now;
    return differs;
  };
}

/** A caption of the page, `#` or `#1`, `#2` ... filled in. */
export function caption(name, ...values) {
  const text = byId('captions').content.querySelector(`[data-name="${name}"]`).textContent;
  return text.replace(/#(\d?)/g, (_, number) => values[Math.max(Number(number), 1) - 1]);
}

/** Puts a value into a control unless somebody is at it. */
export function fill(control, value) {
  if (document.activeElement !== control && control.value !== value) control.value = value;
}

/** The day, as it is written down. */
export function today() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Hours and minutes, as this browser writes them. */
export const clock = (date) => date.toLocaleTimeString([], { hour: 'numeric', minute: '2-digit' });
