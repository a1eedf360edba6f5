// The check value of a stored record.
//
// Stored is the payload, a line feed and the CRC-32 (as in zip) of area, key and payload, parted by
// line feeds, as 8 hexadecimal digits: a flipped digit is noticed, and so is a record under another's
// key. Payloads never end in such a line themselves.

const length = 9;
const encoder = new TextEncoder();
const decoder = new TextDecoder();

const table = Uint32Array.from({ length: 256 }, (_, n) => {
  for (let bit = 0; bit < 8; bit++) n = (n & 1) ? 0xedb88320 ^ (n >>> 1) : n >>> 1;
  return n;
});

function goOn(sum, bytes) {
  for (let i = 0; i < bytes.length; i++) sum = table[(sum ^ bytes[i]) & 255] ^ (sum >>> 8);
  return sum;
}

function checkOf(area, key, payload) {
  return (goOn(goOn(-1, encoder.encode(`${area}\n${key}\n`)), payload) ^ -1) >>> 0;
}

// The bytes to store.
export function seal(area, key, payload) {
  const sum = checkOf(area, key, payload);
  const stored = new Uint8Array(payload.length + length);
  stored.set(payload);
  stored.set(encoder.encode('\n' + sum.toString(16).padStart(8, '0')), payload.length);
  return { stored, sum };
}

// { payload, sum } of what is stored, or null if it is not what was written.
export function unseal(area, key, stored) {
  if (!(stored instanceof Uint8Array) || stored.length < length) return null;
  const at = stored.length - length;
  if (stored[at] !== 10) return null;
  const payload = stored.subarray(0, at);
  const sum = checkOf(area, key, payload);
  return decoder.decode(stored.subarray(at + 1)) === sum.toString(16).padStart(8, '0') ? { payload, sum } : null;
}

// Stored before records had a check value.
export const isBare = (stored) =>
  stored instanceof Uint8Array && (stored.length < length || stored[stored.length - length] !== 10);
