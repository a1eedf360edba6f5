// Transactions on the four areas of web/app/store.h, and on the sums of sessions beside them.
//
// A value is stored with its check value (check.js). Whatever is found damaged or of another kind is
// reported, never handed on. Reading and writing keep the sums: a session that lacks records, or has
// others than were written, is noticed. Nothing here decides what to do about it: both_stores.js does.
import { isBare, seal, unseal } from './check.js';
import { gone, old, sessionOf, Sum, sumFrom } from './sums.js';

export const areas = ['entries', 'index', 'app', 'bin'];
export const sums = 'sums';

const entries = areas[0];
const mostOps = 2000; // of one transaction
const mostBytes = 512 * 1024;

export const startsWith = (prefix) =>
  prefix === '' ? undefined : IDBKeyRange.bound(prefix, prefix + '\uffff');
// Of the index what begins with ~ is read only by its own prefix (web/app/store.h).
const within = (area, prefix) =>
  area === areas[1] && prefix === '' ? IDBKeyRange.upperBound('~', true) : startsWith(prefix);

// Sums are stored as bytes, like everything else.
const encoder = new TextEncoder();
const decoder = new TextDecoder();
const textOf = (stored) => (stored instanceof Uint8Array ? decoder.decode(stored) : undefined);
export const putSum = (store, id, text) => store.put(encoder.encode(text), id);

export const answerOf = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

// Runs `work` in one transaction and resolves with its result when that is complete: not earlier.
async function inTransaction(db, names, mode, work) {
  const transaction = db.transaction(names, mode, { durability: 'strict' });
  const store = Object.fromEntries(names.map((name) => [name, transaction.objectStore(name)]));
  const done = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error ?? new DOMException('aborted', 'AbortError'));
  });
  done.catch(() => {});
  let result;
  try {
    result = await work(store);
  } catch (error) {
    try { transaction.abort(); } catch { /* it is over already */ }
    throw error;
  }
  if (mode === 'readwrite') {
    try { transaction.commit?.(); } catch { /* it is over already */ }
  }
  await done;
  return result;
}

// ---- writing

// Operations in turns of a bounded size, in their order.
function bounded(ops) {
  const turns = [];
  let bytes = 0;
  for (const op of ops) {
    const turn = turns.at(-1);
    if (!turn || turn.length >= mostOps || bytes + op.value.length > mostBytes) {
      turns.push([op]);
      bytes = op.value.length;
    } else {
      turn.push(op);
      bytes += op.value.length;
    }
  }
  return turns;
}

// Writes `ops` (framing.js). Most acts are one transaction; a large import is several, so that no
// transaction outgrows what browsers survive; of each session the card, which makes it visible, comes last. Resolves to
// { touched, erased, missing }: sessions written, sessions deleted, and those that were not as `known`
// (session -> text of its sum) has them: somebody took away what was stored.
export async function write(db, ops, known) {
  const touched = new Set();
  const erased = new Set();
  const missing = new Set();
  for (const turn of bounded(ops)) await writeTurn(db, turn, known, { touched, erased, missing });
  return { touched, erased, missing };
}

async function writeTurn(db, ops, known, { touched, erased, missing }) {
  const used = [...new Set(ops.map((op) => areas[op.area]))];
  const counted = ops.some((op) => op.area === 0);
  const made = await inTransaction(db, counted ? [...used, sums] : used, 'readwrite', async (store) => {
    const sessions = new Map();
    if (counted) {
      const ids = [...new Set(ops.filter((op) => op.area === 0).map((op) => sessionOf(op.key)))];
      const texts = (await Promise.all(ids.map((id) => answerOf(store[sums].get(id))))).map(textOf);
      ids.forEach((id, i) => {
        const sum = sumFrom(texts[i]) ?? new Sum();
        sessions.set(id, { text: texts[i], sum, isNew: sum.count === 0 });
      });
    }
    for (const op of ops) await writeOne(store[areas[op.area]], op, sessions.get(op.area === 0 ? sessionOf(op.key) : null));
    for (const [id, session] of sessions) putSum(store[sums], id, session.after ?? session.sum.text);
    return sessions;
  });
  for (const [id, { text, sum, after }] of made) {
    if (known.has(id) && known.get(id) !== text) missing.add(id);
    (after === gone ? erased : touched).add(id);
    known.set(id, after ?? sum.text);
  }
}

// `session`: of an entry, { text, sum, isNew }; gets `after` where its sum is to be another word. Only what
// must be read first is waited for; the transaction's end answers for the rest.
async function writeOne(store, { what, area, key, value }, session) {
  if (what === 2) { // all that begins with the key: a session, as a whole
    if (session) Object.assign(session, { after: gone, sum: new Sum() });
    store.delete(startsWith(key) ?? IDBKeyRange.lowerBound(''));
    return;
  }
  if (session && what === 0) session.after = session.text === old ? old : undefined;
  if (session && !session.isNew) {
    const before = unseal(areas[area], key, await answerOf(store.get(key)));
    if (before) session.sum.remove(before.sum);
  }
  if (what === 1) {
    store.delete(key);
    return;
  }
  const { stored, sum } = seal(areas[area], key, value);
  session?.sum.add(sum);
  store.put(stored, key);
}

// ---- reading

// One area's records whose key starts with `prefix`: { good: [{ key, payload, stored, sum }],
// bad: [key, ...], foreign: [key, ...], wrong: [session, ...], known: Map }. bad: what cannot be what was
// written; foreign: those of them that are no bytes; wrong: sessions whose records are not those that were written; known: the sums of the sessions.
export async function read(db, area, prefix) {
  const counted = area === entries || area === areas[1];
  const [keys, values, ids, texts] = await inTransaction(db, counted ? [area, sums] : [area], 'readonly',
    (store) => Promise.all([
      answerOf(store[area].getAllKeys(within(area, prefix))),
      answerOf(store[area].getAll(within(area, prefix))),
      ...(counted ? [answerOf(store[sums].getAllKeys(ofSums(area, prefix))),
        answerOf(store[sums].getAll(ofSums(area, prefix)))] : []),
    ]));
  const known = new Map((ids ?? []).map((id, i) => [id, textOf(texts[i])]));
  const found = { good: [], bad: [], foreign: [], wrong: [], known };
  const counts = new Map();
  keys.forEach((key, i) => {
    if (typeof key !== 'string') return; // not ours
    const session = sessionOf(key);
    const whole = unseal(area, key, values[i]);
    if (whole) {
      found.good.push({ key, payload: whole.payload, stored: values[i], sum: whole.sum });
      if (area === entries) {
        if (!counts.has(session)) counts.set(session, new Sum());
        counts.get(session).add(whole.sum);
      }
    } else if (isBare(values[i]) && area === entries && known.get(session) === old) {
      found.good.push({ key, payload: values[i], stored: values[i] });
    } else {
      found.bad.push(key);
      if (!(values[i] instanceof Uint8Array)) found.foreign.push(key);
    }
  });
  if (area === entries) {
    for (const id of new Set([...known.keys(), ...counts.keys()])) {
      const text = known.get(id);
      if (text !== old && (text === gone ? counts.has(id) : text !== counts.get(id)?.text)) found.wrong.push(id);
    }
  }
  return found;
}

// The sums that go with an area's records under `prefix`.
function ofSums(area, prefix) {
  return area === entries && prefix !== '' ? IDBKeyRange.only(sessionOf(prefix)) : undefined;
}

// { key -> value } of the sums.
export const readSums = (db) => inTransaction(db, [sums], 'readonly', async (store) => {
  const [keys, values] = await Promise.all([answerOf(store[sums].getAllKeys()), answerOf(store[sums].getAll())]);
  return new Map(keys.map((key, i) => [key, textOf(values[i])]));
});

// ---- mending

// Records of entries as read, with check values.
export const sealed = (good) =>
  good.map(({ key, payload }) => ({ key, stored: seal(entries, key, payload).stored }));

// Puts stored values, as they are, where they belong, takes out `without`, and counts anew: for one
// session. Resolves to the text of its sum, "" if nothing of it is left.
export const replaceSession = (db, session, records, without) =>
  inTransaction(db, [entries, sums], 'readwrite', async (store) => {
    for (const key of without) store[entries].delete(key);
    for (const { key, stored } of records) store[entries].put(stored.slice(), key);
    const range = startsWith(session + '/');
    const [keys, values] = await Promise.all([
      answerOf(store[entries].getAllKeys(range)), answerOf(store[entries].getAll(range))]);
    const sum = new Sum();
    keys.forEach((key, i) => {
      const whole = unseal(entries, key, values[i]);
      if (whole) sum.add(whole.sum);
    });
    if (sum.count > 0) putSum(store[sums], session, sum.text);
    else store[sums].delete(session);
    return sum.count > 0 ? sum.text : '';
  });

export const forget = (db, session) => inTransaction(db, [sums], 'readwrite', async (store) => {
  if (textOf(await answerOf(store[sums].get(session))) === gone) store[sums].delete(session);
});

// Puts stored values of one area as they are, and takes out `without`.
export const replaceRecords = (db, area, records, without) =>
  inTransaction(db, [area], 'readwrite', async (store) => {
    for (const key of without) store[area].delete(key);
    for (const { key, stored } of records) store[area].put(stored.slice(), key);
  });
