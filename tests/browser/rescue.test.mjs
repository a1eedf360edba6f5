// A program that does not come to a usable frame: after two such starts a page that needs none hands out
// all that is stored, and a file of it comes back whole.
import fs from 'node:fs';
import path from 'node:path';
import { stored } from './lib/faults.mjs';
import { makeVersion } from './lib/site_server.mjs';
import { aside, dropDatabase, second } from './lib/stores.mjs';

// Another version of the site, whose program does `what` as soon as it is to start.
function spoiltSite(t, name, what) {
  const folder = path.join(t.folder, name);
  makeVersion(t.built, folder, (file, text) => {
    if (file !== 'main.js') return text;
    const changed = text.replace(/\bstart\(\w+,\w+,\w+\)\{/, `$& ${what}`);
    t.assert.notEqual(changed, text);
    return changed;
  });
  return folder;
}

// While this half-typed weight is stored the start hangs, as the blank in a name once did.
const hangs = 'for (;;);';
const traps = "throw new WebAssembly.RuntimeError('unreachable');";

// Every page asks the network: no offline copy is made.
async function uncovered(t) {
  const context = await t.context();
  await context.addInitScript(() => { delete Navigator.prototype.serviceWorker; });
  return context;
}

async function weighed(t, context) {
  const cook = await t.cook({ context });
  await cook.begin('Cod', '2000');
  await cook.weigh('120', /^Portions,/);
  await cook.weigh('130', /^Portions,/);
  await cook.digits('47');
  const figures = t.replay(await cook.exported());
  await cook.tap('Board');
  await cook.digits('4');
  return { cook, figures };
}

// One start that hangs, and the window with it. Nothing asked of such a page is waited for by itself: the
// browser's tools have no limit of their own while a page does not answer.
async function hangingStart(t, context) {
  const page = await context.newPage();
  const answers = () => Promise.race([page.evaluate(() => true).catch(() => false),
    new Promise((late) => setTimeout(late, 1500, 'hangs'))]);
  await page.goto(t.site.url, { waitUntil: 'commit' });
  let answer = true;
  for (let i = 0; i < 40 && answer !== 'hangs'; ++i) {
    await new Promise((soon) => setTimeout(soon, 250));
    answer = await answers();
  }
  t.assert.equal(answer, 'hangs');
  t.assert.equal(await answers(), 'hangs');
  await page.close();
}

// What the core derives from the piece where the rescue file was imported.
async function onAnotherDevice(t, file) {
  const saved = path.join(t.folder, 'rescue.bin');
  fs.copyFileSync(await file.path(), saved);
  const other = await t.cook();
  await other.bring(saved);
  await other.sees(/^1 session imported/);
  await other.tap(/^Cod/);
  return t.replay(await other.exported());
}

async function handsOut(t) {
  const context = await uncovered(t);
  const { cook, figures } = await weighed(t, context);
  const before = await stored(cook.page);
  await cook.page.close();
  const good = t.site.folder;
  t.site.folder = spoiltSite(t, 'hanging', hangs);
  await hangingStart(t, context);
  await hangingStart(t, context);
  const page = await context.newPage();
  await page.goto(t.site.url);
  await page.getByRole('heading', { name: 'Tallyblock did not start' }).waitFor();
  await page.getByText(/^Pieces stored on this device: 1\. Records in all: \d/).waitFor();
  const everything = page.getByRole('button', { name: 'Save everything in one file' });
  // put away by the person
  await page.evaluate(() => {
    window.realPicker = window.showSaveFilePicker;
    window.showSaveFilePicker = () => Promise.reject(new DOMException('put away', 'AbortError'));
  });
  await everything.click();
  await page.getByText('No file was handed out.').waitFor();
  await page.evaluate(() => { window.showSaveFilePicker = window.realPicker; });
  const [file] = await Promise.all([page.waitForEvent('download'), everything.click()]);
  await page.getByText('The file was handed out.').waitFor();
  t.assert.match(file.suggestedFilename(), /^tallyblock-rescue-\d{4}-\d\d-\d\d\.bin$/);
  t.assert.equal(await stored(page), before, 'handing out changes nothing');
  t.site.folder = good;
  t.assert.deepEqual(await onAnotherDevice(t, file), figures);
}

// The database is gone: what the second store holds is handed out all the same.
async function fromSecondStore(t) {
  const context = await uncovered(t);
  const { cook } = await weighed(t, context);
  await cook.page.waitForTimeout(2000); // the copy follows within a second
  await aside(cook.page, t.site.url);
  t.assert.ok((await second(cook.page)).length > 0);
  await dropDatabase(cook.page);
  const page = cook.page;
  const good = t.site.folder;
  t.site.folder = spoiltSite(t, 'trapping', traps);
  await page.goto(t.site.url);
  await page.locator('#failure-stopped').waitFor({ state: 'visible' });
  await page.getByRole('button', { name: 'Take out what is kept' }).click();
  await page.getByText(/^Pieces stored on this device: 1\./).waitFor();
  const [file] = await Promise.all([page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save everything in one file' }).click()]);
  t.faults.length = 0;
  t.site.folder = good;
  t.assert.equal((await onAnotherDevice(t, file)).primary_g, 250);
}

// What stops the start is the draft: without it everything else is there.
// The entries cannot be read: what can is handed out, and not called everything.
async function inPart(t) {
  const context = await uncovered(t);
  const { cook: { page } } = await weighed(t, context);
  await page.waitForTimeout(2000);
  t.site.folder = spoiltSite(t, 'trapping-too', traps);
  await page.goto(t.site.url);
  await page.locator('#failure-stopped').waitFor({ state: 'visible' });
  await page.evaluate(() => {
    const real = IDBObjectStore.prototype.getAllKeys;
    IDBObjectStore.prototype.getAllKeys = function (...words) {
      if (this.name === 'entries') throw new DOMException('unreadable', 'UnknownError');
      return real.apply(this, words);
    };
  });
  await page.getByRole('button', { name: 'Take out what is kept' }).click();
  await page.getByText(/A part of what is stored could not be read/).waitFor();
  await page.getByText(/^Pieces stored on this device: 1\./).waitFor(); // from the second store
  t.faults.length = 0;
}

async function withoutDraft(t) {
  const context = await uncovered(t);
  const { cook } = await weighed(t, context);
  await cook.page.close();
  t.site.folder = spoiltSite(t, 'draft-hangs', `
    const real = this.loadDone.bind(this);
    this.loadDone = (token, state, bytes) => {
      if (/"digits":"4/.test(new TextDecoder().decode(bytes))) for (;;);
      real(token, state, bytes);
    };`);
  await hangingStart(t, context);
  await hangingStart(t, context);
  const page = await context.newPage();
  await page.goto(t.site.url);
  await page.getByRole('button', { name: 'Try a normal start again' }).waitFor();
  await page.getByRole('button', { name: 'Start without what was half typed' }).click();
  await t.app.usable(page);
  const again = t.watch(page);
  await again.tap(/^Cod/);
  await again.sees(/^Portions, 250 g/);
  t.assert.doesNotMatch(await again.typed() ?? '', /\d/);
}

// A program that stops by a fault says so; the second time in a row the page comes, and a normal start
// can be tried from it.
async function trapped(t) {
  const context = await uncovered(t);
  const { cook } = await weighed(t, context);
  const page = cook.page;
  const good = t.site.folder;
  t.site.folder = spoiltSite(t, 'trapping', traps);
  for (let i = 0; i < 2; i++) {
    await page.reload();
    await page.locator('#failure-stopped').waitFor({ state: 'visible' });
  }
  await page.reload();
  await page.getByRole('heading', { name: 'Tallyblock did not start' }).waitFor();
  t.site.folder = good;
  await page.getByRole('button', { name: 'Try a normal start again' }).click();
  await t.app.usable(page);
  await t.watch(page).sees(/^Portions, 250 g/);
  t.site.folder = spoiltSite(t, 'trapping-2', traps);
  await page.reload();
  await page.locator('#failure-stopped').waitFor({ state: 'visible' });
  await page.reload(); // one good start lay between: not yet
  await page.locator('#failure-stopped').waitFor({ state: 'visible' });
  await page.getByRole('button', { name: 'Take out what is kept' }).click();
  await page.getByText(/^Pieces stored on this device: 1\./).waitFor();
  t.faults.length = 0;
}

// Loading again and again, leaving while it loads, other windows that load: none of it counts.
async function impatient(t) {
  const context = await uncovered(t);
  const page = await context.newPage();
  let release;
  const held = new Promise((resolve) => { release = resolve; });
  await context.route(/font\.ttf(\?|$)/, async (route) => {
    await held;
    await route.continue().catch(() => {});
  });
  for (let i = 0; i < 4; i++) {
    await page.goto(t.site.url, { waitUntil: 'commit' });
    await page.waitForFunction(() => Object.keys(localStorage).some((key) => key.startsWith('tallyblock starts')));
  }
  const others = [];
  for (let i = 0; i < 3; i++) {
    others.push(await context.newPage());
    await others[i].goto(t.site.url, { waitUntil: 'commit' });
    await others[i].waitForFunction(() => Object.keys(localStorage).length > 0);
  }
  await others[0].close();
  await others[1].goto('about:blank');
  release();
  await t.app.usable(page);
  await t.app.usable(others[2]);
  const last = await context.newPage();
  await last.goto(t.site.url);
  await t.app.usable(last);
  t.assert.equal(await last.getByRole('heading', { name: 'Tallyblock did not start' }).count(), 0);
  await last.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith('tallyblock starts')));
}

export const tests = [
  { name: 'after two starts that hang everything is handed out as one file, which is imported whole', quick: true, run: handsOut },
  { name: 'when the database is gone the second store is handed out', quick: false, run: fromSecondStore },
  { name: 'what can only be read in part is not called everything', quick: false, run: inPart },
  { name: 'a start without the half-typed draft keeps all that was entered', quick: false, run: withoutDraft },
  { name: 'two starts that stop by a fault lead to it too, and a normal start can be tried from it', quick: false, run: trapped },
  { name: 'loading again and again, or in several windows, does not lead to it', quick: false, run: impatient },
];
