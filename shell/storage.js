// The four areas of web/app/store.h in IndexedDB: key (text) -> bytes with their check value.
//
// A commit is answered "ok" only when its transactions, under strict durability, are complete.
// Whatever goes wrong is one of the numbers of StoreStatus. An open connection that died is opened
// again once per operation; every operation is answered within 10 s. records.js reads and writes,
// both_stores.js keeps a second copy and brings back what is missing here.
import { prepare } from './database.js';
import { packRecords, unpackOps } from './framing.js';
import { database, marker } from './places.js';
import * as records from './records.js';
import { gone } from './sums.js';

export const schema = 2;
const { areas } = records;
const patience = 10_000;
const nothing = new Uint8Array(0);

export const status = {
  ok: 0, quota: 1, aborted: 2, closed: 3, timeout: 4, blocked: 5, newer: 6, notWriter: 7,
  unavailable: 8,
};

function statusOfOpening(error, opened) {
  if (error?.name === 'VersionError') return status.newer;
  if (error?.name === 'QuotaExceededError') return status.quota;
  return opened ? status.closed : status.unavailable;
}

// A mark outside the database: something was kept here once.
function marked() {
  try {
    return localStorage.getItem(marker) !== null;
  } catch {
    return false;
  }
}
let isMarked = false;
function mark() {
  if (isMarked) return;
  isMarked = true;
  try {
    localStorage.setItem(marker, '1');
  } catch { /* without it a wiped device looks new */ }
}

// Errors after which the connection, not the data, is to blame.
const connectionLost = (error) =>
  error?.name === 'InvalidStateError' || error?.name === 'UnknownError';

export class Storage {
  // asks: { mayWrite(), flush(), usable(), tell(news, count) }: whether this window has the pen; called
  // before another version takes the data, to store what is pending; called when a blocked opening
  // succeeded; news of both_stores.js for the person.
  constructor(asks) {
    this.asks = asks;
    this.known = new Map(); // session -> text of its sum, as this window last saw it
    this.second = null;
    this.db = null;
    this.opening = null;
    this.opened = false; // ever
    this.pending = new Set();
  }

  // The second store and what goes between the two: needed after the first frame, or when something is
  // wrong before it.
  both() {
    this.second ??= import('./both_stores.js').then(({ BothStores }) => new BothStores(this, this.asks));
    this.second.catch(() => { this.second = null; });
    return this.second;
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
        request = indexedDB.open(database, schema);
      } catch (error) {
        reject(statusOfOpening(error, this.opened));
        return;
      }
      let answered = false;
      const refuse = (why) => { answered = true; reject(why); };
      const timer = setTimeout(() => refuse(status.timeout), patience);
      let isNew = false;
      request.onupgradeneeded = ({ oldVersion }) => {
        isNew = oldVersion === 0;
        prepare(request.result, request.transaction, oldVersion);
      };
      request.onblocked = () => { clearTimeout(timer); refuse(status.blocked); };
      request.onerror = () => {
        clearTimeout(timer);
        refuse(statusOfOpening(request.error, this.opened));
      };
      request.onsuccess = async () => {
        clearTimeout(timer);
        const db = request.result;
        if (isNew) await this.#fill(db).catch((error) => console.warn('restoring:', error));
        this.#adopt(db);
        if (answered) this.asks.usable();
        resolve();
      };
    });
  }

  // A database that was not there: the person's first, or one that was lost.
  async #fill(db) {
    const both = await this.both();
    if (this.opened) both.cleared(); // under the running app
    else await both.restore(db, marked());
  }

  // The open database, for both_stores.js.
  async database() {
    if (!this.db) await this.open();
    if (!this.db) throw new DOMException('closed', 'InvalidStateError');
    return this.db;
  }

  // Another window writes, or did.
  changedElsewhere() {
    this.known.clear();
    this.second?.then((both) => both.changedElsewhere(), () => {});
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
  async commit(bytes) {
    if (!this.asks.mayWrite()) return status.notWriter;
    const ops = unpackOps(bytes);
    const done = await this.#run(async (db) => ({
      status: status.ok, did: await records.write(db, ops, this.known),
    }));
    if (done.status === status.ok) {
      mark();
      this.both().then((both) => both.note(done.did, ops), () => {});
    }
    return done.status;
  }

  // Resolves to { status, bytes }: the area's records whose key starts with `prefix`, by key.
  load(area, prefix) {
    return this.#run(async (db) => ({ status: status.ok, bytes: await this.#read(db, areas[area], prefix) }));
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

  async #read(db, area, prefix) {
    let found = await records.read(db, area, prefix);
    const broken = new Set(found.wrong);
    if (area === 'entries') for (const key of found.bad) broken.add(key.slice(0, key.indexOf('/')));
    if (area === 'entries' ? broken.size > 0 : area !== 'index' && found.bad.length > 0) {
      const both = await this.both();
      if (area === 'entries') await both.mendSessions(db, broken);
      else await both.mendRecords(db, area, found.bad);
      found = await records.read(db, area, prefix);
    }
    for (const [id, text] of found.known) this.known.set(id, text);
    const list = found.good.map(({ key, payload }) => [key, payload]);
    if (area === 'index') {
      // A card that is damaged or missing is handed on as one that cannot be read: made again.
      const here = new Set(found.good.map(({ key }) => key));
      const lost = [...found.known].filter(([id, text]) => text !== gone && !here.has(id) && id.startsWith(prefix));
      list.push(...lost.map(([id]) => [id, nothing]));
      list.push(...found.bad.filter((key) => !found.known.has(key)).map((key) => [key, nothing]));
      list.sort(([a], [b]) => (a < b ? -1 : 1));
    }
    return packRecords(list.map(([key]) => key), list.map(([, value]) => value));
  }
}
