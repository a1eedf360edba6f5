// Pixels of a screenshot, without a library: PNG as the browser writes it (8 bits, RGB or RGBA).
import zlib from 'node:zlib';

function paeth(a, b, c) {
  const p = a + b - c;
  const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)];
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
}

// { width, height, channels, data } of a PNG.
export function decodePng(png) {
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  const channels = png[25] === 6 ? 4 : 3;
  const parts = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') {
      parts.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
    }
  }
  const raw = zlib.inflateSync(Buffer.concat(parts));
  const line = width * channels;
  const data = Buffer.alloc(line * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (line + 1)];
    for (let x = 0; x < line; x++) {
      const here = y * line + x;
      const left = x >= channels ? data[here - channels] : 0;
      const up = y > 0 ? data[here - line] : 0;
      const corner = x >= channels && y > 0 ? data[here - line - channels] : 0;
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter];
      data[here] = raw[y * (line + 1) + 1 + x] + guess;
    }
  }
  return { width, height, channels, data };
}

// Share of the page's visible pixels which differ from its corner: 0 is a blank page.
export async function inked(page) {
  const { data, channels } = decodePng(await page.screenshot());
  let other = 0;
  for (let at = 0; at < data.length; at += channels) {
    if (data[at] !== data[0] || data[at + 1] !== data[1] || data[at + 2] !== data[2]) other++;
  }
  return other / (data.length / channels);
}

// Relative luminance of WCAG 2.2, of 8-bit sRGB.
const linear = Array.from({ length: 256 }, (_, v) => {
  const c = v / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
});
const luminance = (data, at) =>
  0.2126 * linear[data[at]] + 0.7152 * linear[data[at + 1]] + 0.0722 * linear[data[at + 2]];

// Contrast between the lightest and the darkest pixel of a rectangle (CSS px, 4 px of its edge left out).
export function contrastWithin({ data, channels, width, height }, rect, ratio = 1) {
  const to = (v, most) => Math.max(0, Math.min(most, Math.round(v * ratio)));
  let [least, most] = [1, 0];
  for (let y = to(rect.y + 4, height); y < to(rect.y + rect.height - 4, height); y++) {
    for (let x = to(rect.x + 4, width); x < to(rect.x + rect.width - 4, width); x++) {
      const light = luminance(data, (y * width + x) * channels);
      least = Math.min(least, light);
      most = Math.max(most, light);
    }
  }
  return (most + 0.05) / (least + 0.05);
}

// How many colours there are.
export function colours({ data, channels }) {
  const seen = new Set();
  for (let at = 0; at < data.length; at += channels) {
    seen.add((data[at] << 16) | (data[at + 1] << 8) | data[at + 2]);
  }
  return seen.size;
}

// Share of pixels which differ by more than `most` in any channel.
export function difference(a, b, most = 8) {
  if (a.width !== b.width || a.height !== b.height || a.channels !== b.channels) return 1;
  let other = 0;
  for (let at = 0; at < a.data.length; at += a.channels) {
    if (Math.abs(a.data[at] - b.data[at]) > most || Math.abs(a.data[at + 1] - b.data[at + 1]) > most ||
        Math.abs(a.data[at + 2] - b.data[at + 2]) > most) other++;
  }
  return other / (a.data.length / a.channels);
}
