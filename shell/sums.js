// What is known of a session's stored records without reading them: how many, and the sum of their
// check values modulo 2^32. Kept beside the records, written in the same transaction.
//
// Stored as text: "count-sum", "old" for records that have no check values yet, "gone" for a session
// that was deleted here and may still lie in the second store.

export const old = 'old';
export const gone = 'gone';

export class Sum {
  constructor(count = 0, total = 0) {
    this.count = count;
    this.total = total;
  }
  add(check) {
    this.count++;
    this.total = (this.total + check) >>> 0;
  }
  remove(check) {
    this.count--;
    this.total = (this.total - check) >>> 0;
  }
  get text() { return `${this.count}-${this.total.toString(16).padStart(8, '0')}`; }
}

// Null for what is no sum.
export function sumFrom(text) {
  const parts = typeof text === 'string' ? /^(\d{1,9})-([0-9a-f]{8})$/.exec(text) : null;
  return parts ? new Sum(Number(parts[1]), parseInt(parts[2], 16)) : null;
}

export const sessionOf = (key) => key.slice(0, Math.max(key.indexOf('/'), 0));
