// What the finished site may weigh, compressed, and which of its files are not needed for the first frame.
import fs from 'node:fs';
import path from 'node:path';

// Just above what was measured last: who needs more says so by raising them.
export const FIRST_FRAME_KB = 170; // what is needed to draw and use the first screen
export const WHOLE_KB = 378.5;
const LATER = /^(sw\.js|rescue\.js|read_any\.js|tallyblock-more\.wasm|words-..-more\.bin|both_stores\.js|second_store\.js|old_database\.js|notices\.txt|.*\.(png|ico|svg|webmanifest))$/;

// For each file of a finished site: its name, its bytes, those that travel, whether it may come later.
export function transferSizes(folder) {
  const files = fs.readdirSync(folder, { recursive: true }).map(String)
    .filter((name) => !name.endsWith('.br') && fs.statSync(path.join(folder, name)).isFile());
  return files.map((name) => {
    const file = path.join(folder, name), small = `${file}.br`;
    const raw = fs.statSync(file).size;
    return { name, raw, bytes: fs.existsSync(small) ? fs.statSync(small).size : raw, later: LATER.test(name) };
  }).sort((a, b) => b.bytes - a.bytes);
}

export const sumOf = (list, what = 'bytes') => list.reduce((total, one) => total + one[what], 0);
