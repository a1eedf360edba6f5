// The shape of the database, and what version 1 of it becomes.
import { areas, putSum, sums } from './records.js';
import { seal } from './check.js';
import { old, sessionOf } from './sums.js';

// In the upgrade's own transaction. Version 1 had no check values and no sums: the few records besides the
// entries get theirs now, the entries session by session later (both_stores.js).
export function prepare(db, transaction, oldVersion) {
  for (const area of [...areas, sums]) {
    if (!db.objectStoreNames.contains(area)) db.createObjectStore(area);
  }
  if (oldVersion !== 1) return;
  for (const area of areas.slice(1)) {
    const store = transaction.objectStore(area);
    store.openCursor().onsuccess = ({ target: { result: at } }) => {
      if (!at) return;
      if (at.value instanceof Uint8Array && typeof at.key === 'string') {
        store.put(seal(area, at.key, at.value).stored, at.key);
      }
      at.continue();
    };
  }
  markOld(transaction);
}

export function markOld(transaction) {
  transaction.objectStore(areas[0]).getAllKeys().onsuccess = ({ target: { result: keys } }) => {
    const texts = keys.filter((key) => typeof key === 'string');
    for (const id of new Set(texts.map(sessionOf))) putSum(transaction.objectStore(sums), id, old);
  };
}
