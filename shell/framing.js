// Bytes across the bridge: operations of a transaction coming out, records going in (BRIDGE.md).
// Values stay bytes; only keys and lengths are read.

const decoder = new TextDecoder();
const encoder = new TextEncoder();

// u8 what, u8 area, u32le key length, key, u32le value length, value; repeated.
export function unpackOps(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const ops = [];
  let at = 0;
  const part = () => {
    const length = view.getUint32(at, true);
    const from = at + 4;
    at = from + length;
    return bytes.subarray(from, at);
  };
  while (at < bytes.length) {
    const what = bytes[at];
    const area = bytes[at + 1];
    at += 2;
    const key = decoder.decode(part());
    ops.push({ what, area, key, value: part() });
  }
  return ops;
}

// u32le key length, key, u32le value length, value; repeated, in the given order.
export function packRecords(keys, values) {
  const names = keys.map((key) => encoder.encode(key));
  let size = 0;
  for (let i = 0; i < names.length; i++) size += 8 + names[i].length + values[i].length;
  const bytes = new Uint8Array(size);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const put = (part) => {
    view.setUint32(at, part.length, true);
    bytes.set(part, at + 4);
    at += 4 + part.length;
  };
  for (let i = 0; i < names.length; i++) {
    put(names[i]);
    put(values[i]);
  }
  return bytes;
}

// The same, back: pairs of key and value; what is cut off at the end is left out.
export function* unpackRecords(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  const part = () => {
    if (at + 4 > bytes.length) return null;
    const from = at + 4;
    at = from + view.getUint32(at, true);
    return at > bytes.length ? null : bytes.subarray(from, at);
  };
  while (at < bytes.length) {
    const key = part();
    const value = key && part();
    if (!value) return;
    yield [decoder.decode(key), value];
  }
}
