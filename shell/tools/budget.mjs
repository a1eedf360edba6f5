// What the finished site may weigh, compressed, and which of its files are not needed for the first frame.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { partsOf, wasmOf, wordsOf } from './parts_list.mjs';

// Just above what was measured last: who needs more says so by raising them, and those of the parts in the
// list of parts.
export const FIRST_FRAME_KB = 170; // what is needed to draw and use the first screen
export const BOARD_KB = 350; // what is loaded until the board, the result and where to cut can be used
export const WHOLE_KB = 434; // all of it
export const ASIDE_KB = 23; // what the offline copy holds beside the parts, and nobody waits for
const LATER = /^(sw\.js|rescue\.js|read_any\.js|tallyblock-[a-z]+\.wasm|words-..-[a-z]+\.bin|both_stores\.js|second_store\.js|old_database\.js|notices\.txt|.*\.(png|ico|svg|webmanifest))$/;
const ASIDE = /^(rescue\.js|read_any\.js|old_database\.js|notices\.txt|icon-.*\.png)$/;
const LIST = fileURLToPath(new URL('../../web/platform/parts.txt', import.meta.url));

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

// Every ceiling of a site with these files: what it is of, the bytes, the limit in KB.
export function ceilings(sizes) {
  const parts = partsOf(LIST).map(({ name, ceiling }) => ({ name, limit: ceiling,
    bytes: sumOf(sizes.filter((one) => [wasmOf(name), wordsOf(name)].includes(one.name))) }));
  const aside = sumOf(sizes.filter(({ name }) => ASIDE.test(name)));
  const others = aside + sumOf(parts.filter(({ name }) => name !== 'board'));
  return [
    { what: 'before the first usable frame', bytes: sumOf(sizes.filter((one) => !one.later)), limit: FIRST_FRAME_KB },
    { what: 'until the board can be used', bytes: sumOf(sizes) - others, limit: BOARD_KB },
    { what: 'for trouble, icons and notices', bytes: aside, limit: ASIDE_KB },
    { what: 'in all', bytes: sumOf(sizes), limit: WHOLE_KB },
    ...parts.map(({ name, ...one }) => ({ what: `of the part "${name}"`, ...one })),
  ];
}
