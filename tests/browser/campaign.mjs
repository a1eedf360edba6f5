// Kills the whole browser again and again in the middle of work, and fills its disk: nothing that was
// acknowledged may be missing after any start, the second store included.
//
//   node tests/browser/campaign.mjs [--kills N] [--seed S] [--full-disk] [--one KIND]
//
// KIND: weighing, import, undo, binning, hidden, update. What was acknowledged is what the screen called kept
// (or imported, or in the bin) before the kill. Every start checks all that was acknowledged since the first
// one. The last line reads "N passed, N failed"; a failure names seed and round.
import { execFileSync, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as app from './lib/app.mjs';
import { launchKept } from './lib/browser.mjs';
import { random, sessionFile } from './lib/chance.mjs';
import { makeVersion, serveSite } from './lib/site_server.mjs';
import { readAll } from './lib/stores.mjs';
import { Cook } from './lib/tools.mjs';

const option = (name, otherwise) => {
  const at = process.argv.indexOf('--' + name);
  return at > 0 ? process.argv[at + 1] : otherwise;
};
const kills = Number(option('kills', '60'));
const seed = Number(option('seed', '1'));
const only = option('one', '');
const chance = random(seed);
const upTo = (n) => Math.floor(chance() * n);

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..', '..');
const work = fs.mkdtempSync(path.join(os.tmpdir(), 'tallyblock-campaign-'));
const built = process.env.TALLYBLOCK_SITE ?? path.join(root, '.build', 'site');
const site = await serveSite(built);

// What the screen has acknowledged so far.
const acknowledged = { readings: new Set(), voided: new Set(), sessions: new Map(), binned: new Set() };
let grams = 500; // every weight once, and none like two of another

class Run {
  static async start(folder) {
    const context = await launchKept(folder);
    const page = context.pages()[0] ?? await context.newPage();
    await page.goto(site.url);
    await reachApp(page);
    return Object.assign(new Run(), { folder, context, page, cook: new Cook(page) });
  }
  async kill() {
    spawnSync('pkill', ['-9', '-f', '--', this.folder]);
    await Promise.race([this.context.close().catch(() => {}), new Promise((go) => setTimeout(go, 2000))]);
  }
}

// Two kills in a row while the page was starting (an update loads it anew) lead to the page that starts no
// program, as they should: from there by its own button.
async function reachApp(page) {
  const again = page.getByRole('button', { name: 'Try a normal start again' });
  const seen = await Promise.race([
    app.usable(page, 120_000).then(() => 'app', (error) => error),
    again.waitFor({ timeout: 120_000 }).then(() => 'rescue', () => new Promise(() => {})),
  ]);
  if (seen === 'rescue') {
    rescued++;
    await again.click();
    await app.usable(page, 120_000);
  } else if (seen !== 'app') {
    throw new Error(`${seen.message}; the page says: ${await page.evaluate(() => document.body.innerText)}`);
  }
}

const swallow = (promise) => promise.catch(() => {});

async function toBoard({ page, cook }) {
  if (await app.find(page, 'button', /^Into, |^Weigh in/)) return;
  if (await app.find(page, 'button', 'Close')) await swallow(cook.tap('Close'));
  if (await app.find(page, 'button', 'Pieces') && !(await app.find(page, 'button', /Campaign piece/))) await cook.tap('Pieces');
  if (await app.find(page, 'button', /^Campaign piece/)) await cook.tap(/^Campaign piece/);
  else await cook.begin('Campaign piece', '900000');
  await clearBoard({ page, cook });
}

// What was half done when the last kill came stands there again: it would go into the next weight.
async function clearBoard({ page, cook }) {
  for (const open of ['Done', 'Back to the board', 'Close']) {
    if (await app.find(page, 'button', open)) await swallow(cook.tap(open));
  }
  for (let i = 0; i < 9; i++) await app.tap(page, 'button', 'Delete last digit', { wait: false });
  await app.idle(page);
}

// Weighs one more portion, until it is called kept. Resolves to its weight.
async function weighOne({ page, cook }, patience) {
  const weight = ++grams;
  for (const digit of String(weight)) await app.tap(page, 'button', digit, { wait: false });
  await app.tap(page, 'button', /^Portions,/, { wait: false });
  await cook.sees(new RegExp(`^${weight} g, Portions, Saved`), patience);
  return weight;
}

async function weighSome(run, count, patience) {
  for (let i = 0; i < count; i++) acknowledged.readings.add(await weighOne(run, patience));
}

// Until the end comes.
const weighing = (run) => weighSome(run, Infinity);

async function undo(run) {
  const { page, cook } = run;
  for (;;) {
    const weight = await weighOne(run);
    await app.tap(page, 'button', /^Correct/);
    await app.tap(page, 'button', 'Cross out', { wait: false });
    await cook.sees(/Crossed out|Undo/);
    await app.idle(page);
    await cook.sees(/^Saved/);
    acknowledged.voided.add(weight);
  }
}

// Imports these files, until it is said of all of their entries that they are there.
async function bring({ cook }, made) {
  await cook.bring(made.map(({ id, text }) => ({ name: id + '.json', mimeType: 'application/json', buffer: Buffer.from(text) })));
  const all = made.reduce((sum, { count }) => sum + count, 0);
  await cook.sees(new RegExp(`^${made.length} sessions? imported: new entries ${all},`), 60_000);
  for (const { id, count } of made) acknowledged.sessions.set(id, count);
}

async function importing(run) {
  if (await app.find(run.page, 'button', 'Pieces')) await run.cook.tap('Pieces');
  for (;;) await bring(run, Array.from({ length: 1 + upTo(3) }, () => sessionFile(chance, 200 + upTo(3000))));
}

async function binning(run) {
  const { page, cook } = run;
  if (await app.find(page, 'button', 'Pieces')) await cook.tap('Pieces');
  const one = sessionFile(chance, 50);
  await bring(run, [one]);
  await cook.tap(new RegExp('^Invented ' + one.id));
  await cook.tap('More');
  await cook.tap('Share');
  await cook.tap(/^Delete/);
  await cook.sees(/is in the bin/);
  acknowledged.binned.add(one.id);
  await new Promise(() => {});
}

async function hidden(run) {
  const other = await run.context.newPage();
  const work = weighing(run);
  await new Promise((go) => setTimeout(go, 300 + upTo(700)));
  await other.bringToFront();
  await work;
}

async function update(run) {
  const next = path.join(work, 'version-' + upTo(1e9));
  makeVersion(built, next);
  site.folder = next;
  await run.page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await run.cook.sees(/A new version is ready/, 30_000);
  await run.cook.tap('Update now', { wait: false });
  await new Promise(() => {});
}

const kinds = { weighing, import: importing, undo, binning, hidden, update };
const weights = ['weighing', 'weighing', 'import', 'import', 'undo', 'binning', 'hidden', 'update'];

// What of the acknowledged is missing.
async function missing(page) {
  const found = await readAll(page);
  const entries = new Map(); // session -> entries
  for (const [key, text] of found.entries) {
    const [session, id] = key.split('/');
    if (id === 'head' || id.includes('~')) continue;
    if (!entries.has(session)) entries.set(session, []);
    entries.get(session).push(JSON.parse(text));
  }
  const all = [...entries.values()].flat();
  const readings = new Map(all.filter((e) => e.kind === 'reading').map((e) => [e.weight, e]));
  const voids = new Set(all.filter((e) => e.kind === 'void').map((e) => e.target));
  const out = [];
  for (const weight of acknowledged.readings) if (!readings.has(`${weight} g`)) out.push(`reading ${weight} g`);
  for (const weight of acknowledged.voided) {
    const reading = readings.get(`${weight} g`);
    if (!reading || !voids.has(reading.id)) out.push(`the taking out of ${weight} g`);
  }
  for (const [id, count] of acknowledged.sessions) {
    if (entries.get(id)?.length !== count) out.push(`session ${id}: ${entries.get(id)?.length ?? 0} of ${count}`);
  }
  const bin = new Map(found.bin);
  for (const id of acknowledged.binned) if (!bin.has(id)) out.push(`session ${id} is not in the bin`);
  return out;
}

let passed = 0;
let failed = 0;
let told = 0; // starts that said something came back
let rescued = 0; // starts that led to the page without the program

async function check(run, round) {
  // the stores are compared after the first frame
  await run.page.waitForTimeout(900);
  await run.page.evaluate(() => globalThis.tallyblock.copied());
  const names = await run.cook.names();
  if (names.some((name) => /from the second copy/.test(name))) told++;
  const lost = await missing(run.page);
  if (lost.length === 0) {
    passed++;
    return;
  }
  failed++;
  console.log(`FAILED seed ${seed} round ${round}: ${lost.slice(0, 10).join('; ')}; screen: ${names.filter((n) => /copy|damaged|deleted/.test(n))}`);
}

const counted = () => Object.values(acknowledged).reduce((sum, { size }) => sum + size, 0);

// When to kill: three times out of four somewhere behind something acknowledged, else at any time.
async function nearTheEnd(kind) {
  const before = counted();
  if (kind !== 'update' && chance() < 0.75) {
    for (let i = 0; i < 300 && counted() === before; i++) await new Promise((go) => setTimeout(go, 50));
  } else {
    await new Promise((go) => setTimeout(go, 300));
  }
  await new Promise((go) => setTimeout(go, upTo(kind === 'import' ? 3000 : 2000)));
  return null;
}

async function killed() {
  const folder = path.join(work, 'profile');
  let run = await Run.start(folder);
  await run.cook.begin('Campaign piece', '900000');
  for (let round = 1; round <= kills; round++) {
    const kind = only || weights[upTo(weights.length)];
    try {
      if (kind !== 'import' && kind !== 'binning') await toBoard(run);
      const act = kinds[kind](run);
      swallow(act);
      const early = await Promise.race([act.then(() => null, (error) => error), nearTheEnd(kind)]);
      if (early) console.log(`        round ${round}, ${kind}: ${String(early).split('\n')[0].slice(0, 200)}`);
    } catch (error) {
      console.log(`        round ${round}, ${kind}: ${String(error).split('\n')[0].slice(0, 200)}`);
    }
    const before = { r: acknowledged.readings.size, s: acknowledged.sessions.size };
    await run.kill();
    run = await Run.start(folder);
    await check(run, round);
    if (round % 20 === 0) {
      console.log(`        ${round} kills, ${before.r} readings, ${before.s} sessions, ${acknowledged.voided.size} taken out, ` +
        `${acknowledged.binned.size} in the bin; ${told} starts brought something back`);
    }
  }
  await run.context.close();
}

// A really full disk: a small file system of its own, filled until saving fails, then freed.
async function fullDisk() {
  const disk = path.join(work, 'disk');
  fs.mkdirSync(disk);
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=160m', 'tmpfs', disk]);
  if (mounted.status !== 0) {
    console.log('        a file system of its own cannot be mounted here: the full disk was not tried');
    return;
  }
  try {
    const folder = path.join(disk, 'profile');
    let run = await Run.start(folder);
    await run.cook.begin('Campaign piece', '900000');
    await weighSome(run, 3, 20_000);
    const ballast = path.join(disk, 'ballast');
    spawnSync('dd', ['if=/dev/zero', 'of=' + ballast, 'bs=64k'], { stdio: 'ignore' });
    // until saving fails: the log's file has some room of its own
    const unsaved = [];
    let refused = false;
    for (let i = 0; i < 400 && !refused; i++) {
      const weight = ++grams;
      unsaved.push(weight);
      for (const digit of String(weight)) await app.tap(run.page, 'button', digit, { wait: false });
      await app.tap(run.page, 'button', /^Portions,/, { wait: false });
      await run.page.waitForTimeout(150);
      refused = (await run.cook.names()).some((name) => /Not saved/.test(name));
    }
    console.log(`        the full disk ${refused ? 'refused a reading after' : 'took all of'} ${unsaved.length}`);
    fs.rmSync(ballast);
    if (await app.find(run.page, 'button', 'Try again')) await run.cook.tap('Try again');
    await run.cook.sees(refused ? /Everything is saved now/ : /Saved/, 60_000);
    for (const weight of unsaved) acknowledged.readings.add(weight);
    await weighSome(run, 2, 20_000);
    await run.page.evaluate(() => globalThis.tallyblock.copied());
    await run.context.close();
    for (const round of ['full disk, first start', 'full disk, second start']) {
      run = await Run.start(folder);
      await check(run, round);
      await run.context.close();
    }
  } finally {
    execFileSync('umount', ['-l', disk]);
  }
}

process.on('unhandledRejection', () => {}); // of pages that were killed
try {
  if (kills > 0) await killed();
  if (process.argv.includes('--full-disk')) {
    for (const part of Object.values(acknowledged)) part.clear();
    await fullDisk();
  }
} catch (error) {
  failed++;
  console.log(error.stack);
}
console.log(`        ${told} starts brought something back from the second store, ${rescued} led to the rescue page`);
await site.close();
fs.rmSync(work, { recursive: true, force: true });
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
