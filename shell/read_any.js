// Everything that is stored, whatever version of the app has stored it, as bytes that are moved and never
// read: for a start that fails, and for data of a later version. Nothing is made or changed here.

const path = new URL('.', import.meta.url).pathname;
const places = path === '/' ? ['tallyblock'] : ['tallyblock ' + path, 'tallyblock'];
const areas = ['entries', 'index', 'app', 'bin'];
const encoder = new TextEncoder();

const answerOf = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = (event) => {
    event.preventDefault(); // one record that cannot be read does not end the reading
    reject(request.error);
  };
});

function openOne(name) {
  const request = indexedDB.open(name);
  let isNew = false;
  request.onupgradeneeded = () => {
    isNew = true;
    request.transaction.abort();
  };
  return answerOf(request).catch((error) => {
    if (isNew) return null;
    throw error;
  });
}

// The database as it is, or null if there is none.
export async function openAny() {
  for (const name of places) {
    const db = await openOne(name);
    if (db?.objectStoreNames.contains(areas[0])) {
      db.onversionchange = () => db.close();
      return db;
    }
    db?.close();
  }
  return null;
}

// Calls take(area, key, bytes) for each record of the database; resolves to how many are no bytes.
async function readDatabase(db, take) {
  let others = 0;
  for (const area of areas.filter((name) => db.objectStoreNames.contains(name))) {
    const store = db.transaction(area, 'readonly').objectStore(area);
    const keys = await answerOf(store.getAllKeys());
    const values = await Promise.allSettled(keys.map((key) => answerOf(store.get(key))));
    keys.forEach((key, i) => {
      const { value } = values[i];
      if (typeof key === 'string' && value instanceof Uint8Array) take(areas.indexOf(area), key, value);
      else others++;
    });
  }
  return others;
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

// The rescue file (core/FORMAT.md): { parts, records, pieces, others }; `others` are records that are no bytes and
// cannot be handed out.
export async function rescueFile() {
  const db = await openAny();
  const parts = [];
  const pieces = new Set();
  let records = 0;
  let others = 0;
  if (db) {
    others = await readDatabase(db, (area, key, value) => {
      parts.push(...framed(area, key, value));
      records++;
      if (area === 0) pieces.add(key.split('/', 1)[0]);
    });
    db.close();
  }
  const first = { format: 'tallyblock-rescue', major: 1, minor: 0, records };
  return { parts: [JSON.stringify(first) + '\n', ...parts], records, pieces: pieces.size, others };
}
