// The renderer dies in the middle of entry: nothing that was said to be kept is missing, and the
// half-typed digits are there again.

import { random } from './lib/chance.mjs';

async function killed(t) {
  const times = t.quick ? 8 : 30;
  const chance = random(20261);
  const { killRenderer } = await import('./lib/faults.mjs');
  let cook = await t.cook();
  await cook.begin('Lamb shoulder', '90000');
  const kept = [];
  for (let round = 0; round < times; round++) {
    const weights = 1 + Math.floor(chance() * 2);
    for (let i = 0; i < weights; i++) {
      const grams = String(150 + kept.length); // every weight once, none like two of another
      await cook.weigh(grams, /^Portions,/);
      await cook.sees(new RegExp(`^${grams} g, Portions, Saved`));
      kept.push(Number(grams));
    }
    const half = String(121 + Math.floor(chance() * 29));
    await cook.digits(half);
    const typed = await cook.typed();
    // also in the middle of a write: the digit's own, or a reading whose answer nobody has seen
    const unseen = chance() < 0.3;
    if (unseen) await cook.tap(/^Portions,/, { wait: false });
    await cook.page.waitForTimeout(Math.floor(chance() * 60));
    const page = await killRenderer(cook.page);
    await t.app.openApp(page, t.site.url);
    cook = t.watch(page);
    // the digits' line, or in its place the reading that was stored
    await cook.sees(/^(into\b|tap its pile|Whole piece |\d+ g, Portions)/);
    if (!unseen) {
      t.assert.equal(await cook.typed(), typed, `round ${round}`);
    } else if ((await cook.typed()) !== typed) {
      // it was stored before the end came, or both the reading and its digits are there to press
      await cook.sees(new RegExp(`^${half} g, Portions`));
      kept.push(Number(half));
      continue;
    }
    for (let i = 0; i < half.length; i++) await cook.tap('Delete last digit');
  }
  await cook.tap('Result');
  const report = t.replay(await cook.exported());
  const read = report.piles.flatMap((pile) => pile.readings).map((one) => one.net_g);
  t.assert.deepEqual([...read].sort((a, b) => a - b), [...kept].sort((a, b) => a - b));
  console.log(`        killed ${times} times, ${kept.length} readings kept`);
}

export const tests = [
  { name: 'a renderer that dies during entry loses nothing that was kept', quick: false,
    patience: 900_000, run: killed },
];
