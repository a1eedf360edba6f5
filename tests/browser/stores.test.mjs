// The second store, and the check value of every record: whatever happens to the database, what was
// weighed is there again, and a sentence says so.
import fs from 'node:fs';
import path from 'node:path';
import * as stores from './lib/stores.mjs';

// A cook with a piece of three readings, copied, and the page aside.
async function weighed(t, more = {}) {
  const context = await t.context();
  const cook = await t.cook({ context, ...more });
  await cook.begin('Lamb shoulder', '5000');
  for (const grams of ['182', '640', '77']) await cook.weigh(grams, /^Portions,/);
  await cook.sees(/^77 g, Portions, Saved/);
  await stores.copied(cook.page);
  return cook;
}

const again = async (t, cook) => {
  await t.app.openApp(cook.page, t.site.url);
};

async function lost(t) {
  const cook = await weighed(t);
  await stores.aside(cook.page, t.site.url);
  await stores.dropDatabase(cook.page);
  await again(t, cook);
  await cook.sees(/1 piece was missing in this browser's database and is back from the second copy/);
  await cook.sees(/^Portions, 899 g/);
  await cook.weigh('101', /^Portions,/);
  await cook.tap('Close');
  await cook.sees(/^101 g, Portions, Saved/);
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^Portions, 1000 g/);
  await cook.seesNot(/second copy/);
  t.assert.equal(t.replay(await cook.exported()).primary_g, 1000);
}

async function binnedAndErased(t) {
  const cook = await weighed(t);
  const one = (await stores.second(cook.page)).filter(([name]) => name.length === 20);
  t.assert.equal(one.length, 1);
  await cook.tap('More');
  await cook.tap('Share');
  await cook.tap(/^Delete/);
  await cook.tap('More');
  await cook.tap('Bin');
  await cook.tap(/^Lamb shoulder,/);
  await cook.tap(/^Erase/);
  await cook.sees(/is erased/);
  await stores.copied(cook.page);
  t.assert.deepEqual((await stores.second(cook.page)).filter(([name]) => name.length === 20), []);
  await stores.aside(cook.page, t.site.url);
  await stores.dropDatabase(cook.page);
  await again(t, cook);
  await cook.seesNot(/Lamb shoulder/);
}

async function flipDigit(t, page) {
  const flips = await stores.alter(page, 'entries',
    (key, text) => (text.includes('"182 g"') ? { bytes: text.replace('"182 g"', '"192 g"') } : undefined));
  t.assert.equal(flips, 1);
}

// A digit of a weight flips where it is stored.
async function flipped(t) {
  const cook = await weighed(t);
  await stores.aside(cook.page, t.site.url);
  await flipDigit(t, cook.page);
  await again(t, cook);
  await cook.sees(/1 damaged record was found and is mended from the second copy/);
  await cook.sees(/^Portions, 899 g/);
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^Portions, 899 g/);
  await cook.seesNot(/damaged/);
}

// The same in a card of the list, in the settings and in the bin, and without a second copy.
async function flippedElsewhere(t) {
  const cook = await weighed(t);
  await cook.tap('Pieces');
  await stores.copied(cook.page);
  await stores.aside(cook.page, t.site.url);
  t.assert.equal(await stores.alter(cook.page, 'index',
    (key, text) => ({ bytes: text.replace('Lamb', 'Limb') })), 1);
  await again(t, cook);
  await cook.sees(/Lamb shoulder/);
  await cook.seesNot(/Limb/);
  await stores.copied(cook.page);
  await stores.aside(cook.page, t.site.url);
  t.assert.equal(await stores.alter(cook.page, 'entries',
    (key, text) => (text.includes('"640 g"') ? { bytes: text.replace('"640 g"', '"940 g"') } : undefined)), 1);
  await stores.dropSecond(cook.page);
  await again(t, cook);
  await cook.tap(/Lamb shoulder/);
  await cook.sees(/1 stored record is damaged and does not count/);
  await cook.sees(/^Portions, 259 g/);
}

// Records that are no bytes at all.
async function foreign(t) {
  const cook = await weighed(t);
  await stores.aside(cook.page, t.site.url);
  const spoil = [(key, text) => (text.includes('"182 g"') ? { value: null } : undefined),
    (key, text) => (text?.includes?.('"640 g"') ? { value: 17 } : undefined)];
  for (const one of spoil) t.assert.equal(await stores.alter(cook.page, 'entries', one), 1);
  t.assert.ok(await stores.alter(cook.page, 'app',
    (key) => (key === 'draft' ? { value: { a: 1 } } : undefined)) > 0);
  t.assert.ok(await stores.alter(cook.page, 'index', () => ({ value: 5 })) > 0);
  await again(t, cook);
  await cook.sees(/mended from the second copy/);
  if (await t.app.find(cook.page, 'button', /Lamb shoulder/)) await cook.tap(/Lamb shoulder/);
  await cook.sees(/^Portions, 899 g/);
}

async function secondLost(t) {
  const cook = await weighed(t);
  const before = await stores.second(cook.page);
  await stores.aside(cook.page, t.site.url);
  await stores.dropSecond(cook.page);
  await again(t, cook);
  await cook.page.waitForTimeout(1500);
  await stores.copied(cook.page);
  t.assert.deepEqual((await stores.second(cook.page)).filter(([name]) => name !== 'app'),
    before.filter(([name]) => name !== 'app'));
}

// Storage is cleared under the running app: said at the next act, and all in memory is stored again.
const clearedBy = (clear) => async (t) => {
  const cook = await weighed(t);
  const other = await (cook.page.context()).newPage();
  await stores.aside(other, t.site.url);
  await clear(other);
  await cook.page.bringToFront();
  await cook.weigh('101', /^Portions,/);
  await cook.sees(/What was stored here was deleted while the app was open/);
  await cook.tap('Close');
  await cook.sees(/^101 g, Portions, Saved/);
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^Portions, 1000 g/);
};

async function wiped(t) {
  const cook = await weighed(t);
  await stores.aside(cook.page, t.site.url);
  await stores.dropDatabase(cook.page);
  await stores.dropSecond(cook.page);
  await again(t, cook);
  await cook.sees(/This browser has deleted all that was stored here/);
  await cook.page.reload();
  await t.app.usable(cook.page);
}

async function older(t) {
  const cook = await weighed(t);
  await stores.aside(cook.page, t.site.url);
  await stores.dropSecond(cook.page);
  await stores.makeOld(cook.page);
  await again(t, cook);
  await cook.sees(/^Portions, 899 g/);
  await cook.weigh('101', /^Portions,/);
  await cook.sees(/^101 g, Portions, Saved/);
  await cook.page.waitForTimeout(1500);
  await stores.copied(cook.page);
  await stores.aside(cook.page, t.site.url);
  await flipDigit(t, cook.page);
  await again(t, cook);
  await cook.sees(/^Portions, 1000 g/);
}

// Two copies of the site under one origin, and one of before, which shared the database of the top.
async function twoCopies(t) {
  const folder = path.join(t.folder, 'two');
  for (const copy of ['', 'one', 'two']) fs.cpSync(t.built, path.join(folder, copy), { recursive: true });
  t.site.folder = folder;
  const context = await t.context();
  const at = async (copy) => {
    const page = await context.newPage();
    await t.app.openApp(page, t.site.url + copy);
    return t.watch(page);
  };
  const one = await at('one/index.html');
  await one.begin('Lamb shoulder', '5000');
  await one.weigh('182', /^Portions,/);
  await one.sees(/^182 g, Portions, Saved/);
  const two = await at('two/index.html');
  await two.seesNot(/Lamb shoulder|Another window/);
  await two.begin('Cod', '2000');
  await two.weigh('55', /^Portions,/);
  await two.sees(/^55 g, Portions, Saved/);
  await one.page.bringToFront();
  await one.weigh('18', /^Portions,/);
  await one.sees(/^18 g, Portions, Saved/);
  await one.seesNot(/Cod|Another window/);
  for (const cook of [one, two]) await stores.copied(cook.page);
  const names = await one.page.evaluate(async () => [(await indexedDB.databases()).map(({ name }) => name).sort(),
    (await caches.keys()).filter((name) => name.startsWith('kept-')).sort()]);
  t.assert.deepEqual(names, [['tallyblock /one/', 'tallyblock /two/'],
    ['kept-tallyblock /one/', 'kept-tallyblock /two/']]);
}

// Before paths counted, the copy under a path had its data in the database of that plain name.
async function adopted(t) {
  const folder = path.join(t.folder, 'two');
  for (const copy of ['', 'one']) fs.cpSync(t.built, path.join(folder, copy), { recursive: true });
  t.site.folder = folder;
  const cook = await weighed(t);
  await stores.aside(cook.page, t.site.url);
  await stores.makeOld(cook.page);
  await t.app.openApp(cook.page, t.site.url + 'one/index.html');
  await cook.sees(/^Portions, 899 g/);
  await cook.seesNot(/second copy|deleted/);
  await cook.weigh('101', /^Portions,/);
  await cook.sees(/^101 g, Portions, Saved/);
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^Portions, 1000 g/);
}

export const tests = [
  { name: 'two copies of the site on one origin share nothing', quick: false, run: twoCopies },
  { name: 'a copy under a path takes along what it had before paths counted', quick: false, run: adopted },
  { name: 'a database that is gone comes back from the second copy, and it is said', quick: true, run: lost },
  { name: 'what was erased is gone from both stores', quick: false, run: binnedAndErased },
  { name: 'a flipped digit of a weight is noticed and mended', quick: true, run: flipped },
  { name: 'a flipped letter of a card is noticed; without a second copy damage is said', quick: false,
    run: flippedElsewhere },
  { name: 'records that are no bytes are skipped, said and mended', quick: false, run: foreign },
  { name: 'a second copy that is gone is made again', quick: false, run: secondLost },
  { name: 'a database deleted under the running app is noticed at the next act', quick: false,
    run: clearedBy(stores.dropDatabase) },
  { name: 'areas emptied under the running app are noticed at the next act', quick: false,
    run: clearedBy(stores.emptyAreas) },
  { name: 'areas emptied together with the second copy: the piece on the board is stored again', quick: false,
    run: clearedBy(async (page) => { await stores.emptyAreas(page); await stores.dropSecond(page); }) },
  { name: 'an empty start on a device that had pieces is said', quick: false, run: wiped },
  { name: 'data of the version before has check values from then on', quick: false, run: older },
];
