// The two stores behind the app, looked at and damaged from outside it. Every function runs in a page of
// the site, best one that does not run the app (`aside`).

// A page of the same site on which no app runs.
export async function aside(page, url) {
  await page.goto(url + 'notices.txt');
}

// Runs `change(key, value)` on every record of an area: returned bytes or other values are put, null
// erases, undefined leaves it. Resolves to how many were changed.
export const alter = (page, area, change) => page.evaluate(([name, text]) => new Promise((done, failed) => {
  const act = new Function('return ' + text)();
  const request = indexedDB.open('tallyblock');
  request.onerror = () => failed(request.error);
  request.onsuccess = () => {
    const db = request.result;
    const write = db.transaction(name, 'readwrite');
    let changed = 0;
    write.objectStore(name).openCursor().onsuccess = ({ target: { result: at } }) => {
      if (!at) return;
      const is = at.value instanceof Uint8Array ? new TextDecoder().decode(at.value) : at.value;
      const next = act(at.key, is);
      if (next !== undefined) changed++;
      if (next === null) at.delete();
      else if (next !== undefined) at.update(next.bytes === undefined ? next.value : new TextEncoder().encode(next.bytes));
      at.continue();
    };
    write.oncomplete = () => { db.close(); done(changed); };
    write.onabort = () => failed(write.error);
  };
}), [area, change.toString()]);

export const dropDatabase = (page) => page.evaluate(() => new Promise((done, failed) => {
  const request = indexedDB.deleteDatabase('tallyblock');
  request.onsuccess = () => done();
  request.onerror = () => failed(request.error);
}));

export const dropSecond = (page) => page.evaluate(async () => {
  for (const name of await caches.keys()) if (name.startsWith('kept-')) await caches.delete(name);
});

// Names of what the second store holds, and its sums: [[name, sum], ...].
export const second = (page) => page.evaluate(async () => {
  const found = [];
  for (const name of await caches.keys()) {
    if (!name.startsWith('kept-')) continue;
    for (const { url } of await (await caches.open(name)).keys()) found.push(url.split('/kept/')[1].split('/'));
  }
  return found;
});

// Empties every area under the running app.
export const emptyAreas = (page) => page.evaluate(() => new Promise((done) => {
  const open = indexedDB.open('tallyblock');
  open.onsuccess = () => {
    const db = open.result;
    const names = [...db.objectStoreNames];
    const write = db.transaction(names, 'readwrite');
    for (const name of names) write.objectStore(name).clear();
    write.oncomplete = () => { db.close(); done(); };
  };
}));

// Waits until the second store has what the first has.
export const copied = (page) => page.evaluate(() => globalThis.tallyblock.copied());

// { entries, index, app, bin }: [key, text] of every record, without check values.
export const readAll = (page) => page.evaluate(() => new Promise((done, failed) => {
  const areas = ['entries', 'index', 'app', 'bin'];
  const open = indexedDB.open('tallyblock');
  open.onerror = () => failed(open.error);
  open.onsuccess = () => {
    const db = open.result;
    const all = {};
    const read = db.transaction(areas);
    for (const area of areas) {
      const keys = read.objectStore(area).getAllKeys();
      const values = read.objectStore(area).getAll();
      values.onsuccess = () => {
        all[area] = keys.result.map((key, i) => [key, new TextDecoder().decode(values.result[i].slice(0, -9))]);
      };
    }
    read.oncomplete = () => { db.close(); done(all); };
    read.onabort = () => failed(read.error);
  };
}));

// The database as version 1 had it: the same records without check values.
export async function makeOld(page) {
  const all = await readAll(page);
  await dropDatabase(page);
  await page.evaluate((stored) => new Promise((done, failed) => {
    const areas = Object.keys(stored);
    const made = indexedDB.open('tallyblock', 1);
    made.onupgradeneeded = () => areas.forEach((area) => made.result.createObjectStore(area));
    made.onerror = () => failed(made.error);
    made.onsuccess = () => {
      const db = made.result;
      const write = db.transaction(areas, 'readwrite');
      for (const area of areas) {
        for (const [key, text] of stored[area]) write.objectStore(area).put(new TextEncoder().encode(text), key);
      }
      write.oncomplete = () => { db.close(); done(); };
      write.onabort = () => failed(write.error);
    };
  }), all);
}
