// Files out and in: what was exported comes back as it was, twice is as good as once, and a file that
// cannot be taken is refused in words and changes nothing.
import fs from 'node:fs';
import path from 'node:path';
import { fileOf } from '../bench/many_files.mjs';

const file = (name, text) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

async function enter(cook) {
  await cook.begin('Pork loin', '4250');
  await cook.weigh('182', /^Portions,/);
  await cook.weigh('640', /^Usable trim,/);
  await cook.tap('Result');
  await cook.chapter(/^Paid, /);
  await cook.tap(/^Price, /);
  await cook.digits('6.50');
  await cook.tap('Save');
}

// Everything this site has stored on the device goes, from a page of it that is not the app.
async function wipe(t, cook) {
  await cook.page.goto(t.site.url + 'notices.txt');
  await cook.page.evaluate(async () => {
    for (const one of await navigator.serviceWorker.getRegistrations()) await one.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
    await new Promise((done, failed) => {
      const request = indexedDB.deleteDatabase('tallyblock');
      request.onsuccess = done;
      request.onerror = () => failed(request.error);
      request.onblocked = () => failed(new Error('still open'));
    });
  });
  await t.app.openApp(cook.page, t.site.url);
}

async function thereAndBack(t) {
  const cook = await t.cook();
  await enter(cook);
  const text = await cook.exported();
  const before = t.replay(text);
  t.assert.equal(before.primary_g, 182);
  await wipe(t, cook);
  await cook.seesNot(/Pork loin/);
  await cook.bring(file('pork.json', text));
  await cook.sees(/1 session imported: new entries [1-9]/);
  await cook.tap(/^Pork loin/);
  const again = await cook.exported();
  t.assert.deepEqual(t.replay(again), before);
  t.assert.equal(again, text);
  await cook.tap('Pieces');
  await cook.bring(file('pork.json', text));
  await cook.sees(/new entries 0, known [1-9]\d*, in conflict 0/);
  t.assert.equal((await t.app.all(cook.page, 'button', /^Pork loin/)).length, 1);
  await cook.tap(/^Pork loin/);
  t.assert.equal(await cook.exported(), text);
}

async function withoutNames(t) {
  const cook = await t.cook();
  await enter(cook);
  await cook.tap('More');
  await t.app.type(cook.page, 'Someone else', 'Wilhelmina');
  await cook.sees(/^Wilhelmina/);
  await t.app.type(cook.page, 'New note', 'Ask Wilhelmina about the chain');
  await cook.tap('Board');
  await cook.weigh('201', /^Portions,/);
  const named = await cook.exported(/^Export with names/);
  t.assert.match(named, /Wilhelmina/);
  const plain = await cook.download(() => cook.tap(/^Export without names/));
  t.assert.doesNotMatch(plain, /Wilhelmina|chain/);
  const figures = (text) => {
    const { primary_g, usable_trim_g, cost, cost_per_primary_g, loss_g } = t.replay(text);
    return { primary_g, usable_trim_g, cost, cost_per_primary_g, loss_g };
  };
  t.assert.deepEqual(figures(plain), figures(named));
  t.assert.equal(figures(plain).primary_g, 383);
}

async function backup(t) {
  const cook = await t.cook();
  await enter(cook);
  const own = await cook.exported();
  await cook.tap('Pieces');
  await cook.loadSample();
  await cook.sees(/The sample is loaded/);
  const pieces = async (of) => (await of.names()).filter((n) => /\d{4}, \d\d:\d\d/.test(n)).sort();
  const listed = await pieces(cook);
  t.assert.ok(listed.length >= 4, String(listed));
  await cook.tap('More');
  const text = await cook.download(() => cook.tap('Back up everything'));
  const other = await t.cook(); // another phone
  await other.bring(file('backup.json', text));
  await other.sees(/^5 sessions imported/); // counted up one by one
  t.assert.deepEqual(await pieces(other), listed);
  const sorted = (all) => all.split('\n').sort().join('\n');
  await other.tap('More');
  const second = await other.download(() => other.tap('Back up everything'));
  t.assert.equal(sorted(second), sorted(text));
  await other.tap('Pieces');
  await other.tap(/^Pork loin, Go on/);
  t.assert.deepEqual(t.replay(await other.exported()), t.replay(own));
}

async function refused(t) {
  const cook = await t.cook();
  await enter(cook);
  const text = await cook.exported();
  await cook.tap('Pieces');
  const newer = text.replace(/("major"\s*:\s*)\d+/, '$199');
  t.assert.notEqual(newer, text);
  const bad = [
    ['cut.json', text.slice(0, text.length >> 1)],
    ['words.json', 'This is no session at all.'],
    ['empty.json', ''],
    ['newer.json', newer],
    ['large.json', text + ' '.repeat(2_100_000)],
    ['bytes.json', Buffer.from(text, 'utf16le')],
  ];
  const said = new Set();
  for (const [name, bytes] of bad) {
    await cook.bring(file(name, bytes));
    await cook.sees(new RegExp(`^${name.replace('.', '\\.')} was not imported\\. .{15}`));
    said.add((await cook.names()).find((n) => n.includes(' was not imported.')).replace(name, ''));
  }
  t.assert.ok(said.size >= 4, `different reasons: ${[...said].join(' | ')}`);
  t.assert.ok([...said].some((words) => /newer|version/i.test(words)), [...said].join(' | '));
  const huge = path.join(t.folder, 'huge.json');
  fs.writeFileSync(huge, '');
  fs.truncateSync(huge, 201 * 1024 * 1024);
  await cook.bring(huge);
  await cook.page.getByText('This file is larger than any file of Tallyblock').waitFor();
  await cook.page.getByRole('button', { name: 'Close', exact: true }).last().click();
  await cook.tap(/^Pork loin/);
  t.assert.equal(await cook.exported(), text);
}

// Many at once: all come, those that cannot are listed with their reasons, and the long list has few elements.
async function many(t) {
  const cook = await t.cook();
  const base = fs.readFileSync(path.join(t.root, 'demo-data', 'beef-tenderloin.json'), 'utf8');
  const files = Array.from({ length: 45 }, (_, n) => file(`s${n}.json`, fileOf(base, n + 1, 60)));
  files.splice(20, 0, file('torn.json', '{'));
  files.push(file('letter.json', 'Dear Sir'));
  await cook.bring(files);
  await cook.sees(/^45 sessions imported: new entries 2700,/);
  await cook.sees(/^Not imported: 2/);
  await cook.sees(/^torn\.json was not imported\. .{15}/);
  await cook.sees(/^letter\.json was not imported\. .{15}/);
  await cook.tap('Close this list');
  await cook.seesNot(/torn\.json was not/);
  const rows = () => cook.page.evaluate(() => [...document.querySelectorAll('#access > [aria-description]')]
    .map((one) => one.getAttribute('aria-description')));
  const first = await rows();
  t.assert.ok(first.includes('1 / 45') && !first.includes('45 / 45'), first.join());
  t.assert.ok(first.length < 80, `${first.length} elements of rows`);
  await cook.page.mouse.move(200, 400);
  for (let i = 0; i < 60 && !(await rows()).includes('45 / 45'); i++) { // to the end of the list, 400 px at most a turn
    await cook.page.mouse.wheel(0, 100_000);
    await t.app.idle(cook.page);
  }
  t.assert.ok((await rows()).includes('45 / 45'));
  await cook.tap(/^Beef tenderloin 44,/);
  await cook.sees(/^All figures\b/);
  await cook.tap('Pieces');
  await cook.sees(/^Beef tenderloin 44,/);
  t.assert.equal((await t.app.find(cook.page, 'button', /^Beef tenderloin 44,/)).away, false, 'the place is kept');
}

// As a PNG of the screen's own drawing, asked for on the result, under Share and of the list.
async function pictures(t) {
  const cook = await t.cook();
  await cook.loadSample();
  await cook.tap(/^Beef tenderloin/);
  await cook.tap('Result');
  const sent = async (press) => {
    const [file] = await Promise.all([cook.page.waitForEvent('download'), press()]);
    const bytes = fs.readFileSync(await file.path());
    t.assert.equal(bytes.subarray(1, 4).toString(), 'PNG');
    const seen = await cook.page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const canvas = new OffscreenCanvas(image.width, image.height);
      const paper = canvas.getContext('2d');
      paper.drawImage(image, 0, 0);
      const pixels = paper.getImageData(0, 0, image.width, image.height).data;
      let garnet = 0, clear = 0;
      for (let i = 0; i < pixels.length; i += 4) {
        if (pixels[i] > 0x70 && pixels[i] < 0x98 && pixels[i + 1] < 0x40 && pixels[i + 2] < 0x50) garnet++;
        if (pixels[i + 3] !== 255) clear++;
      }
      // the title is above, the foot below
      const ink = (top) => pixels.subarray(4 * image.width * top, 4 * image.width * (top + 120)).some((v) => v < 0x40);
      return { width: image.width, height: image.height, garnet, clear, above: ink(0), below: ink(image.height - 120) };
    }, bytes.toString('base64'));
    return { name: file.suggestedFilename(), bytes, ...seen };
  };
  const one = await sent(() => cook.tap('Share as a picture'));
  t.assert.match(one.name, /^tallyblock-invented-beef-tenderloin-\d{4}-\d\d-\d\d\.png$/);
  t.assert.equal(one.width, 1080);
  t.assert.equal(one.clear, 0, 'nothing shines through');
  t.assert.ok(one.height > 1080 && one.garnet > 50_000 && one.above && one.below, JSON.stringify({ ...one, bytes: 0 }));
  fs.mkdirSync('.build/screens', { recursive: true });
  fs.writeFileSync('.build/screens/shared-piece.png', one.bytes);
  await cook.sees(/^Quality and trim/); // the screen is as it was
  await t.picture('files-after-picture');
  await cook.tap('More');
  await cook.tap('Share');
  const bare = await sent(() => cook.tap('Without names'));
  const named = await sent(() => cook.tap('With who cut it'));
  t.assert.ok(named.height > bare.height, 'a line more');
  t.assert.equal(bare.height, one.height);
  await cook.tap('Pieces');
  await cook.tap('More');
  const list = await sent(() => cook.tap('Pieces as a picture'));
  t.assert.match(list.name, /^tallyblock-pieces-\d{4}-\d\d-\d\d\.png$/);
  t.assert.ok(list.garnet > 5_000 && list.above && list.below);
  fs.writeFileSync('.build/screens/shared-list.png', list.bytes);
}

// What the browser cannot make is said, and what follows works.
async function noPicture(t) {
  const cook = await t.cook();
  await cook.loadSample();
  await cook.tap(/^Beef tenderloin/);
  await cook.tap('Result');
  await cook.page.evaluate(() => {
    globalThis.realToBlob = HTMLCanvasElement.prototype.toBlob;
    HTMLCanvasElement.prototype.toBlob = (done) => done(null);
  });
  await cook.tap('Share as a picture');
  const said = cook.page.locator('#failure-picture');
  await said.waitFor({ state: 'visible' });
  t.assert.match(await said.textContent(), /could not be made.*Try again/);
  await cook.page.locator('#failure-close').tap();
  await said.waitFor({ state: 'hidden' });
  await cook.page.evaluate(() => { HTMLCanvasElement.prototype.toBlob = globalThis.realToBlob; });
  await Promise.all([cook.page.waitForEvent('download'), cook.tap('Share as a picture')]);
}

export const tests = [
  { name: 'a picture that cannot be made is said', quick: false, run: noPicture },
  { name: 'a result and the list go out as pictures', quick: false, run: pictures },
  { name: 'exported, all wiped, imported: the same figures; a second time changes nothing', quick: true,
    run: thereAndBack },
  { name: 'a file without names has no names and no notes, and the same figures', quick: false,
    run: withoutNames },
  { name: 'a backup brings every piece to another phone', quick: false, run: backup },
  { name: 'files that cannot be taken are refused in words and change nothing', quick: false, run: refused },
  { name: 'many at once: all come, what cannot is listed', quick: true, run: many },
];
