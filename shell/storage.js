// The four areas of web/app/store.h in IndexedDB: key (text) -> bytes.
//
// A commit is one transaction under strict durability and is answered "ok" only at its complete
// event. Whatever goes wrong is one of the numbers of StoreStatus. An open connection that died is
// opened again once per operation; every operation is answered within 10 s.
import { packRecords, unpackOps } from './framing.js';

export const schema = 1;
const name = 'tallyblock';
const areas = ['entries', 'index', 'app', 'bin'];
const patience = 10_000;

export const status = {
  ok: 0, quota: 1, aborted: 2, closed: 3, timeout: 4, blocked: 5, newer: 6, notWriter: 7,
  unavailable: 8,
};

const startsWith = (prefix) =>
  prefix === '' ? undefined : IDBKeyRange.bound(prefix, prefix + '\uffff');

function statusOfOpening(error, opened) {
  if (error?.name === 'VersionError') return status.newer;
  if (error?.name === 'QuotaExceededError') return status.quota;
  return opened ? status.closed : status.unavailable;
}

// Errors after which the connection, not the data, is to blame.
const connectionLost = (error) =>
  error?.name === 'InvalidStateError' || error?.name === 'UnknownError';

export class Storage {
  // asks: { mayWrite(), flush(), usable() }: whether this window has the pen; called before another
  // version takes the data, to store what is pending; called when a blocked opening succeeded.
  constructor(asks) {
    this.asks = asks;
    this.db = null;
    this.opening = null;
    this.opened = false; // ever
    this.pending = new Set();
  }

  // Resolves when the database is open, rejects with a number of StoreStatus.
  open() {
    this.opening ??= this.#open().finally(() => { this.opening = null; });
    return this.opening;
  }

  #open() {
    return new Promise((resolve, reject) => {
      let request;
      try {
        request = indexedDB.open(name, schema);
      } catch (error) {
        reject(statusOfOpening(error, this.opened));
        return;
      }
      let answered = false;
      const refuse = (why) => { answered = true; reject(why); };
      const timer = setTimeout(() => refuse(status.timeout), patience);
      request.onupgradeneeded = () => {
        for (const area of areas) {
          if (!request.result.objectStoreNames.contains(area)) request.result.createObjectStore(area);
        }
      };
      request.onblocked = () => { clearTimeout(timer); refuse(status.blocked); };
      request.onerror = () => {
        clearTimeout(timer);
        refuse(statusOfOpening(request.error, this.opened));
      };
      request.onsuccess = () => {
        clearTimeout(timer);
        this.#adopt(request.result);
        if (answered) this.asks.usable();
        resolve();
      };
    });
  }

  #adopt(db) {
    if (this.db && this.db !== db) this.db.close();
    this.db = db;
    this.opened = true;
    const forget = () => { if (this.db === db) this.db = null; };
    db.onclose = forget;
    db.onversionchange = async () => {
      this.asks.flush();
      await this.settled();
      forget();
      db.close();
    };
  }

  // All operations begun so far are answered.
  async settled() {
    while (this.pending.size > 0) await Promise.allSettled([...this.pending]);
  }

  // Looks whether the connection still lives and opens it again if not (after the background).
  check() {
    if (!this.opened) return;
    if (this.db) {
      try {
        this.db.transaction('app', 'readonly');
        return;
      } catch {
        this.db = null;
      }
    }
    this.open().catch(() => {});
  }

  // Resolves to a number of StoreStatus, never rejects. Begins at once if the database is open.
  commit(bytes) {
    if (!this.asks.mayWrite()) return Promise.resolve(status.notWriter);
    const ops = unpackOps(bytes);
    return this.#run((db) => this.#write(db, ops)).then((done) => done.status);
  }

  // Resolves to { status, bytes }: the area's records whose key starts with `prefix`, by key.
  load(area, prefix) {
    return this.#run((db) => this.#read(db, areas[area], prefix));
  }

  #run(work) {
    const answer = new Promise((resolve) => {
      const timer = setTimeout(() => resolve({ status: status.timeout }), patience);
      this.#attempt(work, true).then((done) => {
        clearTimeout(timer);
        resolve(done);
      });
    });
    this.pending.add(answer);
    answer.then(() => this.pending.delete(answer));
    return answer;
  }

  // Resolves to { status, ... }. `again`: a lost connection may be replaced once.
  async #attempt(work, again) {
    if (!this.db) {
      try {
        await this.open();
      } catch (why) {
        return { status: why };
      }
      // closed again meanwhile: another version wants the data
      if (!this.db) return again ? this.#attempt(work, false) : { status: status.closed };
    }
    const db = this.db;
    try {
      return await work(db);
    } catch (error) {
      if (!connectionLost(error)) {
        return { status: error?.name === 'QuotaExceededError' ? status.quota : status.aborted };
      }
      if (this.db === db) this.db = null;
      db.close();
      return again ? this.#attempt(work, false) : { status: status.closed };
    }
  }

  #write(db, ops) {
    const used = [...new Set(ops.map((op) => areas[op.area]))];
    if (used.length === 0) return Promise.resolve({ status: status.ok });
    const transaction = db.transaction(used, 'readwrite', { durability: 'strict' });
    const done = new Promise((resolve, reject) => {
      transaction.oncomplete = () => resolve({ status: status.ok });
      transaction.onabort = () => reject(transaction.error);
    });
    try {
      for (const op of ops) {
        const store = transaction.objectStore(areas[op.area]);
        if (op.what === 0) store.put(op.value.slice(), op.key);
        else if (op.what === 1) store.delete(op.key);
        else store.delete(startsWith(op.key) ?? IDBKeyRange.lowerBound(''));
      }
      transaction.commit?.();
    } catch (error) {
      transaction.abort();
      done.catch(() => {});
      throw error;
    }
    return done;
  }

  #read(db, area, prefix) {
    return new Promise((resolve, reject) => {
      const transaction = db.transaction(area, 'readonly');
      const store = transaction.objectStore(area);
      const keys = store.getAllKeys(startsWith(prefix));
      const values = store.getAll(startsWith(prefix));
      transaction.oncomplete = () =>
        resolve({ status: status.ok, bytes: packRecords(keys.result, values.result) });
      transaction.onabort = () => reject(transaction.error);
    });
  }
}
