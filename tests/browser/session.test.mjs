// A whole session entered by touch, read back through the accessible tree, exported and replayed.
// The invented piece: a pork loin of 4250 g at 6.50 a kilo.

import { compareShown, everyChapter } from './lib/figures.mjs';

async function habit(cook, name) {
  await cook.tap(/^How weighed/);
  await cook.tap(name);
  await cook.tap('Done');
}

// The second habit of weighing: a tub with a known empty weight, several portions at once, the whole
// tub as it is now; and the eye call made before the first cut.
async function tubsAndCalls(t) {
  const cook = await t.cook();
  await cook.begin('Beef striploin', '5100');
  await cook.tap('More');
  await cook.tap('Add a tub');
  await cook.digits('250');
  await cook.tap('Save');
  await cook.write('Name of the tub', 'Blue tub');
  await cook.write('New note', 'Fat cap left at 5 mm');
  await cook.tap('Board');
  await cook.keepField(/^Guess/, '60');
  await cook.tap(/^How weighed/);
  await cook.tap(/^Lying in a tub.*Blue tub/);
  await cook.tap('Done');
  await cook.digits('1694');
  await cook.tap(/^On the scale: 1 piece/);
  await cook.tap('8');
  await cook.tap(/^Portions,/);
  await cook.tap(/^How weighed/);
  await cook.tap(/^Tub now weighs/);
  await cook.tap('Done');
  await cook.weigh('700', /^Usable trim,/);
  await cook.weigh('930', /^Usable trim,/); // 230 g more in the same tub
  await cook.tap('Result');
  await cook.tap(/^All is weighed/);
  await cook.keepField(/^Price, /, '11.80');
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.keepField(/^Ready-cut price/, '24.90');
  await cook.keepField(/^Hourly wage/, '21.50');
  await cook.keepField(/^Minutes worked/, '35');
  await cook.keepField(/^Portion target/, '180');
  const shown = await everyChapter(t.app, cook);
  const report = t.replay(await cook.exported());
  const pile = (key) => report.piles.find((one) => one.pile === key);
  t.assert.equal(pile('portions').weighed_g, 1694 - 250);
  t.assert.equal(pile('portions').pieces, 8);
  t.assert.equal(pile('usable-trim').weighed_g, 930 - 250);
  t.assert.deepEqual(pile('usable-trim').readings.map((one) => one.covered), [true, false]);
  t.assert.deepEqual(report.notes.map((note) => note.text), ['Fat cap left at 5 mm']);
  t.assert.equal(report.minutes, 35);
  t.assert.equal(report.wage_per_hour, 21.5);
  t.assert.ok(Math.abs(report.ready_cut_per_g - 0.0249) < 1e-12);
  t.assert.ok(Math.abs(report.labour - 35 / 60 * 21.5) < 1e-9);
  const call = report.eye_calls?.[0];
  t.assert.equal(call?.called, 0.6);
  t.assert.ok(shown.some((n) => /^Guessed: 60\.0 % portions\. Weighed: 28\.3 %/.test(n.name)),
    shown.map((n) => n.name).join(' | '));
  console.log(`        ${compareShown(shown, report)} figures equal`);
}

async function wholeSession(t) {
  const cook = await t.cook();
  const counted = {};
  const count = async (what, act) => {
    const before = cook.taps;
    await act();
    counted[what] = cook.taps - before;
  };
  await cook.begin('Pork loin', '4250');
  await count('first weighing', () => cook.weigh('182', /^Portions,/));
  await count('repeat portion', () => cook.weigh('179', /^Portions,/));
  await cook.weigh('640', /^Usable trim,/);
  // a wrong entry is taken out
  await cook.weigh('1800', /^Portions,/);
  await cook.tap('1'); // asked how many pieces it is
  await cook.correct('Cross out');
  // in the wrong pile
  await cook.weigh('900', /^Usable trim,/);
  await count('move to other pile', async () => {
    await cook.correct(/^Unusable trim/);
  });
  await habit(cook, /^Taken off,/);
  await cook.weigh('240', /^Secondary cuts,/);
  await habit(cook, /^Added,/);
  await cook.weigh('1500', /^Portions,/);
  await habit(cook, /^By itself,/);
  await count('result', () => cook.tap('Result'));
  await cook.tap(/^All is weighed/);
  await count('price', () => cook.keepField(/^Price, /, '6.50'));
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.keepField(/^Ready-cut price/, '13.90');
  await cook.keepField(/^Hourly wage/, '18');
  await cook.keepField(/^Minutes worked/, '25');
  await cook.keepField(/^Portion target/, '180');
  await t.picture('result-phone');
  const shown = await t.app.tree(cook.page);
  const text = await cook.exported();
  const report = t.replay(text);
  t.assert.equal(report.piece, 'Pork loin');
  t.assert.equal(report.as_purchased_g, 4250);
  t.assert.equal(report.primary_g, 182 + 179 + 1500);
  t.assert.equal(report.secondary_g, 240);
  t.assert.equal(report.usable_trim_g, 640);
  t.assert.equal(report.unusable_trim_g, 900);
  t.assert.equal(report.minutes, 25);
  t.assert.equal(report.wage_per_hour, 18);
  t.assert.ok(Math.abs(report.ready_cut_per_g - 0.0139) < 1e-12);
  t.assert.ok(shown.length > 0);
  await cook.tap('Result');
  const compared = compareShown(await everyChapter(t.app, cook), report);
  console.log(`        ${compared} figures equal; taps, digits included: ${JSON.stringify(counted)}`);
}

export const tests = [
  { name: 'what is entered by touch is what the exported file replays to', quick: true,
    run: wholeSession },
  { name: 'a tub, several at once, the eye call, prices and labour are what the file replays to',
    quick: false, run: tubsAndCalls },
];
