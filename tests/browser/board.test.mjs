// What a cook does at the board by touch on a small phone: several pieces on the scale, half-typed digits,
// undo, a cooking test, too much on the piles. The pieces and figures are invented.

const small = { viewport: { width: 360, height: 640 } };

async function severalPieces(t) {
  const cook = await t.cook(small);
  await cook.begin('Salmon side', '3000');
  await cook.tap('Result');
  await cook.chapter('All figures');
  await cook.keepField(/^Portion target/, '180');
  await cook.tap('Board');
  // one tap on the count, one on how many
  await cook.digits('728');
  await t.picture('board-count-key');
  const before = cook.taps;
  await cook.tap(/^On the scale: 1 piece/);
  await t.picture('board-count');
  await cook.tap('4');
  t.assert.equal(cook.taps - before, 2);
  await cook.tap(/^Portions,/);
  await cook.sees(/^Portions, .*728 g/);
  // not said, but it weighs like eight: asked
  await cook.weigh('1463', /^Portions,/);
  await cook.sees(/like 8 portions/);
  await t.picture('board-asked');
  await cook.tap('8');
  // one that turns out to have been two: corrected afterwards
  await cook.weigh('300', /^Portions,/);
  await cook.correct(/^How many/); // of any number
  await cook.tap('2');
  await cook.sees(/2 pieces|2 at once|pieces on the scale 2/);
  await cook.tap('Result');
  await cook.chapter(/^A portion is to weigh, /);
  await cook.sees(/178 g each over 14, all weighed together/);
  const report = t.replay(await cook.exported());
  const pile = report.piles.find((one) => one.pile === 'portions');
  t.assert.equal(pile.pieces, 14);
  t.assert.equal(pile.weighed_g, 728 + 1463 + 300);
}

async function nothingIsLost(t) {
  const cook = await t.cook(small);
  await cook.begin('Pork loin', '2000');
  await cook.weigh('180', /^Portions,/);
  await cook.tap(/^Into,/); // with no digits
  await cook.sees(/nothing typed yet/);
  await cook.tap('Pieces');
  await cook.newPiece();
  await cook.write('What is on the board?', 'Leg');
  await cook.weigh('3000', 'Weigh in');
  await cook.weigh('400', /^Portions,/);
  await cook.tap('Pieces');
  await cook.tap(/^Pork loin/);
  await cook.sees(/^180 g/); // its own last weight, not that of the leg
  await cook.tap('Result');
  await cook.chapter(/^Paid, /);
  await cook.tap(/^Price, /);
  await cook.digits('12.5');
  await cook.tap(/^Invoice total/);
  await cook.digits('3');
  await cook.tap(/^Price, /);
  await cook.sees(/^Price 12.5/);
  await cook.tap('Save');
  await cook.tap(/^Price, /);
  await cook.sees(/now .*12.50/);
  await t.picture('board-now');
}

async function cookedAndTooMuch(t) {
  const cook = await t.cook(small);
  await cook.begin('Duck', '1000');
  await cook.weigh('600', /^Portions,/);
  await cook.weigh('250', /^Usable trim,/);
  await cook.tap('More');
  await cook.tap(/^Portions/);
  await cook.tap('Cooked');
  await cook.tap('Board');
  await cook.weigh('450', /^Cook(ing|ed),/);
  await cook.tap('More');
  await cook.tap(/^Portions/);
  await cook.sees(/600 g raw, 450 g cooked, 25.0 % lost/);
  await t.picture('board-cooked');
  await cook.tap(/^Cross out: Cook/);
  await cook.sees(/is crossed out with its piles/);
  await cook.tap('Board');
  await cook.weigh('700', /^Usable trim,/);
  await t.picture('board-too-much');
  await cook.tap('Result');
  await cook.sees(/More lies on the piles than the piece weighed/);
  await t.picture('result-too-much');
}

async function inventedIsSaid(t) {
  const cook = await t.cook(small);
  await cook.loadSample();
  await cook.sees(/The sample is loaded/); // what is said comes over the list's end
  await cook.tap(/^Beef tenderloin/);
  await cook.sees(/\(invented\)/);
  await t.picture('board-invented');
  for (const place of ['Result', 'More', 'Share']) {
    await cook.tap(place);
    await cook.sees(/\(invented\)/);
  }
  await cook.tap(/Same again/i);
  await cook.sees(/were invented and are not/);
  await cook.tap('Result');
  await cook.seesNot(/\(invented\)/);
}

// The next leg is like the last one: piles in their order, the ready-cut's yield with its price; without
// minutes no verdict, since an hour costs something.
async function sameAgain(t) {
  const cook = await t.cook(small);
  await cook.begin('Lamb leg', '2000');
  await cook.weigh('1500', /^Portions,/);
  await cook.weigh('400', /^Usable trim,/);
  await cook.tap('Result');
  await cook.tap(/^All is weighed/);
  await cook.keepField(/^Price, /, '10');
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.keepField(/^Ready-cut price/, '18');
  await cook.keepField(/^Yield of the ready-cut/, '90');
  await cook.keepField(/^Hourly wage/, '20');
  await cook.sees(/^How many minutes did it take\?/);
  await cook.seesNot(/(cheaper|dearer) than ready-cut|Saved by cutting/i);
  await t.picture('result-no-minutes');
  await cook.keepField(/^Minutes worked/, '12');
  // 18 / 0.9 = 20.00 per kg, 1.5 kg of it 30.00; paid 20.00, labour 4.00: 6.00 saved
  await cook.sees(/(?<![\d.])6\.00 €/);
  await cook.keepField(/^Portion target/, '180');
  await cook.chapter(/^(On target|A portion is to weigh)/);
  await cook.keepField(/^Tolerance, /, '3');
  await cook.tap(/^The usual tolerance/);
  await cook.sees(/^Tolerance, .*usual for this weight/);
  await cook.tap('More');
  await cook.tap(/Same again/i);
  await cook.sees(/piles, prices and target are copied/);
  await cook.weigh('2100', 'Weigh in');
  const order = (await cook.names()).map((name) => /^(Portions|Secondary cuts|Usable trim|Unusable trim),/.exec(name)?.[1]);
  t.assert.deepEqual(order.filter(Boolean), ['Portions', 'Secondary cuts', 'Usable trim', 'Unusable trim']);
  await cook.weigh('1600', /^Portions,/);
  await cook.tap('9'); // like nine of the target
  await cook.tap('Result');
  await cook.sees(/^500 g still on the board/);
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.sees(/^Cut or buy can be told when all is weighed/);
  await cook.tap('Board');
  await cook.weigh('490', /^Usable trim,/);
  await cook.tap('Result');
  await cook.seesNot(/still on the board/);
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.sees(/^Yield of the ready-cut, 90/);
  await cook.sees(/^How many minutes did it take\?/);
}

// A case of turkeys in pounds and dollars on a new phone, no settings visited: how many touches a price takes.
async function fewTouches(t) {
  const cook = await t.cook({ viewport: { width: 390, height: 844 }, locale: 'en-US' });
  const pounds = async (lb, oz, key) => {
    for (const one of String(lb)) await cook.tap(one);
    await cook.tap('lb');
    for (const one of String(oz)) await cook.tap(one);
    await cook.tap(key);
  };
  await cook.newPiece();
  await cook.tap(/^Whole bird/);
  await pounds(22, 8, 'Weigh in');
  await pounds(7, 4, /^Breasts,/);
  await pounds(6, 1, /^Legs,/);
  await pounds(7, 12, /^Carcass,/);
  await pounds(1, 4, /^Thrown out,/);
  await cook.tap('Result');
  await cook.keepField(/^Price, /, '2.15');
  // 22.5 x 2.15 = 48.38 over 7.25 lb: 6.67 a pound
  await cook.sees(/^Breasts, per lb.*\$6\.67/);
  await t.picture('board-few-touches');
  t.assert.ok(cook.taps <= 40, `${cook.taps} touches to the first cost per pound`);
  const first = cook.taps;
  // A portion like the last one: its digits and one key.
  await cook.tap('Board');
  await cook.digits('8.2');
  await cook.tap('oz');
  await cook.tap(/^Breasts,/);
  let before = cook.taps;
  await cook.digits('8');
  await cook.tap(/^Into,/);
  t.assert.equal(cook.taps - before, 2);
  await cook.sees(/^8 oz/);
  // On the wrong pile: two.
  before = cook.taps;
  await cook.correct(/^Legs/);
  t.assert.equal(cook.taps - before, 2);
  // How many lay there: two.
  before = cook.taps;
  await cook.correct('2 pieces');
  t.assert.equal(cook.taps - before, 2);
  await cook.sees(/2 at once/);
  return `${first} touches to the first cost per pound`;
}

export const tests = [
  { name: 'the first cost per pound takes at most 40 touches, a repeated portion its digits and one', run: fewTouches },
  { name: 'several pieces on the scale are counted, asked for and corrected', quick: true,
    run: severalPieces },
  { name: 'undo, notices and half-typed digits stay with their piece and field', quick: true,
    run: nothingIsLost },
  { name: 'a cooking test is taken out whole; too much on the piles is said in words', quick: false,
    run: cookedAndTooMuch },
  { name: 'same again keeps order and prices; without minutes there is no verdict', quick: false,
    run: sameAgain },
  { name: 'the sample says that it is invented, and nothing of it is carried over', quick: false,
    run: inventedIsSaid },
];
