// What the app does with a thousand sessions of 60 entries, against its budgets: bash tests/run.sh bench,
// or once that has built everything, node tests/bench/thousand_bench.mjs [sessions]
//
//   import        files picked until the notice names them all, s
//   backup        one file of as many sessions, s
//   repeat start  no network, the list of pieces, ms
//   scroll        work of the frames while a finger drags and flings the list, ms, largest; how many over 25 ms
//   open          finger up until the list of elements tells the board, ms; leaving: the same, from All readings
//                 of a piece of 1,000 (16,000) entries
//   weigh         finger up to the next frame shown, ms (W3C Event Timing)
//   memory        JavaScript's used heap and the program's whole memory, MB (10^6)
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as app from '../browser/lib/app.mjs';
import { launch, phoneContext } from '../browser/lib/browser.mjs';
import { serveSite } from '../browser/lib/site_server.mjs';
import { Cook } from '../browser/lib/tools.mjs';
import { backupOf, fileOf } from './many_files.mjs';
import { count, row, watch } from './watch.mjs';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..', '..');
const sessions = Number(process.argv[2] ?? 1000);
const base = fs.readFileSync(path.join(root, 'demo-data', 'beef-tenderloin.json'), 'utf8');
const files = Array.from({ length: sessions }, (_, n) => fileOf(base, n + 1, 60));
const asFile = (text, n) => ({ name: `s${n}.json`, mimeType: 'application/json', buffer: Buffer.from(text) });
const long = 300_000;

const site = await serveSite(path.join(root, '.build', 'site'));
const browser = await launch();

async function opened(context) {
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  await page.goto(site.url);
  await app.usable(page, 60_000);
  const cook = new Cook(page);
  return { page, devtools, cook, rate: (rate) => devtools.send('Emulation.setCPUThrottlingRate', { rate }) };
}

// From the finger's lifting to the drawn frame whose list of elements shows what is looked for: a label that
// `pattern` matches. Looked for within the page, so that the driver's own time is in none of it.
async function shown(page, touched, pattern) {
  const waits = page.evaluate(([source]) => new Promise((resolve, reject) => {
    const wanted = new RegExp(source);
    const root = document.getElementById('access');
    const there = () => [...root.children].some((one) => one.tagName === 'BUTTON' && wanted.test(one.textContent));
    const begin = (event) => {
      if (event.type !== 'pointerup') return;
      removeEventListener('pointerup', begin, true);
      const from = performance.now();
      const look = () => {
        if (there()) resolve(performance.now() - from);
        else if (performance.now() - from > 60_000) reject(new Error(`${source} did not come: ${root.innerText.slice(0, 1500)}`));
        else setTimeout(look, 4);
      };
      setTimeout(look, 0);
    };
    addEventListener('pointerup', begin, true);
  }), [pattern.source]);
  await page.waitForTimeout(50);
  await touched();
  return waits;
}

async function bring(cook, list) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'tallyblock-many-'));
  const names = list.map(({ name, buffer }) => {
    fs.writeFileSync(path.join(folder, name), buffer);
    return path.join(folder, name);
  });
  await cook.tap('More');
  const [chooser] = await Promise.all([cook.page.waitForEvent('filechooser'), cook.tap('Import a file')]);
  const begin = performance.now();
  await chooser.setFiles(names);
  return { begin, done: () => fs.rmSync(folder, { recursive: true, force: true }) };
}

async function imported(cook, list, many) {
  const { begin, done } = await bring(cook, list);
  const words = many === 1 ? /^1 session imported/ : new RegExp(`^${many} sessions imported`);
  for (;;) {
    if (await app.find(cook.page, 'status', words)) break;
    if (performance.now() - begin > long) throw new Error((await cook.names()).slice(0, 20).join(' | '));
    await cook.page.waitForTimeout(250);
  }
  const took = performance.now() - begin;
  done();
  return took;
}

// Until the next frame, and until the list of elements tells it too, which waits for the picture to come to rest.
async function weighed(page, cook, what) {
  await page.evaluate(() => { globalThis.bench.taps.length = 0; });
  const told = await shown(page, () => cook.tap(/^Centre-cut steaks/), /^Centre-cut steaks.*1[0-9] pieces/);
  await page.waitForTimeout(1000);
  const taps = await page.evaluate(() => globalThis.bench.taps);
  row(what, taps.length === 0 ? 16 : Math.max(...taps), 'ms', 100, `told after ${told.toFixed(0)} ms`);
}

async function memory(devtools, page) {
  await devtools.send('HeapProfiler.collectGarbage');
  await devtools.send('Performance.enable');
  const { metrics } = await devtools.send('Performance.getMetrics');
  const js = metrics.find((m) => m.name === 'JSHeapUsedSize').value;
  return (js + await page.evaluate(() => globalThis.bench.memory.buffer.byteLength)) / 1e6;
}

try {
  console.log(`${os.cpus()[0].model}, ${os.cpus().length} cores; ${sessions} sessions; Chromium ${browser.version()}`);
  const context = await phoneContext(browser);
  await context.addInitScript(watch);
  const first = await opened(context);
  row('import of files, CPU 1x', await imported(first.cook, files.map(asFile), sessions) / 1000, 's', 15);
  await first.page.evaluate(() => navigator.serviceWorker.ready);
  await first.page.waitForTimeout(3000);
  await first.page.close();
  await context.setOffline(true);
  const { page, devtools, cook, rate } = await opened(context);
  await page.waitForTimeout(sessions * 15); // the second store has its copies
  await rate(4);
  const starts = [];
  for (let i = 0; i < 3; i++) {
    await page.reload();
    await app.usable(page, 60_000);
    starts.push(await page.evaluate(() => performance.getEntriesByName('tallyblock-usable')[0].startTime));
    await page.waitForFunction(() => performance.getEntriesByName('tallyblock-whole').length > 0);
  }
  row('repeat start, CPU 4x', starts.sort((a, b) => a - b)[1], 'ms', 1200);
  await page.waitForTimeout(2000);
  await page.evaluate(() => { globalThis.bench.frames.length = 0; });
  const touch = (type, y) => devtools.send('Input.dispatchTouchEvent',
    { type, touchPoints: type === 'touchEnd' ? [] : [{ x: 200, y }] });
  for (let fling = 0; fling < 10; fling++) {
    await touch('touchStart', 800);
    for (let y = 760; y > 160; y -= 40) {
      await touch('touchMove', y);
      await page.waitForTimeout(12);
    }
    await touch('touchEnd');
    await page.waitForTimeout(700);
  }
  const frames = await page.evaluate(() => globalThis.bench.frames);
  const slow = frames.filter((ms) => ms > 25).length;
  row('scroll, largest frame, CPU 4x', Math.max(...frames), 'ms', 25, `${slow} of ${frames.length} over 25 ms`);
  row('elements of the list', await page.evaluate(() => document.querySelectorAll('#access > *').length), '');
  for (let up = 0; up < 20; up++) {
    await touch('touchStart', 200);
    await touch('touchMove', 500);
    await touch('touchMove', 800);
    await touch('touchEnd');
    await page.waitForTimeout(150);
  }
  await page.waitForTimeout(1500);
  const one = (await app.all(page, 'button', /^Beef tenderloin \d+,/)).find((n) => n.rect.y > 100 && n.rect.y < 700);
  row('open a piece, CPU 4x', await shown(page, () => cook.tap(one.name), /^All figures\b/), 'ms', 300);
  await cook.tap('Board');
  await cook.digits('182');
  await weighed(page, cook, 'weigh, CPU 4x');
  row('memory', await memory(devtools, page), 'MB', 150);
  await cook.tap('Pieces');
  await rate(1);
  for (const [entries, parts, budget] of [[1000, 1, 100], [16_000, 4, 200]]) {
    const each = entries / parts;
    const list = Array.from({ length: parts }, (_, part) => fileOf(base, 2000 + entries, each, 1 + part * each, -1));
    await imported(cook, list.map(asFile), 1);
    await rate(1);
    await page.reload();
    await app.usable(page, 60_000);
    await cook.tap(new RegExp(`^Beef tenderloin ${2000 + entries},`)); // the newest
    await cook.sees(/^All figures\b/, 60_000);
    await cook.tap('Board');
    await rate(4);
    const list0 = await app.find(page, 'button', 'All readings');
    if (!list0) await cook.tap(/^More/);
    await shown(page, () => cook.tap('All readings'), /^Back to the board/);
    row(`leaving ${entries} readings, CPU 4x`,
      await shown(page, () => cook.tap('Back to the board'), /^Membrane and fat,/), 'ms', budget);
    await cook.digits('181');
    await weighed(page, cook, `weigh with ${entries}, CPU 4x`);
    await cook.tap('Pieces');
  }
  await page.close();
  await context.close();
  const fresh = await opened(await phoneContext(browser));
  await fresh.rate(4);
  row('import of one backup, CPU 4x', await imported(fresh.cook,
    [{ name: 'backup.jsonl', buffer: Buffer.from(backupOf(files)) }], sessions) / 1000, 's', 60);
} finally {
  await browser.close();
  await site.close();
}
console.log(`${count.passed} passed, ${count.failed} failed`);
process.exit(count.failed > 0 ? 1 : 0);
