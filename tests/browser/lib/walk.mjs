// What a person does with the page, told in steps: where things are on the sheet, what the card says.
import assert from 'node:assert/strict';

/** Waits until Rust answers. */
export async function ready(page) {
  await page.waitForSelector('body[data-ready="yes"]');
}

/** Waits until Rust answers, opens a house file, and shuts the first panel. */
export async function house(page, file) {
  await ready(page);
  await page.evaluate((text) => window.sheet.open_file(text), typeof file === 'string' ? file : JSON.stringify(file));
  await page.evaluate(() => document.querySelector('#start').hidden || document.querySelector('#start [data-close]').click());
}

/** A house of a typed size. */
export async function sketch(page, size = "30' x 20'") {
  await ready(page);
  if (await page.locator('#start').isHidden()) await page.click('#steps [data-door="start"]');
  await page.fill('#size', size);
  await page.press('#size', 'Enter');
}

/** Another name for the open house, and time for it to be kept. */
export async function rename(page, name) {
  await page.fill('#house-name', name);
  await page.press('#house-name', 'Enter');
  await page.waitForTimeout(300);
}

/** What is on the shelf of this browser. */
export const houses = (page) => page.evaluate(() => new Promise((resolve) => {
  const request = indexedDB.open('joistwise');
  request.onsuccess = () => {
    const all = request.result.transaction('houses').objectStore('houses').getAll();
    all.onsuccess = () => resolve(all.result, request.result.close());
  };
}));

/** Waits until what was done is drawn, and the sheet has moved out from under a panel that grew. */
async function settled(page) {
  await page.evaluate(() => new Promise((done) => {
    let frames = 4;
    const next = () => (frames-- > 0 ? requestAnimationFrame(next) : done());
    next();
  }));
}

/** Where a place of the plan, in feet, is in the window, in CSS pixels. */
export async function spot(page, east, north) {
  await settled(page);
  const box = await page.locator('#sheet').boundingBox();
  const [x, y] = await page.evaluate(([east, north]) => [...window.sheet.place(east, north)], [east, north]);
  return { x: box.x + x, y: box.y + y };
}

/** Taps an element as the device does: with the finger or the mouse, in its middle. */
export async function press(page, selector, hand) {
  await settled(page);
  const element = page.locator(selector);
  await element.scrollIntoViewIfNeeded({ timeout: 5000 });
  const box = await element.boundingBox();
  assert.ok(box, `${selector} is on the screen`);
  await hand.tap({ x: box.x + box.width / 2, y: box.y + box.height / 2 });
}

/** Presses Tab (or Shift+Tab) until the element has the focus, as somebody without a mouse does. */
export async function tabTo(page, selector, key = 'Tab') {
  for (let presses = 0; presses < 80; presses += 1) {
    if (await page.evaluate((selector) => document.activeElement?.matches(selector) ?? false, selector)) return;
    await page.keyboard.press(key);
  }
  assert.fail(`no way to ${selector} with ${key}`);
}

/** The text a person reads in an element; waits until it matches. */
export async function reads(page, selector, pattern) {
  const element = page.locator(selector);
  await element.waitFor({ state: 'attached' });
  try {
    await page.waitForFunction(
      ([selector, source]) => new RegExp(source).test(document.querySelector(selector)?.textContent ?? ''),
      [selector, pattern.source],
      { timeout: 5000 },
    );
  } catch {
    assert.match(await element.textContent(), pattern, selector);
  }
}

/** What is asserted of the house of the issue: the centre wall carries, 12 ft lean on it, all of it is accounted for. */
export async function centreWallCarries(page) {
  await reads(page, '#card-sentence', /^This wall probably carries (the )?ceiling\.$/);
  await reads(page, '[data-figure="Tributary width, ceiling"]', /^12' 0"$/);
  const card = page.locator('#card-sentence');
  assert.ok(await card.isVisible(), 'the verdict is on the screen');
}
