// Photos: the sheet holds a short name for each, the page its bytes. So a house with 40 photos is drawn and taken back as
// quickly as one without, and each photo is kept once however many steps show it.
const NAME = 'data:image/joistwise,';
const NAMED = /"data:image\/joistwise,([\w-]+)"/g;
const WHOLE = /"data:image\\?\/[^"\\]*(?:\\.[^"\\]*)*"/g;
/** Shorter texts that begin like a picture stay where they are. */
const SHORT = 1000;
/** How large all photos of a house may be together, in characters: a file with them stays under the limit of 16 MB. */
export const MOST = 14_000_000;
/** The longer side of a photo in pixels, and how small it may get to fit. */
const SIDES = [1200, 800];

const bytes = new Map(); // name to address
const names = new Map(); // address to name

function add(address) {
  const known = names.get(address);
  if (known) return NAME + known;
  const name = [...crypto.getRandomValues(new Uint32Array(4))].map((number) => number.toString(36)).join('');
  hold(name, address);
  return NAME + name;
}

/** Takes in a photo that has its name already. */
export function hold(name, address) {
  bytes.set(name, address);
  names.set(address, name);
}

/** A house file with names for its photos. */
export const short = (text) => text.replace(WHOLE, (all) => {
  if (all.length < SHORT) return all;
  try {
    return `"${add(JSON.parse(all))}"`;
  } catch {
    return all; // Not a text of JSON: the sheet says so of the whole file.
  }
});

/** A house file with its photos in it. */
export const whole = (text) => text.replace(NAMED, (all, name) => (bytes.has(name) ? JSON.stringify(bytes.get(name)) : all));

/** The names of the photos in a text. */
export const named = (text) => [...new Set([...text.matchAll(NAMED)].map(([, name]) => name))];

/** The bytes of a photo, as an address that an image can show; `undefined` if this page does not have them. */
export const bytesOf = (name) => bytes.get(name);
export const shown = (address) => (address?.startsWith(NAME) ? bytes.get(address.slice(NAME.length)) : address);

/** How many characters the photos of a text are. */
export const weight = (text) => named(text).reduce((sum, name) => sum + (bytes.get(name)?.length ?? 0), 0);

/**
 * A photo made small enough for a house file, 1,200 pixels at the most, as JPEG, under a name. `of` is what was chosen:
 * width and height of the original. `null` if there is no room beside the photos of `text`.
 */
export async function take(file, text) {
  const picture = await createImageBitmap(file);
  const of = [picture.width, picture.height];
  for (const side of SIDES) {
    const scale = Math.min(1, side / Math.max(...of));
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = of.map((length) => Math.max(1, Math.round(length * scale)));
    canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
    const address = canvas.toDataURL('image/jpeg', 0.8);
    if (weight(text) + address.length <= MOST) return { name: add(address), of, is: [canvas.width, canvas.height] };
  }
  return null;
}
