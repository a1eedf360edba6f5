// Session files in numbers, made from one of the invented sample: n files of so many entries each.
//
// Each is a session of its own: another id and writer, another day and piece, weights of its own. The
// text is canonical (FORMAT.md): keys sorted, no spaces, check over the rest.
import zlib from 'node:zlib';

const letters = '0123456789abcdefghjkmnpqrstvwxyz';
const idOf = (n, length) => {
  let text = '';
  for (let left = n; text.length < 8; left = Math.floor(left / 32)) text = letters[left % 32] + text;
  return ('m' + text).padEnd(length, '0');
};

function canonical(value) {
  if (Array.isArray(value)) return `[${value.map(canonical).join()}]`;
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  return `{${Object.keys(value).sort().map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`).join()}}`;
}

// `base`: the text of a session file. Ids within it are made anew; readings are added up to `entries`, numbered
// from `from`; of so many days ago.
export function fileOf(base, n, entries, from = 1, daysAgo = n) {
  const file = JSON.parse(base);
  delete file.check;
  const writer = idOf(n, file.entries[0].id.split('.')[0].length);
  const day = daysAgo * 86_400_000;
  const named = (text) => text.replace(/^[^.]+\./, writer + '.');
  const kept = file.entries.filter((entry) => entry.key !== 'sample').slice(0, entries).map((entry) => {
    const copy = { ...entry, id: named(entry.id), t: entry.t - day };
    if (copy.by) copy.by = named(copy.by);
    for (const key of ['reading', 'replaces']) {
      if (typeof copy[key] === 'string') copy[key] = named(copy[key]);
      if (Array.isArray(copy[key])) copy[key] = copy[key].map(named);
    }
    if (copy.kind === 'piece') copy.name = `${copy.name} ${n}`;
    return copy;
  });
  const reading = kept.find((entry) => entry.kind === 'reading');
  const last = kept.at(-1);
  for (let more = from; kept.length < entries; more++) {
    kept.push({ ...reading, id: `${writer}.${1000 + more}`, seq: last.seq + more, t: last.t + 20_000 * more,
      weight: `${1 + ((n * 7 + more * 13) % 4)} g` });
  }
  file.entries = kept;
  file.session = idOf(n, file.session.length);
  const check = zlib.crc32(canonical(file)).toString(16).padStart(8, '0');
  return canonical({ ...file, check });
}

export function backupOf(files) {
  const head = canonical({ format: 'tallyblock-backup', major: 1, minor: 0, sessions: files.length });
  return [head, ...files].map((line) => line + '\n').join('');
}
