// The second store: a copy of everything in Cache Storage, which does not share the fate of IndexedDB.
//
// A browser that finds its own database log torn may delete all of an origin's IndexedDB without a
// word; its caches are other files. One file per session, named by what it holds (its sum), so that
// comparing needs no reading and nothing is ever written over: the new file is there before the old
// one goes. The app's own records and the bin are one more file. Inside: key and stored value of each
// record as framing.js packs them; every value carries its own check value (check.js).
//
// A browser that dies may leave the file it was writing torn. So what is about to be written is named
// in a file of its own, which goes when all is there.
//
// Chosen over the origin's private files: both kept all that was acknowledged when the browser was
// killed; only the caches can be written from a window in every current browser.
import { packRecords, unpackRecords } from './framing.js';
import { home, secondStore } from './places.js';

const base = new URL('kept/', home).href;
const writing = base + 'writing';

export const usable = typeof caches !== 'undefined'; // secure pages only

export class SecondStore {
  constructor() {
    this.cache = null;
    this.files = null; // Map: name (a session) -> texts of the sums of its files
    this.unfinished = new Set(); // names of files that may be torn
  }

  // Looks anew at what is there. Resolves to `files`.
  async list() {
    this.cache = await caches.open(secondStore);
    this.files = new Map();
    this.unfinished = new Set();
    for (const { url } of await this.cache.keys()) {
      if (url === writing) {
        const names = await this.cache.match(writing).then((found) => found.text()).catch(() => '');
        this.unfinished = new Set(names.split(' '));
      } else if (url.startsWith(base)) {
        const [name, sum] = url.slice(base.length).split('/');
        this.files.set(name, [...(this.files.get(name) ?? []), sum]);
      }
    }
    return this.files;
  }

  // Most records in any file of that name.
  most(name) {
    return Math.max(0, ...(this.files.get(name) ?? []).map((sum) => parseInt(sum, 10) || 0));
  }

  // Whether what is stored under this sum is here, whole, and nothing else of that name.
  holds(name, sum) {
    const sums = this.files.get(name) ?? [];
    return sums.length === 1 && sums[0] === sum && !this.unfinished.has(name);
  }

  // All records of that name: Map key -> stored value, unchecked.
  async read(name) {
    const records = new Map();
    for (const sum of this.files.get(name) ?? []) {
      try {
        const found = await this.cache.match(`${base}${name}/${sum}`);
        for (const [key, value] of unpackRecords(new Uint8Array(await found.arrayBuffer()))) {
          records.set(key, value);
        }
      } catch {
        // torn: the other files of that name count
      }
    }
    return records;
  }

  begin(names) {
    for (const name of names) this.unfinished.add(name);
    return this.cache.put(writing, new Response([...this.unfinished].join(' ')));
  }

  async write(name, sum, keys, values) {
    await this.cache.put(`${base}${name}/${sum}`, new Response(packRecords(keys, values)));
    const before = this.files.get(name) ?? [];
    this.files.set(name, [sum]);
    for (const old of before) if (old !== sum) await this.cache.delete(`${base}${name}/${old}`);
    this.unfinished.delete(name);
  }

  async drop(name) {
    for (const sum of this.files.get(name) ?? []) await this.cache.delete(`${base}${name}/${sum}`);
    this.files.delete(name);
    this.unfinished.delete(name);
  }

  end() {
    return this.unfinished.size > 0 ? this.begin([]) : this.cache.delete(writing);
  }
}
