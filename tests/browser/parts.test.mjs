// The program comes in parts, the later ones one after the other; each may be late, or fail, or be of another build.
import path from 'node:path';
import { makeVersion } from './lib/site_server.mjs';
import { tapAt } from './lib/touch.mjs';

const second = /tallyblock-board\.wasm(\?|$)/;
const third = /tallyblock-office\.wasm(\?|$)/;
const wordsOf = (part) => new RegExp(`words-en-${part}\\.bin(\\?|$)`);
const keyWithoutWords = /\b[a-z]+\.[a-z-]+\b/;

// A visit during which the answer to a request for `part` is what `answer` makes of it.
const visit = (t, answer, part = second) => t.cook({ before: (page) => page.route(part, answer) });

async function late(t) {
  let release;
  const held = new Promise((resolve) => { release = resolve; });
  const cook = await visit(t, async (route) => {
    await held;
    await route.continue();
  });
  await cook.seesNot(keyWithoutWords);
  await cook.tap('More');
  await cook.sees(/on its way/);
  await cook.seesNot(keyWithoutWords);
  await cook.tap('Pieces');
  await cook.newPiece();
  release();
  await cook.sees(/What is on the board/);
  await cook.sees(/Whole piece/);
}

// While its own clock never asks again, what the person does is what makes the page try.
const withoutClock = (page) => page.addInitScript(() => {
  const real = globalThis.setTimeout;
  globalThis.setTimeout = (act, ms, ...more) => (ms >= 1000 ? 0 : real(act, ms, ...more));
});

async function failing(t) {
  let asked = 0;
  let good = false;
  const cook = await visit(t, (route) => {
    asked++;
    return good ? route.continue() : route.fulfill({ status: 500, body: '' });
  });
  await cook.tap('More');
  await cook.sees(/could not be loaded/);
  good = true;
  const before = asked;
  await cook.sees(/Hourly wage/, 65_000);
  t.assert.equal(asked, before + 1, 'asked for once more, and then no more');
}

// The board is here and used while the part behind it cannot be had; what needs that one waits for it.
async function withoutOffice(t) {
  let good = false;
  const cook = await visit(t, (route) =>
    (good ? route.continue() : route.fulfill({ status: 500, body: '' })), third);
  await cook.loadSample();
  await cook.sees(/could not be loaded/);
  await cook.begin('Cod', '2000');
  await cook.digits('470');
  await cook.sees(/into/);
  await cook.tap('Pieces');
  await cook.tap('More');
  await cook.sees(/could not be loaded/);
  await cook.tap('Pieces');
  await cook.seesNot(keyWithoutWords);
  good = true;
  await tapAt(cook.page, 200, 600); // where nothing is
  await cook.sees(/^Beef tenderloin/, 65_000);
  await cook.seesNot(/could not be loaded/);
  await cook.tap('More');
  await cook.sees(/Hourly wage/);
  await cook.seesNot(keyWithoutWords);
}

// Its words are a file of their own: without them it is not here.
async function wordless(t, part) {
  let good = false;
  const cook = await visit(t, (route) =>
    (good ? route.continue() : route.fulfill({ status: 500, body: '' })), wordsOf(part));
  await cook.tap('More');
  await cook.sees(/could not be loaded/);
  await cook.seesNot(keyWithoutWords);
  good = true;
  await cook.sees(/Hourly wage/, 65_000);
  await cook.seesNot(keyWithoutWords);
}

async function tapped(t) {
  let asked = 0;
  let good = false;
  const cook = await t.cook({ before: async (page) => {
    await withoutClock(page);
    await page.route(second, (route) => {
      asked++;
      return good ? route.continue() : route.fulfill({ status: 500, body: '' });
    });
  } });
  await cook.tap('More');
  await cook.sees(/could not be loaded/);
  await cook.page.waitForTimeout(1000); // the taps so far have had their answers
  const before = asked;
  await cook.page.waitForTimeout(1500);
  t.assert.equal(asked, before, 'nothing is asked for by itself here');
  good = true;
  await tapAt(cook.page, 200, 600); // where nothing is
  await cook.sees(/Hourly wage/);
  t.assert.equal(asked, before + 1);
}

async function another(t) {
  let good = false;
  const cook = await visit(t, async (route) => {
    const response = await route.fetch();
    const body = Buffer.from(await response.body());
    if (!good) body[body.length - 1] ^= 1;
    return route.fulfill({ response, body });
  });
  await cook.tap('More');
  await cook.sees(/could not be loaded/);
  good = true;
  await cook.sees(/Hourly wage/);
}

// A context in which every page asks the network: no offline copy is made.
async function uncovered(t) {
  const context = await t.context();
  await context.addInitScript(() => { delete Navigator.prototype.serviceWorker; });
  return context;
}

// Everything the list of pieces offers is asked for before the parts after the first are here. Nothing of it may
// be needed to answer, and nothing asked for may be lost.
async function everything(t) {
  const context = await uncovered(t);
  const begin = async () => {
    let release;
    const held = new Promise((resolve) => { release = resolve; });
    const before = (page) => page.route(second, (route) => held.then(() => route.continue()));
    const cook = await t.cook({ context, before });
    return { cook, release };
  };
  const first = await begin();
  await first.cook.loadSample();
  first.release();
  await first.cook.sees(/^Beef tenderloin/);
  await first.cook.page.close();

  const { cook, release } = await begin();
  await cook.tap('More');
  await cook.sees(/on its way/);
  await cook.page.keyboard.press('5');
  await cook.tap('Pieces');
  await cook.newPiece();
  await cook.newPiece();
  await cook.page.setViewportSize({ width: 915, height: 412 });
  await t.app.idle(cook.page);
  t.assert.deepEqual(t.faults, []);
  release();
  await cook.sees(/^Weigh in/);
  await cook.tap('Pieces');
  const cards = await t.app.all(cook.page, 'button', /\d{4}, \d\d:\d\d/);
  t.assert.equal(cards.length, 4, 'what was begun and left again is no piece');
}

// A piece was on the board: it can only be shown when the board is here.
async function resumed(t) {
  const context = await uncovered(t);
  const before = await t.cook({ context });
  await before.begin('Cod', '2000');
  await before.digits('47');
  const typed = await before.typed();
  await before.page.close();
  let good = false;
  const cook = await t.cook({ context, before: (page) => page.route(second, (route) =>
    (good ? route.continue() : route.fulfill({ status: 500, body: '' }))) });
  await cook.sees(/could not be loaded/);
  good = true;
  await tapAt(cook.page, 200, 600); // where nothing is
  await cook.sees(/^into\b/);
  t.assert.equal(await cook.typed(), typed);
}

// A call that nothing held back stops the program with a word, as any other fault does.
async function unguarded(t) {
  const folder = path.join(t.folder, 'unguarded');
  makeVersion(t.built, folder, (name, text) => {
    if (name !== 'main.js') return text;
    const changed = text.replace(/\.words\(await \w+\(\w+\)\)/, '.words(new Uint8Array(0))');
    t.assert.notEqual(changed, text);
    return changed;
  });
  t.site.folder = folder;
  const cook = await t.cook();
  await cook.tap('More', { wait: false });
  await cook.page.waitForSelector('#failure-stopped', { state: 'visible' });
  t.assert.ok(t.faults.length > 0 && t.faults.every((fault) => /null function/.test(fault)), t.faults.join());
  t.faults.length = 0;
}

export const tests = [
  { name: 'the list of pieces works while the board is late, and what was asked for follows by itself', run: late },
  { name: 'a board that fails is said and tried again', quick: true, run: failing },
  { name: 'its words are part of it', run: (t) => wordless(t, 'board') },
  { name: 'so are those of a later part', run: (t) => wordless(t, 'office') },
  { name: 'a later part that fails keeps nobody from the board', quick: true, run: withoutOffice },
  { name: 'a touch tries again at once', run: tapped },
  { name: 'a board of another build is refused', run: another },
  { name: 'whatever the list of pieces offers can be asked for before the other parts are here', run: everything },
  { name: 'the piece on the board waits for the board, and says so when it fails', run: resumed },
  { name: 'what is called too early stops the program with a word', run: unguarded },
];
