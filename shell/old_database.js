// The database that every copy of the app on one origin shared, before paths counted.
import { seal } from './check.js';
import { markOld } from './database.js';
import { database, oldDatabase } from './places.js';
import { answerOf, areas, sums } from './records.js';

// A copy that starts anew takes along what is there and leaves it as it is. Resolves to whether there was anything.
export async function adoptOld(db) {
  if (database === oldDatabase) return false;
  const all = await indexedDB.databases?.() ?? [];
  if (!all.some(({ name, version }) => name === oldDatabase && version === 1)) return false;
  const from = await answerOf(indexedDB.open(oldDatabase, 1));
  try {
    const read = from.transaction(areas, 'readonly');
    const found = await Promise.all(areas.map(async (area) => {
      const store = read.objectStore(area);
      const [keys, values] = await Promise.all([answerOf(store.getAllKeys()), answerOf(store.getAll())]);
      return { area, keys, values };
    }));
    const write = db.transaction([...areas, sums], 'readwrite', { durability: 'strict' });
    const done = new Promise((resolve, reject) => {
      write.oncomplete = resolve;
      write.onabort = () => reject(write.error);
    });
    for (const { area, keys, values } of found) {
      keys.forEach((key, i) => {
        const bare = area === areas[0];
        write.objectStore(area).put(bare ? values[i] : seal(area, key, values[i]).stored, key);
      });
    }
    markOld(write);
    await done;
    return found[0].keys.length > 0;
  } finally {
    from.close();
  }
}
