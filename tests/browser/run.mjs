// Runs the browser tests: node tests/browser/run.mjs [--only NAME] [--pictures] [--accept-looks].
//
// QUICK=yes: a few of them. --only: tests whose file or sentence holds NAME.
// --pictures: only the pictures of every screen, to .build/screens. --accept-looks: the same, and how
// the screens look now is from now on how they are meant to look (tests/browser/looks). Each tests/browser/
// *.test.mjs exports `tests`: [{ name, quick, patience, run(t) }] with t from lib/tools.mjs; `patience`
// is how many ms it may take, else usualPatience. A test that waited in vain is run once more at the end, when
// nothing else is: it counts as failed where it fails again, and is named as shaky where it does not. What
// was found to be wrong is not tried again. The last line reads "N passed, N failed"; screenshots of failures go
// to .build/screens.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { launch } from './lib/browser.mjs';
import { makeTools } from './lib/tools.mjs';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '..', '..');
const at = process.argv.indexOf('--only');
const accept = process.argv.includes('--accept-looks');
const onlyPictures = accept || process.argv.includes('--pictures');
const only = at > 0 ? process.argv[at + 1] : onlyPictures ? 'looks: pictures' : '';
const quick = process.env.QUICK === 'yes';
const usualPatience = 300_000; // ms for one test, on a busy machine

const screens = path.join(root, '.build', 'screens');
fs.mkdirSync(screens, { recursive: true });
// Built now, so that no test waits for it.
if (!process.env.TALLYBLOCK_REPLAY && !onlyPictures) {
  execFileSync('bash', [path.join(root, 'tests/replay.sh'), path.join(root, 'demo-data/pork-loin.json')],
    { stdio: ['ignore', 'ignore', 'inherit'] });
}
const browser = await launch();
let passed = 0;
let failed = 0;
let shots = 0;
const again = [];
const waited = /took longer than|Timeout|is not on the screen|did not come into view|^no \w+ named/;

async function runOne(file, test, second = false) {
  const t = await makeTools({ browser, root, screens, quick, accept });
  const start = Date.now();
  let timer;
  try {
    const late = new Promise((_, no) => {
      const patience = test.patience ?? usualPatience;
      timer = setTimeout(() => no(new Error(`took longer than ${patience / 1000} s`)), patience);
    });
    await Promise.race([test.run(t), late]);
    if (t.faults.length > 0) throw new Error('the page had a fault');
    passed++;
    if (second) console.log(`shaky: failed at first, passed alone: ${file}: ${test.name}`);
    console.log(`ok      ${((Date.now() - start) / 1000).toFixed(1)} s  ${file}: ${test.name}`);
  } catch (error) {
    shots++;
    if (second || !waited.test(error.message)) failed++;
    else again.push([file, test]);
    console.log(`FAILED  ${((Date.now() - start) / 1000).toFixed(1)} s  ${file}: ${test.name}\n${error.stack}`);
    for (const fault of t.faults) console.log(`        in the page: ${fault}`);
    await t.picture(`failed-${file}-${shots}`).catch(() => {});
  } finally {
    clearTimeout(timer);
    await t.close().catch(() => {});
  }
}

for (const file of fs.readdirSync(here).filter((name) => name.endsWith('.test.mjs')).sort()) {
  const { tests } = await import(path.join(here, file));
  const name = file.replace('.test.mjs', '');
  for (const test of tests) {
    if (quick && !test.quick) continue;
    if (only && !`${name}: ${test.name}`.includes(only)) continue;
    await runOne(name, test);
  }
}
for (const [file, test] of again) await runOne(file, test, true);
await browser.close();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
