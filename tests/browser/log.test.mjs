// The log: five loins of one line weighed through the screen over five days without a connection, and what it says.
import { tapAt } from './lib/touch.mjs';

// Invented: weight on the board, portions at once, grind, thrown out, price.
const loins = [
  [4000, 2600, 700, 660, '8.00'],
  [4100, 2740, 680, 650, '8.00'],
  [3900, 2500, 720, 650, '8.60'],
  [4050, 2750, 640, 630, '8.60'],
  [4020, 2760, 620, 618, '8.40'],
];
const grindWorth = 4;
// The page's days go on as the test says; the clock of its frames is the real one.
const daysGoOn = (page) => page.addInitScript(() => {
  const Real = Date;
  const now = () => Real.now() + 86_400_000 * Number(localStorage.getItem('days of the test') ?? 0);
  globalThis.Date = class extends Real {
    constructor(...given) {
      super(...(given.length > 0 ? given : [now()]));
    }
    static now() { return now(); }
  };
});
const cents = (value) => (Math.round(value * 100 + 1e-7) / 100).toFixed(2);
const costOf = ([, portions, grind, , price], n) =>
  (loins[n][0] * Number(price) - grind * grindWorth) / portions;

async function weighOne(cook, [whole, portions, grind, waste, price], n) {
  if (n === 0) {
    await cook.begin('Pork loin', String(whole));
  } else {
    await cook.tap('Result');
    await cook.tap('Same again');
    await cook.weigh(String(whole), 'Weigh in');
  }
  await cook.digits(String(portions));
  await cook.tap(/^On the scale: 1 piece/);
  await cook.tap('12');
  await cook.tap(/^Portions,/);
  await cook.weigh(String(grind), /^Usable trim,/);
  await cook.weigh(String(waste), /^Unusable trim,/);
  await cook.tap('Result');
  if (n === 0) {
    await cook.keepField(/^Price, /, price);
    await cook.tap(/counted as worth nothing/);
    await cook.digits(String(grindWorth));
    await cook.tap('Save');
  } else if (price !== loins[n - 1][4]) {
    await cook.chapter(/^Everything usable, per kg/);
    await cook.keepField(/^Price, /, price);
  }
  await cook.chapter(/^Quality and trim/);
  await cook.tap(/Membrane off: good/);
}

async function fiveDays(t) {
  const cook = await t.cook({ before: daysGoOn });
  await cook.page.evaluate(() => navigator.serviceWorker.ready);
  await cook.page.context().setOffline(true);
  for (const [n, loin] of loins.entries()) {
    await cook.page.evaluate((days) => localStorage.setItem('days of the test', days), String(n));
    await weighOne(cook, loin, n);
    if (n === 2) { // a note to oneself, shown when the next one is begun
      await cook.tap('More');
      await cook.write('For next time', 'Cut thinner at the end');
      await cook.tap('Result');
      await cook.tap('Same again');
      await cook.sees(/Noted last time: Cut thinner at the end/);
      await cook.tap('Pieces');
      await cook.tap(/^Pork loin, .*3900 g/);
    }
  }
  await cook.tap('Pieces');
  await cook.tap('Log');
  await cook.sees(/^Pork loin/);
  await t.picture('log-lines');
  await cook.tap(/^Pork loin/);
  await cook.sees(/^5 count: /);
  const usable = loins.map(([whole, portions, grind]) => (100 * (portions + grind)) / whole).sort((a, b) => a - b);
  const shown = usable.map((value) => value.toFixed(1));
  await cook.sees(new RegExp(`^5 count: ${shown[2]} % in the middle, from ${shown[0]} % to ${shown[4]} %`));
  await t.picture('log-usable');
  await cook.tap('Cost');
  const costs = loins.map(costOf).sort((a, b) => a - b).map(cents);
  await cook.sees(new RegExp(`^5 count: ${costs[2]} € in the middle, from ${costs[0]} € to ${costs[4]} €`));
  await t.picture('log-cost');
  // a mark under the finger: that piece
  const drawing = await t.app.get(cook.page, 'button', /^Cost of Pork loin/);
  await tapAt(cook.page, drawing.rect.x + drawing.rect.width * 0.45, drawing.rect.y + drawing.rect.height / 2);
  await t.app.idle(cook.page);
  await cook.tap('What changed since the one before');
  await cook.sees(/^What changed/);
  await t.picture('log-changed');
  const [was, is] = [costOf(loins[1], 1), costOf(loins[2], 2)].map(cents);
  await cook.sees(new RegExp(`A kg of portions cost ${cents(is - was)} € more: ${is} €, not ${was} €`));
  const parts = (await cook.names()).map((name) => / ([+-]) (\d+\.\d\d) €/.exec(name)).filter(Boolean)
    .map(([, sign, amount]) => (sign === '-' ? -1 : 1) * Number(amount));
  t.assert.ok(parts.length >= 3, `${parts.length} causes`);
  t.assert.equal(cents(parts.reduce((a, b) => a + b, 0)), cents(is - was), 'the causes are the difference');
  // killed and opened again: the same place, the same words, from what is stored
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^What changed/);
  await cook.tap('Back to the line');
  await cook.sees(/^5 count: /);
  await cook.tap('Not of this line');
  await cook.sees(/^4 count: /); // the line without it
  await cook.tap('All lines');
  await cook.sees(/5 pieces/); // with the one that was begun and not weighed
  await t.picture('log-parted');
}

async function sample(t) {
  const cook = await t.cook();
  await cook.tap('Log');
  await cook.sees(/No piece is weighed yet/);
  await cook.tap(/^Show an invented log/);
  await cook.sees(/^Veal loin/);
  await cook.tap(/^Veal loin/);
  await cook.sees(/^5 count: 82\.6 % in the middle/);
  for (const figure of ['Thrown out', 'Portions', 'Guess', 'Lost', 'Cost']) {
    await cook.tap(figure);
    await cook.sees(/^5 count: /);
    await t.picture(`log-sample-${figure.toLowerCase().replace(' ', '-')}`);
  }
  await cook.tap('More');
  await cook.tap(/^Remove the example/);
  await cook.tap('Log');
  await cook.sees(/No piece is weighed yet/);
}

export const tests = [
  { name: 'five pieces of a line over five days: what it says, what changed, parted again', quick: false, run: fiveDays },
  { name: 'a newcomer is shown an invented log and removes it', quick: true, run: sample },
];
