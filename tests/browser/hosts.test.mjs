// Servers as they are: with caches on the way, several copies on one address, a worker or a type that is
// wrong, a connection that is not secure. The app works, or a sentence says why not.
import fs from 'node:fs';
import path from 'node:path';
import { launch, phoneContext } from './lib/browser.mjs';
import { makeVersion } from './lib/site_server.mjs';

const online = /^This opens only with a connection/;
const build = (page) => page.evaluate(() => globalThis.tallyblock.build);
const covered = (page) => page.waitForFunction(async () => {
  const registration = await navigator.serviceWorker.ready;
  return registration.active?.state === 'activated' && navigator.serviceWorker.controller;
}, null, { timeout: 30_000 });

async function uncovered(t) {
  const context = await t.context();
  await context.addInitScript(() => { delete Navigator.prototype.serviceWorker; });
  return context;
}

// The page and most parts come from a cache, one part anew: two versions are never run together, and
// "Load again" gets the new one whole.
const mixed = (fresh) => async (t) => {
  const context = await uncovered(t);
  t.site.caching = (name) => (name === fresh ? 'no-store' : 'max-age=600');
  const cook = await t.cook({ context });
  const old = await build(cook.page);
  await cook.page.goto('about:blank');
  const folder = path.join(t.folder, 'next');
  const next = makeVersion(t.built, folder, (name, text) =>
    (name === 'storage.js' ? text + '\n// of the next version\n' : text));
  t.site.folder = folder;
  await cook.page.goto(t.site.url);
  await Promise.race([t.app.usable(cook.page), cook.page.locator('#failure').waitFor({ state: 'visible' })]);
  if (await cook.page.locator('#failure').isVisible()) {
    await cook.page.getByRole('button', { name: 'Load again' }).click();
    await cook.page.waitForFunction((id) => globalThis.tallyblock?.build === id, next, { timeout: 30_000 });
    await t.app.usable(cook.page);
  } else {
    t.assert.notEqual(fresh, 'main.js', 'the new part was asked for');
    t.assert.ok([old, next].includes(await build(cook.page)));
  }
  t.faults.length = 0;
};

// Copies below and beside each other: each its own version and its own caches.
async function twoCopies(t) {
  const other = path.join(t.folder, 'other');
  const second = makeVersion(t.built, other);
  t.site.mounts = { 'one/': t.built, 'one/deeper/': other, 'two/': other };
  t.site.mounts = Object.fromEntries(Object.entries(t.site.mounts).sort(([a], [b]) => b.length - a.length));
  const context = await t.context();
  const pages = {};
  for (const place of ['', 'one/', 'one/deeper/', 'two/']) {
    pages[place] = await context.newPage();
    t.watch(pages[place]);
    await t.app.openApp(pages[place], t.site.url + place);
    await covered(pages[place]);
  }
  t.assert.equal(await build(pages['one/deeper/']), second);
  t.assert.equal(await build(pages['two/']), second);
  t.assert.notEqual(await build(pages['one/']), second);
  // an old cache of another copy stays, one of this copy goes with the next version
  await pages['one/'].evaluate(async (url) => {
    await (await caches.open('tallyblock-00000000000000aa')).put(url + 'two/index.html', new Response('two'));
    await (await caches.open('tallyblock-00000000000000bb')).put(url + 'one/index.html', new Response('one'));
    await (await caches.open('kept-tallyblock /one/')).put(url + 'one/kept/x', new Response('kept'));
  }, t.site.url);
  const third = path.join(t.folder, 'third');
  const next = makeVersion(t.built, third);
  t.site.mounts['one/'] = third;
  const cook = t.watch(pages['one/']);
  await pages['one/'].evaluate(async () => (await navigator.serviceWorker.ready).update());
  await cook.sees(/A new version is ready/, 30_000);
  await cook.tap('Update now', { wait: false });
  await pages['one/'].waitForFunction((id) => globalThis.tallyblock?.build === id, next, { timeout: 30_000 });
  await pages['one/'].waitForFunction(async () => !(await caches.keys()).includes('tallyblock-00000000000000bb'));
  const names = await pages['one/'].evaluate(() => caches.keys());
  t.assert.ok(names.includes('tallyblock-00000000000000aa') && names.includes('kept-tallyblock /one/'), names.join());
  await context.setOffline(true);
  for (const place of ['', 'one/', 'one/deeper/', 'two/']) {
    await pages[place].reload();
    await t.app.usable(pages[place]);
  }
  t.assert.equal(await build(pages['two/']), second);
  t.assert.equal(await build(pages['one/']), next);
}

async function saysOnlineOnly(t, cook) {
  await cook.sees(online, 20_000);
  await cook.begin('Cod', '2000');
  await cook.weigh('120', /^Portions,/);
  await cook.tap('Pieces');
  await cook.tap('More');
  await cook.tap(/^About/);
  await cook.sees(online);
}

const worker = (how) => async (t) => {
  t.site.spoil('sw.js', how);
  await saysOnlineOnly(t, await t.cook());
};

// The worker itself is good, but a file of its list is not to be had.
async function incomplete(t) {
  t.site.spoil('icon-512.png', 'missing');
  await saysOnlineOnly(t, await t.cook());
}

async function plainHttp(t) {
  const browser = await launch({ args: ['--host-resolver-rules=MAP plain.test 127.0.0.1'] });
  try {
    const context = await phoneContext(browser);
    const page = await context.newPage();
    const cook = t.watch(page);
    await t.app.openApp(page, t.site.url.replace('localhost', 'plain.test'));
    t.assert.equal(await page.evaluate(() => isSecureContext), false);
    await saysOnlineOnly(t, cook);
  } finally {
    await browser.close();
  }
}

const wrongType = (type) => async (t) => {
  t.site.types = { '.js': type };
  const page = await (await t.context()).newPage();
  await page.goto(t.site.url);
  await page.locator('#failure-type').waitFor({ state: 'visible' });
  t.assert.match(await page.locator('#failure-type').innerText(), new RegExp(`/\\w+\\.js: ${type}`));
};

// One script alone, and a browser that must believe the type.
async function oneWrongType(t) {
  t.site.spoil('storage.js', { type: 'application/octet-stream' });
  const page = await (await t.context()).newPage();
  await page.goto(t.site.url);
  await page.getByText('/storage.js: application/octet-stream').waitFor();
  t.site.spoil('storage.js');
  await page.getByRole('button', { name: 'Load again' }).click();
  await t.app.usable(page);
}

async function nosniff(t) {
  t.site.types = { '.js': 'text/plain' };
  t.site.nosniff = true;
  const page = await (await t.context()).newPage();
  await page.goto(t.site.url);
  await page.getByText('the server may send the program under a wrong type').waitFor({ state: 'visible', timeout: 40_000 });
}

// Whatever part has one byte changed, the program does not run with it, and says so.
async function altered(t) {
  const page = await (await uncovered(t)).newPage();
  for (const name of ['tallyblock.wasm', 'tallyblock.js', 'font.ttf', 'storage.js', 'main.js']) {
    const text = /\.js$/.test(name) && fs.readFileSync(path.join(t.built, name), 'utf8') + '\n// more\n';
    t.site.spoil(name, text ? { text } : 'altered');
    await page.goto(t.site.url);
    await page.locator('#failure-load').waitFor({ state: 'visible' });
    t.assert.equal(await page.evaluate(() => document.documentElement.classList.contains('ready')), false, name);
    t.site.spoil(name);
    await page.getByRole('button', { name: 'Load again' }).click();
    await t.app.usable(page);
  }
  t.site.asked.length = 0;
  await page.reload();
  await t.app.usable(page);
  for (const name of ['tallyblock.wasm', 'font.ttf', 'main.js', 'tallyblock.js']) {
    t.assert.equal(t.site.asked.filter((one) => one === name).length, 1, `${name} is loaded once`);
  }
}

export const tests = [
  ...['main.js', 'storage.js', 'tallyblock.wasm'].map((fresh) => ({
    name: `with a cache on the way and ${fresh} alone new, two versions never run together`,
    quick: fresh === 'main.js', run: mixed(fresh) })),
  { name: 'copies on one address keep to their own caches and versions', quick: false, run: twoCopies },
  { name: 'a worker that is missing is said', quick: true, run: worker('missing') },
  { name: 'a worker that is a page is said', run: worker({ text: '<!doctype html>', type: 'text/html' }) },
  { name: 'a worker that is no JavaScript is said', run: worker({ text: 'this is (' }) },
  { name: 'a worker that throws is said', run: worker({ text: 'throw new Error("no");' }) },
  { name: 'a copy that cannot be made whole is said', run: incomplete },
  { name: 'over plain HTTP the app works and says that it opens only with a connection', run: plainHttp },
  { name: 'scripts sent as text are said', quick: true, run: wrongType('text/plain') },
  { name: 'scripts sent as bytes are said', run: wrongType('application/octet-stream') },
  { name: 'one script of a wrong type is named', run: oneWrongType },
  { name: 'where even the smallest script is refused a sentence appears by itself', run: nosniff },
  { name: 'a part with one byte changed is refused, and every part is loaded once', run: altered },
];
