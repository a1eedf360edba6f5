// Repeatable chance, and invented session files made with it.
import { crc32 } from 'node:zlib';

// Numbers in [0, 1): a linear congruence modulo 2^32.
export function random(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

const letters = '0123456789abcdefghjkmnpqrstvwxyz';
const drawn = (chance, length) =>
  Array.from({ length }, () => letters[Math.floor(chance() * 32)]).join('');

// Keys sorted, no spaces: the canonical text (core/entries/FORMAT.md).
const canonical = (value) => {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  return `{${Object.keys(value).sort().map((key) => JSON.stringify(key) + ':' + canonical(value[key])).join(',')}}`;
};

// { id, text, count }: a file of one session with that many entries, named "Invented <id>".
export function sessionFile(chance, count) {
  const id = drawn(chance, 20);
  const writer = drawn(chance, 10);
  const entry = (n, more) => ({ id: `${writer}.${n}`, seq: n, t: 1790000000000 + n * 1000, tz: 60, ...more });
  const entries = [
    entry(1, { kind: 'piece', name: 'Invented ' + id }),
    entry(2, { kind: 'pile', key: 'portions', name: 'Portions', role: 'primary' }),
  ];
  while (entries.length < count) {
    const n = entries.length + 1;
    entries.push(entry(n, { kind: 'reading', habit: 'piece', pile: 'portions', weight: `${1 + Math.floor(chance() * 900)}.5 g` }));
  }
  const file = { format: 'tallyblock-session', major: 1, minor: 0, session: id, entries };
  const check = crc32(canonical(file)).toString(16).padStart(8, '0');
  return { id, text: canonical({ ...file, check }), count: entries.length };
}
