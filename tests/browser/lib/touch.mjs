// Fingers through the DevTools protocol. Events carry times 12 ms apart: the browser drops or merges
// touches without them. Positions are CSS pixels of the page.

const step = 0.012; // s

async function touches(page, points) {
  const session = page.touchSession ??= await page.context().newCDPSession(page);
  const start = Math.max(Date.now() / 1000, (page.touchTime ?? 0) + step);
  let time = start;
  for (const [type, at] of points) {
    await session.send('Input.dispatchTouchEvent', {
      type, touchPoints: at ? [{ x: at[0], y: at[1] }] : [], timestamp: time,
    });
    time += step;
  }
  page.touchTime = time;
}

export const tapAt = (page, x, y) => touches(page, [['touchStart', [x, y]], ['touchEnd', null]]);

// Many taps as fast as they can be sent.
export async function tapAll(page, places) {
  for (const [x, y] of places) await tapAt(page, x, y);
}

// A finger that goes from one place to another and leaves; `steps` moves. hold: rests before it
// leaves, so that nothing goes on moving.
export async function swipe(page, from, to, { steps = 8, hold = true } = {}) {
  const moves = [];
  for (let i = 1; i <= steps; i++) {
    const share = i / steps;
    moves.push(['touchMove', [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]]);
  }
  const rest = hold ? Array.from({ length: 10 }, () => ['touchMove', to]) : [];
  await touches(page, [['touchStart', from], ...moves, ...rest, ['touchEnd', null]]);
}
