// Everything that is stored, whatever version of the app has stored it, as bytes that are moved and never
// read: for a start that fails, and for data of a later version. Nothing is made or changed here.
import { packRecords, unpackRecords } from './framing.js';
import { database, home, oldDatabase, secondStore } from './places.js';

const areas = ['entries', 'index', 'app', 'bin'];
const patience = 10_000; // ms
const encoder = new TextEncoder();
const decoder = new TextDecoder();

const answerOf = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = (event) => {
    event.preventDefault(); // one record that cannot be read does not end the reading
    reject(request.error);
  };
});

// The database of that name, or null if there is none. One that does not answer is an error.
export function openOne(name) {
  const request = indexedDB.open(name);
  let isNew = false;
  request.onupgradeneeded = () => {
    isNew = true;
    request.transaction.abort();
  };
  const opened = answerOf(request).catch((error) => {
    if (isNew) return null;
    throw error;
  });
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => {
      opened.then((db) => db?.close(), () => {});
      reject(new DOMException('no answer', 'TimeoutError'));
    }, patience);
  });
  return Promise.race([opened, late]).finally(() => clearTimeout(timer));
}

// The database as it is, or null if there is none. The shared one of before counts only while it is that: later
// it is the own one of the copy at the top.
async function openAny() {
  for (const name of new Set([database, oldDatabase])) {
    const db = await openOne(name);
    if (db?.objectStoreNames.contains(areas[0]) && (name === database || db.version === 1)) {
      db.onversionchange = () => db.close();
      return db;
    }
    db?.close();
  }
  return null;
}

// Calls take(area, key, bytes) for each record of these areas. Resolves to { others, trouble }: how many are no
// bytes, and why an area could not be read.
async function readDatabase(db, wanted, take) {
  const done = { others: 0, trouble: null };
  for (const area of wanted.filter((name) => db.objectStoreNames.contains(name))) {
    try {
      const store = db.transaction(area, 'readonly').objectStore(area);
      const keys = await answerOf(store.getAllKeys());
      const values = await Promise.allSettled(keys.map((key) => answerOf(store.get(key))));
      keys.forEach((key, i) => {
        const { value } = values[i];
        if (typeof key === 'string' && value instanceof Uint8Array) take(areas.indexOf(area), key, value);
        else done.others++;
      });
    } catch (error) {
      done.trouble = error;
    }
  }
  return done;
}

function framed(area, key, value) {
  const name = encoder.encode(key);
  const head = new Uint8Array(9 + name.length);
  const view = new DataView(head.buffer);
  view.setUint8(0, area);
  view.setUint32(1, name.length, true);
  head.set(name, 5);
  view.setUint32(5 + name.length, value.length, true);
  return [head, value];
}

// Calls take(area, key, bytes) for each record of the second store (second_store.js), as far as it can be read.
async function readSecond(take) {
  if (typeof caches === 'undefined' || !await caches.has(secondStore)) return;
  const cache = await caches.open(secondStore);
  const base = new URL('kept/', home).href;
  for (const request of await cache.keys()) {
    const [name, sum] = request.url.slice(base.length).split('/');
    if (!request.url.startsWith(base) || !sum) continue;
    try {
      const found = await cache.match(request);
      for (const [key, value] of unpackRecords(new Uint8Array(await found.arrayBuffer()))) {
        const area = name === 'app' ? areas.indexOf(key.split('/', 1)[0]) : 0;
        if (area >= 0) take(area, name === 'app' ? key.slice(key.indexOf('/') + 1) : key, value);
      }
    } catch {
      // torn: the other files count
    }
  }
}

const alike = (a, b) => a?.length === b.length && a.every((byte, i) => byte === b[i]);

// Without the check value that later versions put behind a payload (core/entries/FORMAT.md, rescue file).
function payloadOf(value) {
  const at = value.length - 9;
  const isCheck = at >= 0 && value[at] === 10 && /^[0-9a-f]{8}$/.test(decoder.decode(value.subarray(at + 1)));
  return isCheck ? value.subarray(0, at) : value;
}

const readNewerStatus = 9; // StoreStatus::read_newer

// As Storage.load, of whatever version.
export async function readNewer(area, prefix) {
  const db = await openAny();
  const keys = [];
  const values = [];
  if (db) {
    const { trouble } = await readDatabase(db, [areas[area]], (_, key, value) => {
      if (!key.startsWith(prefix) || (prefix === '' && key.startsWith('~'))) return;
      keys.push(key);
      values.push(payloadOf(value));
    });
    db.close();
    if (trouble) throw trouble;
  }
  return { status: readNewerStatus, bytes: packRecords(keys, values) };
}

// The rescue file (core/entries/FORMAT.md): { parts, records, pieces, others, trouble }; `others` are records that are no
// bytes and cannot be handed out; `trouble`: a part could not be read.
export async function rescueFile() {
  const parts = [];
  const pieces = new Set();
  const first = new Map(); // what the database holds: the second store's copy of the same is left out
  let records = 0;
  let others = 0;
  let trouble = null;
  const take = (area, key, value) => {
    if (alike(first.get(area + key), value)) return;
    first.set(area + key, value);
    parts.push(...framed(area, key, value));
    records++;
    if (area === 0) pieces.add(key.split('/', 1)[0]);
  };
  try {
    const db = await openAny();
    if (db) ({ others, trouble } = await readDatabase(db, areas, take));
    db?.close();
  } catch (error) {
    trouble = error;
  }
  await readSecond(take).catch((error) => { trouble ??= error; });
  if (trouble && records === 0) throw trouble;
  const line = { format: 'tallyblock-rescue', major: 1, minor: 0, records };
  return { parts: [JSON.stringify(line) + '\n', ...parts], records, pieces: pieces.size, others, trouble };
}
