// The parts of the program after the first, in the order in which they come (web/platform/parts.txt).
import fs from 'node:fs';

export const wasmOf = (name) => `tallyblock-${name}.wasm`;
export const wordsOf = (name) => `words-en-${name}.bin`;

// [{ name, ceiling in KB, lines }]: "== NAME KB" begins a part, the lines below it are its own.
export function partsOf(file) {
  const parts = [];
  for (const line of fs.readFileSync(file, 'utf8').split('\n')) {
    const head = /^== ([a-z]+) ([\d.]+) KB$/.exec(line);
    if (head) parts.push({ name: head[1], ceiling: Number(head[2]), lines: [] });
    else if (line !== '' && !line.startsWith('#')) parts.at(-1).lines.push(line);
  }
  return parts;
}
