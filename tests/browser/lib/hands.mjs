// A mouse and two fingers. Points are `{ x, y }` in CSS pixels of the window.
//
// Fingers go through the browser's own input queue (`Input.dispatchTouchEvent`), so the page sees the pointer events, the
// capture and the `touch-action` a real screen would give it.

const STEPS = 8;

/** The mouse of `page`: `tap`, `drag`, `wheel`. */
export function mouse(page) {
  return {
    async tap(at) {
      await page.mouse.click(at.x, at.y);
    },
    /** Presses at the first point, goes through the others, lets go at the last. */
    async drag(...points) {
      const [first, ...rest] = points;
      await page.mouse.move(first.x, first.y);
      await page.mouse.down();
      for (const point of rest) await page.mouse.move(point.x, point.y, { steps: STEPS });
      await page.mouse.up();
    },
    /** Turns the wheel over a point; `deltaY` below zero is away from the hand. */
    async wheel(at, deltaY) {
      await page.mouse.move(at.x, at.y);
      await page.mouse.wheel(0, deltaY);
    },
  };
}

/** Fingers on the screen of `page`, which must have been opened with `touch`: `tap`, `hold`, `drag`, `pinch`, `pan`. */
export function fingers(page) {
  let session;
  const send = async (type, ...points) => {
    session ??= await page.context().newCDPSession(page);
    const touchPoints = points.map(({ x, y }, id) => ({ x, y, id, radiusX: 5, radiusY: 5, force: 1 }));
    await session.send('Input.dispatchTouchEvent', { type, touchPoints });
  };
  // A finger that draws to a place rests there before it lifts; one that flies off leaves a fling behind, and the browser
  // takes the next tap for a stop of that fling.
  const rest = () => page.waitForTimeout(250);
  const hold = async (at, milliseconds) => {
    await send('touchStart', at);
    if (milliseconds > 0) await page.waitForTimeout(milliseconds);
    await send('touchEnd');
  };
  /** Two fingers from one pair of points to another, both down before either moves. */
  const pair = async (from, to) => {
    await send('touchStart', from[0]);
    await send('touchStart', ...from);
    for (let step = 1; step <= STEPS; step += 1) {
      await send('touchMove', ...from.map((point, finger) => between(point, to[finger], step / STEPS)));
    }
    await rest();
    await send('touchEnd');
  };
  return {
    tap: (at) => hold(at, 0),
    hold,
    /** Puts one finger down at the first point, goes through the others, lifts it at the last. */
    async drag(...points) {
      await send('touchStart', points[0]);
      for (const [index, point] of points.slice(1).entries()) {
        for (let step = 1; step <= STEPS; step += 1) {
          await send('touchMove', between(points[index], point, step / STEPS));
        }
      }
      await rest();
      await send('touchEnd');
    },
    /** Two fingers side by side about `middle`, from one distance apart to another (CSS pixels). */
    pinch: (middle, apartFrom, apartTo) => pair(beside(middle, apartFrom), beside(middle, apartTo)),
    /** Two fingers a fixed distance apart, their middle from one point to another. */
    pan: (from, to, apart = 80) => pair(beside(from, apart), beside(to, apart)),
  };
}

function between(from, to, part) {
  return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
}

function beside(middle, apart) {
  return [
    { x: middle.x - apart / 2, y: middle.y },
    { x: middle.x + apart / 2, y: middle.y },
  ];
}
