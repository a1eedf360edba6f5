// What lets a run of the tests fail: results, bytes, counts and ratios, never a time alone.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { BOARD_KB, FIRST_FRAME_KB, ceilings } from '../../shell/tools/budget.mjs';
import { verdict } from '../bench/verdict.mjs';

async function timeIsOnlySaid(t) {
  t.assert.deepEqual(verdict(99, 'ms', 100), { word: 'ok', counts: true, fails: false });
  t.assert.deepEqual(verdict(101, 'ms', 100), { word: 'over budget', counts: true, fails: false });
  t.assert.deepEqual(verdict(1e9, 'ms', 100), { word: 'over budget', counts: true, fails: false });
  t.assert.deepEqual(verdict(61, 's', 60), { word: 'over budget', counts: true, fails: false });
  t.assert.deepEqual(verdict(50, 'ms', undefined), { word: '', counts: false, fails: false });
}

async function bytesFail(t) {
  t.assert.deepEqual(verdict(350, 'KB', 350), { word: 'ok', counts: true, fails: false });
  t.assert.deepEqual(verdict(351, 'KB', 350), { word: 'MISSED', counts: true, fails: true });
  t.assert.equal(verdict(49, 'MB', 48).fails, true);
  t.assert.equal(verdict(NaN, 'KB', 350).fails, true);
}

// A folder of files of that many bytes, looked at as a finished site.
function checked(t, bytesOf) {
  const folder = fs.mkdtempSync(path.join(t.folder, 'site-'));
  for (const [name, bytes] of Object.entries(bytesOf)) fs.writeFileSync(path.join(folder, name), Buffer.alloc(bytes));
  try {
    execFileSync(process.execPath, [path.join(t.root, 'shell/tools/site.mjs'), '--budget', folder],
      { stdio: 'ignore' });
    return 'accepted';
  } catch {
    return 'refused';
  }
}

async function heavySite(t) {
  const first = FIRST_FRAME_KB * 1000, board = BOARD_KB * 1000;
  t.assert.equal(checked(t, { 'index.html': first, 'sw.js': board - first }), 'accepted');
  t.assert.equal(checked(t, { 'index.html': first + 1 }), 'refused');
  t.assert.equal(checked(t, { 'index.html': 1, 'sw.js': board }), 'refused');
  // Each part has its own ceiling, whatever room the others leave.
  const parts = ceilings([]).filter(({ what }) => what.startsWith('of the part'));
  t.assert.ok(parts.length > 1);
  for (const { what, limit } of parts) {
    const name = /"(.*)"/.exec(what)[1], bytes = Math.round(limit * 1000);
    t.assert.equal(checked(t, { [`tallyblock-${name}.wasm`]: bytes - 1, [`words-en-${name}.bin`]: 1 }), 'accepted');
    t.assert.equal(checked(t, { [`tallyblock-${name}.wasm`]: bytes, [`words-en-${name}.bin`]: 1 }), 'refused');
  }
}

export const tests = [
  { name: 'a time over its budget is said and fails nothing', quick: true, run: timeIsOnlySaid },
  { name: 'bytes over their budget fail', quick: true, run: bytesFail },
  { name: 'a site heavier than a phone should load is refused', quick: true, run: heavySite },
];
