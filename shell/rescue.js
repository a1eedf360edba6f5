// What is shown when the app does not start: plain HTML that starts no program. All that is stored is
// handed out as one file, and a start without the half-typed draft can be tried.
import { offerFile } from './files.js';
import { database } from './places.js';
import { openOne, rescueFile } from './read_any.js';

function put(into, tag, text, press) {
  const element = document.createElement(tag);
  element.textContent = text;
  if (press) {
    element.type = 'button';
    element.addEventListener('click', press);
  }
  into.append(element);
  return element;
}

// Resolves when the draft is gone for good.
async function eraseDraft() {
  const db = await openOne(database); // never another copy's
  if (!db) return;
  try {
    await new Promise((done, failed) => {
      const transaction = db.transaction('app', 'readwrite', { durability: 'strict' });
      transaction.objectStore('app').delete('draft');
      transaction.oncomplete = done;
      transaction.onabort = () => failed(transaction.error);
    });
  } finally {
    db.close();
  }
}

const counted = (file) => (file.records === 0
  ? 'Nothing is stored on this device.'
  : `Pieces stored on this device: ${file.pieces}. Records in all: ${file.records}.` +
    (file.trouble ? ' A part of what is stored could not be read and is not in it: keep this device as it is.' : '') +
    (file.others > 0 ? ` Records that cannot be handed out, since they are damaged: ${file.others}.` : ''));

const fileName = () => `tallyblock-rescue-${new Date().toISOString().slice(0, 10)}.bin`;

// again(): a normal start. `asked`: the person came here by a button.
export async function show({ again, asked }) {
  const page = document.createElement('main');
  page.id = 'first';
  put(page, 'h1', 'Tallyblock did not start');
  put(page, 'p', (asked ? '' : 'The last two starts did not reach a screen that can be used. ') +
    'This page starts no program. Nothing was deleted: what was kept is still on this device.');
  const state = put(page, 'p', 'Reading what is stored.');
  state.setAttribute('role', 'status');
  let file;
  const save = put(page, 'button', 'Save everything in one file', async () => {
    const stored = new Blob(file.parts);
    if (await offerFile(fileName(), 'application/octet-stream', stored) === 'away') {
      state.textContent = `No file was handed out. ${counted(file)}`;
      return;
    }
    state.textContent = 'The file was handed out. Keep it. It is read with “Import a file”, here once the ' +
      'app starts again, or on another device.';
  });
  save.disabled = true;
  put(page, 'p', 'A weight or a name that was half typed may be what stops the start. Without it the app ' +
    'opens with the list of pieces; everything that was entered stays.');
  put(page, 'button', 'Start without what was half typed', () => eraseDraft().then(again, (error) => {
    state.textContent = `What was half typed could not be taken away (${error?.name}). Save the file, then ` +
      'close all windows of Tallyblock and load this page again.';
  }));
  put(page, 'button', 'Try a normal start again', again);
  document.body.replaceChildren(page);
  document.documentElement.classList.remove('ready');
  try {
    file = await rescueFile();
    state.textContent = counted(file);
    save.disabled = file.records === 0;
  } catch (error) {
    state.textContent = `What is stored cannot be read (${error?.name}). Close all other windows of ` +
      'Tallyblock and load this page again.';
  }
}
