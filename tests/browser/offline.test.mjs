// Without a network, and with a new version published in the middle of a session.
import path from 'node:path';
import { makeVersion } from './lib/site_server.mjs';

const covered = (page) => page.waitForFunction(async () => {
  const registration = await navigator.serviceWorker.ready;
  return registration.active?.state === 'activated' && navigator.serviceWorker.controller;
}, null, { timeout: 30_000 });

async function withoutNetwork(t) {
  const context = await t.context();
  const cook = await t.cook({ context });
  await covered(cook.page);
  await cook.begin('Cod', '2000');
  await cook.weigh('120', /^Portions,/);
  await cook.sees(/^120 g, Portions, Saved/);
  const asked = t.site.asked.length;
  await context.setOffline(true);
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^120 g, Portions, Saved/);
  t.assert.equal(t.site.asked.length, asked, 'nothing was asked of the network');
}

async function nextVersion(t) {
  const cook = await t.cook();
  await covered(cook.page);
  await cook.begin('Cod', '2000');
  await cook.digits('47');
  const typed = await cook.typed();
  const build = () => cook.page.evaluate(() => globalThis.tallyblock.build);
  const old = await build();
  const folder = path.join(t.folder, 'next');
  const next = makeVersion(t.built, folder);
  t.site.folder = folder;
  await cook.page.reload();
  await t.app.usable(cook.page);
  t.assert.equal(await build(), old);
  await cook.page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await cook.sees(/A new version is ready/, 30_000);
  await cook.tap('Update now', { wait: false });
  await cook.page.waitForFunction((id) => globalThis.tallyblock?.build === id, next, { timeout: 30_000 });
  await t.app.usable(cook.page);
  t.assert.equal(await cook.typed(), typed);
}

// One file of the next version answers wrongly: the version before goes on, also without a network.
const spoilt = (how) => async (t) => {
  const context = await t.context();
  const cook = await t.cook({ context });
  await covered(cook.page);
  await cook.begin('Cod', '2000');
  await cook.weigh('120', /^Portions,/);
  const build = () => cook.page.evaluate(() => globalThis.tallyblock.build);
  const old = await build();
  const folder = path.join(t.folder, 'next');
  makeVersion(t.built, folder);
  t.site.folder = folder;
  t.site.spoil('font.ttf', how);
  const came = await cook.page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const end = new Promise((done) => registration.addEventListener('updatefound', () => {
      const worker = registration.installing;
      const look = () => ['redundant', 'installed'].includes(worker.state) && done(worker.state);
      worker.addEventListener('statechange', look);
    }));
    await registration.update().catch(() => {});
    return end;
  });
  t.assert.equal(came, 'redundant');
  await cook.seesNot(/A new version is ready/);
  for (const offline of [false, true]) {
    await context.setOffline(offline);
    await cook.page.reload();
    await t.app.usable(cook.page);
    t.assert.equal(await build(), old);
    await cook.sees(/^120 g, Portions, Saved/);
  }
  t.assert.deepEqual(await cook.page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith('tallyblock')).length), 1);
};

export const tests = [
  ...['missing', 'altered', 'hangs up'].map((how) => ({
    name: `a next version with one file ${how} leaves the old one working`,
    quick: how === 'altered', run: spoilt(how) })),
  { name: 'after the first visit the app opens without a network and asks nothing of it', quick: true,
    run: withoutNetwork },
  { name: 'a new version waits for the press and loses nothing', quick: false, run: nextVersion },
];
