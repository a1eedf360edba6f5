// Keeps the two stores alike, and brings back from the second what the first has lost.
//
// After every act its session is copied within a second, at once when the page is hidden. At the start,
// when the app can be used, the two are compared by their sums; what one lacks comes back from the
// other. A session goes from the second store only when it was deleted here. All work on the second store
// is done one after the other; what fails is tried again and disturbs nobody.
import { unseal } from './check.js';
import { adoptOld } from './old_database.js';
import * as records from './records.js';
import { SecondStore, usable } from './second_store.js';
import { gone, old, sessionOf, Sum, sumFrom } from './sums.js';

const [entries, , app, bin] = records.areas;
const soon = 700; // ms
const later = 10_000; // after a failure
const much = 400; // operations of a commit: while such come in, copying would hold them up
const calm = 1500; // ms after the last of them
const pause = () => new Promise((go) => setTimeout(go, 0));

// What the person is told (BRIDGE.md, tb_news).
export const news = {
  back: 1, // pieces that were missing and came from the second store
  mended: 2, // records that were damaged and did
  damaged: 3, // records that are damaged and in no other place
  wiped: 4, // nothing is left, though something was kept here once
  cleared: 5, // what was stored was taken away while the app was open
  copied: 6, // pieces missing in the second store, and there again
};

export class BothStores {
  // storage: { database() resolves to the open one, known }; asks: { mayWrite(), tell(news, count) }.
  constructor(storage, asks) {
    this.storage = storage;
    this.asks = asks;
    this.second = usable ? new SecondStore() : null;
    this.changed = new Set(); // sessions to copy
    this.deleted = new Set();
    this.shrunk = new Set(); // of those to copy: have fewer records than before on purpose
    this.appChanged = false;
    this.timer = 0;
    this.calmAt = 0;
    this.work = Promise.resolve();
  }

  // Another window writes, or did.
  changedElsewhere() {
    if (this.second) this.second.files = null;
  }

  // One piece of work after the other; a failure of one is its own.
  #next(work) {
    const done = this.work.then(work);
    this.work = done.catch((error) => console.warn('second store:', error));
    return done;
  }

  // ---- from the first to the second

  // What a commit has done; `ops` as framing.js gives them.
  note({ touched, erased, missing }, ops) {
    if (missing.size > 0) this.cleared();
    if (!this.second) return;
    if (ops.length > much) this.calmAt = performance.now() + calm;
    for (const id of touched) {
      this.changed.add(id);
      this.deleted.delete(id);
    }
    for (const id of erased) {
      this.deleted.add(id);
      this.changed.delete(id);
    }
    for (const { what, area, key } of ops) {
      if (what === 1 && area === 0) this.shrunk.add(sessionOf(key));
      if (area >= 2 && key !== 'draft') this.appChanged = true;
    }
    if (this.changed.size + this.deleted.size > 0 || this.appChanged) this.#copyIn(soon);
  }

  #copyIn(ms) {
    this.timer ||= setTimeout(() => {
      this.timer = 0;
      const wait = this.calmAt - performance.now();
      if (wait > 0) this.#copyIn(wait);
      else this.copy();
    }, ms);
  }

  // Copies now what has changed. Resolves when it is there, or could not be done.
  copy() {
    clearTimeout(this.timer);
    this.timer = 0;
    return this.#next(() => this.#copy()).catch(() => this.#copyIn(later));
  }

  async #copy() {
    if (!this.second || !this.asks.mayWrite()) return;
    const changed = [...this.changed];
    if (changed.length + this.deleted.size === 0 && !this.appChanged) return;
    const db = await this.storage.database();
    if (!this.second.files) await this.second.list();
    await this.second.begin(changed);
    for (const id of changed) {
      await this.#copySession(db, id);
      if (changed.length > 20) await pause();
    }
    for (const id of [...this.deleted]) {
      await this.second.drop(id);
      await records.forget(db, id);
      this.storage.known.delete(id);
      this.deleted.delete(id);
    }
    await this.#copyApp(db);
    await this.second.end();
  }

  async #copySession(db, id) {
    this.changed.delete(id);
    try {
      let found = await records.read(db, entries, id + '/');
      const text = found.known.get(id);
      if (text === gone || text === undefined) return; // not what was copied before: left alone
      const lacks = this.second.most(id) > found.good.length && !this.shrunk.has(id);
      if (found.wrong.length + found.bad.length > 0 || lacks || text === old) {
        await this.#mend(db, id, found);
        found = await records.read(db, entries, id + '/');
      }
      this.shrunk.delete(id);
      if (found.good.length === 0) return;
      await this.second.write(id, found.known.get(id), found.good.map(({ key }) => key),
        found.good.map(({ stored }) => stored));
    } catch (error) {
      this.changed.add(id);
      throw error;
    }
  }

  // The app's own records and the bin, in one file.
  async #copyApp(db) {
    const keys = [];
    const values = [];
    const sum = new Sum();
    for (const area of [app, bin]) {
      for (const one of (await records.read(db, area, '')).good) {
        keys.push(`${area}/${one.key}`);
        values.push(one.stored);
        sum.add(one.sum);
      }
    }
    this.appChanged = false;
    if (keys.length > 0) await this.second.write(app, sum.text, keys, values);
  }

  // ---- from the second to the first

  // Puts back what the session lacks or has damaged, as far as the second store holds it; records
  // stored without a check value get theirs. Resolves to { back, damaged }: how many records.
  async #mend(db, id, read) {
    const found = read ?? await records.read(db, entries, id + '/');
    const sealed = found.known.get(id) === old ? records.sealed(found.good) : [];
    const whole = new Set(found.good.map(({ key }) => key));
    const put = [...sealed];
    let back = 0;
    for (const [key, stored] of await this.#secondOf(id)) {
      if (whole.has(key) || sessionOf(key) !== id || !unseal(entries, key, stored)) continue;
      put.push({ key, stored });
      whole.add(key);
      back++;
    }
    const lost = found.bad.filter((key) => !whole.has(key));
    const text = await records.replaceSession(db, id, put, found.foreign.filter((key) => !whole.has(key)));
    if (text === '') this.storage.known.delete(id);
    else this.storage.known.set(id, text);
    if (back > 0) this.changed.add(id);
    return { back, damaged: lost.length };
  }

  async #secondOf(name) {
    if (!this.second) return new Map();
    try {
      if (!this.second.files) await this.second.list();
      return await this.second.read(name);
    } catch {
      return new Map();
    }
  }

  // Mends what reading found wrong, and tells. Only the window with the pen writes.
  async mendSessions(db, ids) {
    if (!this.asks.mayWrite()) return;
    let back = 0;
    let damaged = 0;
    for (const id of ids) {
      const done = await this.#mend(db, id);
      back += done.back;
      damaged += done.damaged;
    }
    if (back > 0) this.asks.tell(news.mended, back);
    if (damaged > 0) this.asks.tell(news.damaged, damaged);
    if (this.changed.size > 0) this.#copyIn(soon);
  }

  // The same for the app's own records or the bin.
  async mendRecords(db, area, bad) {
    if (!this.asks.mayWrite()) return;
    const put = await this.#ofApp(area, (key) => bad.includes(key));
    const back = new Set(put.map(({ key }) => key));
    await records.replaceRecords(db, area, put, bad.filter((key) => !back.has(key)));
    this.asks.tell(put.length > 0 ? news.mended : news.damaged, put.length || bad.length);
  }

  async #ofApp(area, wanted) {
    const put = [];
    for (const [name, stored] of await this.#secondOf(app)) {
      if (!name.startsWith(area + '/')) continue;
      const key = name.slice(area.length + 1);
      if (wanted(key) && unseal(area, key, stored)) put.push({ key, stored });
    }
    return put;
  }

  // Into a database that is new: what a database of before holds, else all that the second store does.
  // `marked`: something was kept here once.
  async restore(db, marked) {
    if (await adoptOld(db)) return;
    const back = await this.#restoreAll(db);
    if (back > 0) this.asks.tell(news.back, back);
    else if (marked) this.asks.tell(news.wiped, 1);
  }

  async #restoreAll(db) {
    if (!this.second) return 0;
    const names = [...(await this.second.list()).keys()].filter((name) => name !== app);
    for (const area of [app, bin]) {
      const put = await this.#ofApp(area, () => true);
      if (put.length > 0) await records.replaceRecords(db, area, put, []);
    }
    let count = 0;
    for (const id of names) {
      if ((await this.#mend(db, id)).back > 0) count++;
      await pause();
    }
    return count;
  }

  // What was stored was taken away while the app was open: what the second store still holds comes
  // back, and the app is told to write all it has in memory.
  cleared() {
    if (this.clearing) return;
    this.clearing = true;
    this.#next(async () => {
      try {
        if (this.second) await this.#compare(await this.storage.database());
      } finally {
        this.clearing = false;
        this.asks.tell(news.cleared, 1);
      }
    }).catch(() => {});
  }

  // At the start, in the background.
  compare() {
    if (!this.second || !this.asks.mayWrite()) return Promise.resolve();
    return this.#next(async () => {
      const { back, copied, damaged } = await this.#compare(await this.storage.database());
      if (back > 0) this.asks.tell(news.back, back);
      else if (copied > 0) this.asks.tell(news.copied, copied);
      if (damaged > 0) this.asks.tell(news.damaged, damaged);
    }).then(() => this.copy()).catch(() => this.#copyIn(later));
  }

  async #compare(db) {
    const files = await this.second.list();
    const sums = await records.readSums(db);
    const before = files.size > 0;
    const done = { back: 0, copied: 0, damaged: 0 };
    for (const [id, text] of sums) {
      if (text === gone) {
        this.deleted.add(id);
      } else if (!this.second.holds(id, text)) {
        if (this.second.most(id) > (sumFrom(text)?.count ?? 0) && text !== old) {
          const mended = await this.#mend(db, id);
          if (mended.back > 0) done.back++;
          done.damaged += mended.damaged;
        }
        if (before && !files.has(id)) done.copied++;
        this.changed.add(id);
      }
    }
    for (const id of files.keys()) {
      if (id === app || sums.has(id)) continue;
      if ((await this.#mend(db, id)).back > 0) done.back++;
      await pause();
    }
    if (!files.has(app)) this.appChanged = true;
    return done;
  }
}
