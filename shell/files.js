// Files out and in. Out: share sheet, else save picker, else download. In: pieces of 1 MB. What the person
// put away again is 'away', what went out 'out'.
import { fail } from './start.js';

const piece = 1024 * 1024;
const largest = 200 * piece;
const mostWaiting = 100; // sessions

async function share(file) {
  if (!navigator.canShare?.({ files: [file] })) return null;
  try {
    await navigator.share({ files: [file] });
    return 'out';
  } catch (error) {
    return error.name === 'AbortError' ? 'away' : null; // put away by the person: that was the answer
  }
}

async function save(file) {
  if (typeof window.showSaveFilePicker !== 'function') return null;
  try {
    const handle = await window.showSaveFilePicker({ suggestedName: file.name });
    const out = await handle.createWritable();
    await out.write(file);
    await out.close();
    return 'out';
  } catch (error) {
    return error.name === 'AbortError' ? 'away' : null;
  }
}

function download(file) {
  const anchor = document.createElement('a');
  anchor.href = URL.createObjectURL(file);
  anchor.download = file.name;
  anchor.click();
  setTimeout(() => URL.revokeObjectURL(anchor.href), 60_000);
}

// Call inside the person's gesture. Resolves to 'out' or 'away'.
export async function offerFile(name, mime, bytes) {
  const file = new File([bytes], name, { type: mime });
  const answer = await share(file) ?? await save(file);
  if (answer) return answer;
  download(file);
  return 'out';
}

// Pixels of four bytes, the top row first.
async function pngOf(width, height, pixels) {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  canvas.getContext('2d').putImageData(
    new ImageData(new Uint8ClampedArray(pixels.buffer), width, height), 0, 0);
  return new Promise((done) => { canvas.toBlob(done, 'image/png'); });
}

// No pixels: they could not be drawn. That no picture came of it is said.
export async function offerPicture(name, width, height, pixels) {
  const png = await pngOf(width, height, pixels).catch(() => null);
  return png ? offerFile(name, 'image/png', png) : fail('picture', true);
}

// Not more is read than can be kept soon.
async function roomFor(program) {
  while (program.importing() > mostWaiting) await new Promise((go) => setTimeout(go, 20));
}

async function read(file, program) {
  let at = 0;
  do {
    const end = Math.min(at + piece, file.size);
    // a file that cannot be read any more arrives as an empty one and is refused as such
    const part = await file.slice(at, end).arrayBuffer().catch(() => null);
    if (!part) {
      program.file(file.name, new Uint8Array(0), true);
      return;
    }
    program.file(file.name, new Uint8Array(part), end >= file.size);
    at = end;
    await roomFor(program);
  } while (at < file.size && program.importing() >= 0);
}

// Sets up the picker; returns the function that opens it (inside a gesture).
export function filePicker(program) {
  const picker = document.getElementById('picker');
  picker.addEventListener('change', async () => {
    const files = [...picker.files];
    picker.value = '';
    const fit = files.filter((file) => file.size <= largest);
    if (fit.length < files.length) fail('file', true);
    program.files(fit.length);
    for (const file of fit) {
      if (program.importing() < 0) break;
      await read(file, program);
    }
  });
  return () => picker.click();
}
