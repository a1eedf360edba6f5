// Storage that fails: said at once, nothing shown as kept, and nothing lost.
import * as faults from './lib/faults.mjs';

async function full(t) {
  let fill;
  const cook = await t.cook({ before: async (page) => { fill = await faults.fillableStorage(page); } });
  await cook.begin('Chicken', '1800');
  await cook.sees(/Saved/);
  await fill(true);
  await cook.weigh('410', /^Portions,/);
  await cook.sees(/Not (kept|saved)/);
  await cook.seesNot(/^410 g, Portions, Saved/);
  await cook.tap('Result');
  const report = t.replay(await cook.exported());
  t.assert.equal(report.primary_g, 410);
  await fill(false);
  if (await t.app.find(cook.page, 'button', 'Try again')) await cook.tap('Try again');
  await cook.sees(/Everything is kept now/);
  await cook.tap('Weigh');
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^Portions, 410 g/);
}

async function slow(t) {
  let hold;
  const cook = await t.cook({ before: async (page) => { hold = await faults.holdComplete(page); } });
  await hold.release();
  await cook.begin('Cod', '2000');
  await cook.sees(/Saved/);
  await hold.hold();
  await cook.digits('55');
  // idle would wait for the store's answer, which is held back
  await cook.tap(/^Portions,/, { wait: false });
  await cook.sees(/^55 g, Portions/);
  await cook.page.waitForTimeout(500);
  await cook.seesNot(/^55 g, Portions, Saved/);
  t.assert.ok(await hold.waiting() > 0);
  await hold.release();
  await cook.sees(/^55 g, Portions, Saved/);
}

async function closed(t) {
  let die;
  const cook = await t.cook({ before: async (page) => { die = await faults.mortalDatabase(page); } });
  await cook.begin('Cod', '2000');
  await die();
  await cook.weigh('120', /^Portions,/);
  await cook.sees(/^120 g, Portions, Saved/);
}

// The requests succeed and the transaction still fails: nothing is kept, and it is said.
async function aborted(t) {
  let fault;
  const cook = await t.cook({ before: async (page) => { fault = await faults.abortableStorage(page); } });
  await cook.begin('Chicken', '1800');
  await cook.weigh('300', /^Portions,/);
  await cook.sees(/^300 g, Portions, Saved/);
  const before = await faults.stored(cook.page);
  await fault.set(true);
  await cook.weigh('410', /^Portions,/);
  await cook.sees(/Not (kept|saved): the device refused to save|Not saved yet\./);
  await cook.seesNot(/^410 g, Portions, Saved/);
  t.assert.ok(await fault.aborted() > 0);
  t.assert.equal(await faults.stored(cook.page), before, 'nothing half written');
  await fault.set(false);
  if (await t.app.find(cook.page, 'button', 'Try again')) await cook.tap('Try again');
  await cook.sees(/Everything is kept now/);
  await cook.page.reload();
  await t.app.usable(cook.page);
  await cook.sees(/^Portions, 710 g/);
}

// A later version of the app has stored its data here; this one is opened once more.
async function newer(t) {
  const context = await t.context();
  const first = await t.cook({ context });
  await first.begin('Cod', '2000');
  await first.weigh('120', /^Portions,/);
  await first.sees(/^120 g, Portions, Saved/);
  const page = first.page;
  await page.goto(t.site.url + 'notices.txt');
  await faults.storeNewerVersion(page);
  const before = await faults.stored(page);
  t.assert.match(before, /"version":1000/);
  await t.app.openApp(page, t.site.url); // comes to rest
  await first.sees(/A newer version of this app has stored its data here\. Reload to use it\./);
  await first.tap(/^Portions,/);
  await first.tap('Result');
  t.assert.equal(t.replay(await first.exported()).primary_g, 120, 'what is there can be exported');
  await page.goto(t.site.url + 'notices.txt');
  t.assert.equal(await faults.stored(page), before, 'nothing was changed');
}

// The same while the app is open: the work so far is stored, then the data is the other version's.
async function newerMeanwhile(t) {
  const context = await t.context();
  const cook = await t.cook({ context });
  await cook.begin('Cod', '2000');
  await cook.weigh('120', /^Portions,/);
  await cook.sees(/^120 g, Portions, Saved/);
  await cook.digits('33');
  const other = await context.newPage();
  await other.goto(t.site.url + 'notices.txt');
  await faults.storeNewerVersion(other); // not blocked
  const before = await faults.stored(other);
  t.assert.match(before, /120/);
  await cook.page.bringToFront();
  await cook.tap(/^Portions,/);
  await cook.sees(/A newer version of this app has stored its data here/);
  await cook.seesNot(/^33 g, Portions, Saved/);
  await cook.tap('Result');
  t.assert.equal(t.replay(await cook.exported()).primary_g, 153, 'what is not kept can be exported');
  t.assert.equal(await faults.stored(other), before, 'nothing was changed');
}

async function second(t) {
  const context = await t.context();
  const first = await t.cook({ context });
  await first.begin('Cod', '2000');
  await first.sees(/Saved/);
  const follower = await t.cook({ context });
  await follower.sees(/Another window of this app is writing/);
  await first.page.bringToFront();
  await first.weigh('120', /^Portions,/);
  await follower.page.bringToFront();
  await follower.sees(/^120 g, Portions/);
  await follower.tap('Write here');
  await follower.weigh('130', /^Portions,/);
  await follower.sees(/^130 g, Portions, Saved/);
  await first.page.bringToFront();
  await first.sees(/Another window of this app is writing/);
  await first.sees(/^130 g, Portions/);
}

export const tests = [
  { name: 'a full device is said at once, the file can be saved, a retry keeps all', quick: true, run: full },
  { name: 'nothing is called kept before the complete event', quick: false, run: slow },
  { name: 'a connection that died is opened again and the reading kept', quick: false, run: closed },
  { name: 'a transaction that aborts keeps nothing, is said, and is tried again', quick: true, run: aborted },
  { name: 'data of a newer version is said to be so and is left as it is', quick: true, run: newer },
  { name: 'a newer version that takes the data meanwhile gets all that was kept', quick: false,
    run: newerMeanwhile },
  { name: 'a second window follows and can take the pen', quick: false, run: second },
];
