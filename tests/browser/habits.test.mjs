// What a first start begins with, by the browser's language. Invented pieces.

const pointed = (names) => names.filter((name) => /\d\.\d/.test(name));

async function american(t) {
  const cook = await t.cook({ locale: 'en-US' });
  await cook.newPiece();
  await cook.digits('7');
  await cook.tap('lb');
  await cook.digits('8');
  await cook.tap('Weigh in');
  await cook.tap('Result');
  await cook.chapter(/^Paid, /);
  await cook.keepField(/^Price, /, '11.80');
  await cook.sees(/7 lb 8\.0 oz/);
  await cook.sees(/\$11\.80 per lb/);
  await cook.tap('Pieces');
  await cook.sees(/[A-Z][a-z]{2} \d{1,2}, \d{4}, \d{1,2}:\d\d [ap]m, 7 lb 8\.0 oz/);
  // One choice under More, and it stays after another start.
  await cook.tap('More');
  await cook.tap(/Grams/);
  const page = cook.page;
  await t.app.openApp(page, t.site.url);
  await cook.tap('Pieces');
  await cook.newPiece();
  await cook.weigh('2500', 'Weigh in');
  await cook.sees(/2500 g/);
}

async function german(t) {
  const cook = await t.cook({ locale: 'de-DE' });
  await cook.begin('Schweinerücken', '4250');
  await cook.weigh('182', /^Portions,/);
  await cook.weigh('2710', /^Unusable trim,/);
  await cook.tap('Result');
  await cook.chapter(/^Paid, /);
  await cook.keepField(/^Price, /, '11.80');
  await cook.sees(/11,80 € per kg/);
  await cook.sees(/\d,\d %/);
  t.assert.deepEqual(pointed(await cook.names()), []);
  await cook.tap('Pieces');
  await cook.sees(/\d{1,2} [A-Z][a-z]{2} \d{4}, \d\d:\d\d, 4250 g/);
  t.assert.deepEqual(pointed(await cook.names()), []);
}

export const tests = [
  { name: 'a first start in American English has pounds, ounces, dollars and its own dates, until another unit is chosen', run: american },
  { name: 'a first start in German has grams, euros and a decimal comma in every figure', run: german },
];
