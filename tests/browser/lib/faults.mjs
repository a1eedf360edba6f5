// What can go wrong around the app, on command.

// To be called before the page loads: the complete event of every writing transaction waits until
// release() is called. The data itself is stored by then.
export async function holdComplete(page) {
  await page.addInitScript(() => {
    const waiting = [];
    let held = true;
    const property = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, 'oncomplete');
    Object.defineProperty(IDBTransaction.prototype, 'oncomplete', {
      ...property,
      set(act) {
        property.set.call(this, (event) => {
          if (held && this.mode === 'readwrite') waiting.push(() => act.call(this, event));
          else act.call(this, event);
        });
      },
    });
    globalThis.completeEvents = {
      get waiting() { return waiting.length; },
      hold() { held = true; },
      release() {
        held = false;
        for (const act of waiting.splice(0)) act();
      },
    };
  });
  return {
    waiting: () => page.evaluate(() => globalThis.completeEvents.waiting),
    hold: () => page.evaluate(() => globalThis.completeEvents.hold()),
    release: () => page.evaluate(() => globalThis.completeEvents.release()),
  };
}

// Allows the site `bytes` of storage; undefined: as before.
export async function limitStorage(page, bytes) {
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', {
    origin: new URL(page.url()).origin, ...(bytes === undefined ? {} : { quotaSize: bytes }),
  });
  // the limit lasts as long as the session
  return () => session.detach();
}

// The database connection of the page dies, as on a phone after the background: what is stored stays.
// Call before the page loads; then die() at any time.
export async function mortalDatabase(page) {
  await page.addInitScript(() => {
    const open = [];
    const adopt = IDBFactory.prototype.open;
    IDBFactory.prototype.open = function (...args) {
      const request = adopt.apply(this, args);
      request.addEventListener('success', () => open.push(request.result));
      return request;
    };
    globalThis.closeDatabases = () => open.splice(0).forEach((db) => db.close());
  });
  return () => page.evaluate(() => globalThis.closeDatabases());
}

// The stored data becomes that of a later version of the app.
export function storeNewerVersion(page, version = 1000) {
  return page.evaluate((v) => new Promise((done, failed) => {
    const request = indexedDB.open('tallyblock', v);
    request.onsuccess = () => { request.result.close(); done(); };
    request.onerror = () => failed(request.error);
  }), version);
}

// The renderer's process dies at once, as when a phone takes the memory back. Returns a new page of
// the same context; what the site has stored is still there.
export async function killRenderer(page) {
  const context = page.context();
  const session = await context.newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  session.send('Page.crash').catch(() => {});
  await crashed;
  const next = await context.newPage();
  await page.close();
  return next;
}

export const loseContext = (page) => page.evaluate(() => {
  const gl = document.getElementById('canvas').getContext('webgl2');
  globalThis.losing = gl.getExtension('WEBGL_lose_context');
  globalThis.losing.loseContext();
});
export const restoreContext = (page) => page.evaluate(() => globalThis.losing.restoreContext());

// Call before the page loads. While set(true), every write is refused as on a full device.
export async function fillableStorage(page) {
  await page.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...args) {
      if (globalThis.deviceFull) throw new DOMException('full', 'QuotaExceededError');
      return put.apply(this, args);
    };
  });
  return (full) => page.evaluate((now) => { globalThis.deviceFull = now; }, full);
}

// Call before the page loads. While set(true), every write's transaction is aborted by the browser
// after its requests have succeeded, as when a device fails in the middle.
export async function abortableStorage(page) {
  await page.addInitScript(() => {
    const begin = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (areas, mode, ...more) {
      const made = begin.call(this, areas, mode, ...more);
      if (mode === 'readwrite' && globalThis.abortWrites) {
        made.commit = () => {};
        const put = made.objectStore(made.objectStoreNames[0]).count();
        put.onsuccess = () => { globalThis.aborted = (globalThis.aborted ?? 0) + 1; made.abort(); };
      }
      return made;
    };
  });
  return {
    set: (on) => page.evaluate((now) => { globalThis.abortWrites = now; }, on),
    aborted: () => page.evaluate(() => globalThis.aborted ?? 0),
  };
}

// Every record of the app's database, as one text that can be compared; `version` is the stored one.
export function stored(page) {
  return page.evaluate(() => new Promise((done, failed) => {
    const request = indexedDB.open('tallyblock');
    request.onerror = () => failed(request.error);
    request.onsuccess = async () => {
      const db = request.result;
      const names = [...db.objectStoreNames];
      const all = {};
      const read = db.transaction(names, 'readonly');
      for (const name of names) {
        const store = read.objectStore(name);
        const keys = store.getAllKeys();
        const values = store.getAll();
        values.onsuccess = () => {
          all[name] = keys.result.map((key, i) => [key, new TextDecoder().decode(values.result[i])]);
        };
      }
      read.oncomplete = () => {
        const { version } = db;
        db.close();
        done(JSON.stringify({ version, all }));
      };
    };
  }));
}
