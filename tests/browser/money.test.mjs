// Money and time by touch on a small phone: an invoice total before any weight, a ready-cut price for so many
// pieces, minutes typed over timed ones, no more taken of a pile than is left. Pieces and figures are invented.

const small = { viewport: { width: 360, height: 640 } };

async function totalWithoutWeight(t) {
  const cook = await t.cook(small);
  await cook.newPiece();
  await cook.write('What is on the board?', 'Monkfish tail');
  await cook.tap('To the piles');
  await cook.weigh('1800', /^Portions,/);
  await cook.weigh('500', /^Usable trim,/);
  await cook.tap('Result');
  await cook.chapter(/^Portions, per kg, /);
  await cook.keepField(/^Invoice total/, '54');
  await cook.keepField(/^Value of the pile, Usable trim/, '4');
  await cook.keepField(/^Portion target/, '180');
  // 500 g at 4.00 are 2.00; 52.00 for 1.8 kg are 28.89 per kg; 180 g of it 5.20
  await cook.sees(/^Value of the other piles: 2\.00 €/);
  await cook.sees(/^Portions, per kg: 28\.89 €/);
  await cook.sees(/^Portion cost without labour, Portions of 180 g: 5\.20 €/);
  await t.picture('money-no-weight');
  const report = t.replay(await cook.exported());
  t.assert.equal(report.as_purchased_g, null);
  t.assert.ok(Math.abs(report.net_cost - 52) < 1e-9);
  t.assert.equal(report.cost_factor, null);
}

async function priceForPieces(t) {
  const cook = await t.cook(small);
  await cook.begin('Chicken', '2000');
  await cook.weigh('1200', /^Portions,/);
  await cook.tap('Result');
  await cook.tap(/^All is weighed/);
  await cook.keepField(/^Price, /, '5');
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.keepField(/^Ready-cut price/, '23.15');
  await cook.keepField(/^Priced by the piece: for how many/, '24');
  await cook.sees(/what one of them weighs/);
  await t.picture('money-pieces-needed');
  await cook.keepField(/^Weight of one piece/, '125');
  // 23.15 for 24 x 125 g = 3 kg: 7.72 per kg
  await cook.sees(/^Ready-cut, by weight: 7\.72 € per kg/);
  await cook.sees(/^Ready-cut price, 23\.15 € for 24/);
  await t.picture('money-pieces');
  await cook.tap(/^Yield of the ready-cut/);
  await cook.digits('0');
  await cook.tap('Save');
  await cook.sees(/^Yield of the ready-cut: 0 % is zero/);
  const text = await cook.exported();
  t.assert.doesNotMatch(text, /quoted-yield/);
  const report = t.replay(text);
  t.assert.ok(Math.abs(report.ready_cut_per_g - 23.15 / 3000) < 1e-12);
  t.assert.equal(report.ready_cut_yield, 1);
}

async function minutesAsk(t) {
  const cook = await t.cook(small);
  await cook.begin('Rabbit', '1500');
  await cook.tap('Result');
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.keepField(/^Minutes worked/, '12');
  await cook.tap(/^Minutes worked/);
  await cook.digits('20');
  await cook.tap('Save');
  await cook.sees(/12 min are there already/);
  await t.picture('money-minutes');
  await cook.tap(/^On top, 32 min in all/);
  await cook.sees(/^Minutes worked, 32 min/);
  await cook.tap(/^Minutes worked/);
  await cook.digits('25');
  await cook.tap('Save');
  await cook.tap(/^Instead, 25 min in all/);
  await cook.sees(/^Minutes worked, 25 min/);
  t.assert.equal(t.replay(await cook.exported()).minutes, 25);
}

async function onlyWhatIsLeft(t) {
  const cook = await t.cook(small);
  await cook.begin('Pork shoulder', '3000');
  await cook.weigh('900', /^Usable trim,/);
  await cook.tap('More');
  await cook.tap(/^Usable trim/);
  await cook.tap('Minced');
  await cook.sees(/^Nothing of Usable trim is left to take/);
  await t.picture('money-left');
  const report = t.replay(await cook.exported());
  t.assert.deepEqual(report.doubts.filter(({ code }) => code === 'doubt.taken-more-than-pile'), []);
}

export const tests = [
  { name: 'an invoice total gives the portion cost before anything was weighed in', quick: false, run: totalWithoutWeight },
  { name: 'a ready-cut price may be for so many pieces; a yield of nothing is refused', quick: false, run: priceForPieces },
  { name: 'minutes typed where there are some ask whether they stand instead or on top', quick: false, run: minutesAsk },
  { name: 'no more is taken of a pile than is left of it', quick: false, run: onlyWhatIsLeft },
];
