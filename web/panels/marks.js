// Marks that survive a stopped page: small, written at once, in the one storage that waits for nothing.
const PREFIX = 'joistwise-';

/** A mark; `null` if there is none, or this browser keeps none. */
export function read(name) {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name));
  } catch {
    return null;
  }
}

/** Sets a mark; `null` takes it away. */
export function mark(name, value) {
  try {
    if (value === null) localStorage.removeItem(PREFIX + name);
    else localStorage.setItem(PREFIX + name, JSON.stringify(value));
    return true;
  } catch {
    return false; // A browser that keeps nothing, or is full.
  }
}
