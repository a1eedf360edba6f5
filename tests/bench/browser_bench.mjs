// What the app costs on a phone, against its budgets: bash tests/run.sh bench, or once that has built
// everything, node tests/bench/browser_bench.mjs
//
// Prints one table and "N passed, N failed". Bytes and memory fail when they are more than what is
// tolerated; a time over its budget is said and fails nothing (verdict.mjs). CPU 4x: the page's main
// thread slowed by Chromium's own throttling. Drawn by software here, without a graphics chip, so with
// one canvas pixel per CSS pixel; the time of a chip is in none of the figures.
//   first start   empty device, line of 1.6 Mb/s with 150 ms to the server, until the list of pieces can
//                 be used, and until all parts of the program are there, ms
//   repeat start  no network, from the offline copy, with a piece on the board, ms
//   tap           finger up to the next frame shown, ms, 98th percentile (W3C Event Timing)
//   frame work    script and program within one drawn frame, ms, median (and 98th percentile)
//   plan          where to cut a piece of 600 mm into portions of one target, split in up to four, ms,
//                 mean (tests/bench/plan_bench.cpp, compiled as the app is)
//   heap          JavaScript's used heap and the program's whole memory, MB (10^6)
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as app from '../browser/lib/app.mjs';
import { launch, phoneContext } from '../browser/lib/browser.mjs';
import { serveSite } from '../browser/lib/site_server.mjs';
import { Cook } from '../browser/lib/tools.mjs';
import { FIRST_FRAME_KB, WHOLE_KB, sumOf, transferSizes } from '../../shell/tools/budget.mjs';
import { count, row, watch } from './watch.mjs';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..', '..');
const built = path.join(root, '.build', 'site');
const planBench = path.join(root, '.build', 'web', 'bin'); // with tallyblock_plan_bench.mjs
const starts = 3; // of each kind; the median counts
const weighings = 50;
const touching = 80; // ms a finger rests on the glass

const quantile = (list, q) => {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(q * sorted.length) - 1)];
};
const median = (list) => quantile(list, 0.5);

async function opened(context, rate) {
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate });
  return { page, devtools };
}

const markOf = (page, mark) => page.evaluate((name) => performance.getEntriesByName(name)[0]?.startTime, mark);

async function usableAfter(page) {
  await app.usable(page, 60_000);
  return markOf(page, 'tallyblock-usable');
}

async function firstStart(browser, url, rate) {
  const context = await phoneContext(browser);
  const { page, devtools } = await opened(context, rate);
  await devtools.send('Network.enable');
  await devtools.send('Network.emulateNetworkConditions',
    { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 94_000 });
  await page.goto(url);
  const usable = await usableAfter(page);
  await page.waitForFunction(() => performance.getEntriesByName('tallyblock-whole').length > 0);
  const whole = await markOf(page, 'tallyblock-whole');
  await context.close();
  return { usable, whole };
}

async function repeatStarts(browser, url, rate) {
  const context = await phoneContext(browser);
  const { page } = await opened(context, rate);
  await page.goto(url);
  await usableAfter(page);
  await new Cook(page).begin('Pork loin', '9000'); // it opens again on the board
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.ready.then((r) => r.active?.state === 'activated'));
  await context.setOffline(true);
  const times = [];
  for (let i = 0; i < starts; i++) {
    await page.reload();
    times.push(await usableAfter(page));
  }
  await context.close();
  return median(times);
}

async function work(browser, url, rate) {
  const context = await phoneContext(browser);
  await context.addInitScript(watch);
  const { page, devtools } = await opened(context, rate);
  await page.goto(url);
  await app.usable(page, 60_000);
  const cook = new Cook(page);
  await cook.begin('Pork loin', '9000');
  await page.evaluate(() => { globalThis.bench.frames.length = globalThis.bench.taps.length = 0; });
  const names = [...'1234567890'];
  const at = async (name) => {
    const { rect } = await app.get(page, 'button', name);
    return [rect.x + rect.width / 2, rect.y + rect.height / 2];
  };
  for (let i = 0; i < weighings; i++) {
    for (const name of [names[1 + (i % 8)], names[i % 10], /^Portions,/]) {
      const [x, y] = await at(name);
      await devtools.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x, y }] });
      await page.waitForTimeout(touching);
      await devtools.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      await app.idle(page);
    }
  }
  await devtools.send('HeapProfiler.collectGarbage');
  await devtools.send('Performance.enable');
  const { metrics } = await devtools.send('Performance.getMetrics');
  const js = metrics.find((m) => m.name === 'JSHeapUsedSize').value;
  const seen = await page.evaluate(() => ({ frames: globalThis.bench.frames, taps: globalThis.bench.taps,
    memory: globalThis.bench.memory.buffer.byteLength }));
  await context.close();
  // Those under 16 ms are not told.
  while (seen.taps.length < weighings * 3) seen.taps.push(16);
  return { ...seen, heap: (js + seen.memory) / 1e6 };
}

async function plans(browser, rate) {
  const programs = await serveSite(planBench);
  const context = await phoneContext(browser);
  const { page } = await opened(context, rate);
  await page.goto(programs.url); // only for its origin
  const printed = await page.evaluate(async () => {
    const lines = [];
    const { default: run } = await import('/tallyblock_plan_bench.mjs');
    await run({ print: (line) => lines.push(line) });
    return lines.join('');
  });
  await context.close();
  await programs.close();
  return JSON.parse(printed);
}

const load = () => os.loadavg()[0].toFixed(1);
const site = await serveSite(built);
const browser = await launch();
try {
  console.log(`${os.cpus()[0].model}, ${os.cpus().length} cores, load ${load()} before; ` +
    `Chromium ${browser.version()}`);
  const all = transferSizes(built), needed = all.filter((one) => !one.later);
  row('first frame, raw', sumOf(needed, 'raw') / 1e3, 'KB');
  row('first frame, brotli', sumOf(needed) / 1e3, 'KB', FIRST_FRAME_KB);
  row('all, raw', sumOf(all, 'raw') / 1e3, 'KB');
  row('all, brotli', sumOf(all) / 1e3, 'KB', WHOLE_KB);
  for (const rate of [1, 4]) {
    const first = [];
    for (let i = 0; i < starts; i++) first.push(await firstStart(browser, site.url, rate));
    const budget = (value) => (rate === 4 ? value : undefined);
    row(`first start, CPU ${rate}x`, median(first.map((one) => one.usable)), 'ms', budget(3500));
    row(`first start, every screen, CPU ${rate}x`, median(first.map((one) => one.whole)), 'ms', budget(3500));
    row(`repeat start, CPU ${rate}x`, await repeatStarts(browser, site.url, rate), 'ms', budget(1300));
    const { frames, taps, heap } = await work(browser, site.url, rate);
    row(`tap to next frame, 98 %, CPU ${rate}x`, quantile(taps, 0.98), 'ms', budget(100),
      `median ${median(taps).toFixed(1)}, ${taps.length} taps`);
    row(`frame work, median, CPU ${rate}x`, median(frames), 'ms', budget(6),
      `98 % ${quantile(frames, 0.98).toFixed(1)}, ${frames.length} frames`);
    const plan = await plans(browser, rate);
    row(`plan, one target, CPU ${rate}x`, plan.plan_ms, 'ms', budget(20),
      `with a saw ${plan.plan_saw_ms}; 2, 3, 4 targets ${plan.plan_two_ms}, ${plan.plan_three_ms}, ${plan.plan_four_ms}`);
    row(`heap, CPU ${rate}x`, heap, 'MB', budget(48));
  }
} finally {
  await browser.close();
  await site.close();
}
console.log(`load ${load()} after`);
console.log(`${count.passed} passed, ${count.failed} failed`);
process.exit(count.failed > 0 ? 1 : 0);
