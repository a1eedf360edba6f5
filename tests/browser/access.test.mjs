// For those who do not touch: axe-core's audit of every screen, the order of Tab, and whole sessions
// entered by keyboard alone and by roles and names alone.
import fs from 'node:fs';
import { toolPath } from './lib/browser.mjs';
import { compareShown, everyChapter } from './lib/figures.mjs';
import { KeyCook, VoiceCook, focused } from './lib/hands.mjs';
import { everyScreen } from './lib/tour.mjs';

function audit(colorScheme) {
  return async (t) => {
    const axe = fs.readFileSync(toolPath('axe-core', 'axe.min.js'), 'utf8');
    const cook = await t.cook({ colorScheme });
    await cook.page.evaluate(axe);
    const found = [];
    let screens = 0;
    await everyScreen(cook, async (screen) => {
      screens++;
      const { violations, passes } = await cook.page.evaluate(() => globalThis.axe.run());
      t.assert.ok(passes.length > 10, 'axe-core looked at something');
      for (const { id, help, nodes } of violations) {
        found.push(`${screen}: ${id}, ${help}: ${nodes.slice(0, 3).map((n) => n.html).join(' ')}`);
      }
    });
    t.assert.deepEqual(found, []);
    console.log(`        ${screens} screens and panels audited, ${colorScheme}`);
  };
}

const focusable = (n) => ['button', 'link', 'textbox'].includes(n.role) && !(n.role === 'textbox' && n.disabled);

async function tabOrder(t) {
  const cook = await t.cook();
  let reached = 0;
  await everyScreen(cook, async (screen) => {
    const wanted = (await t.app.tree(cook.page)).filter(focusable).map((n) => `${n.role} ${n.name}`);
    await cook.page.evaluate(() => document.activeElement?.blur());
    // from outside: the first Tab reaches the first control
    await cook.page.evaluate(() => {
      const start = document.getElementById('app');
      start.tabIndex = -1;
      start.focus();
      start.removeAttribute('tabindex');
    });
    const got = [];
    for (let i = 0; i < wanted.length; i++) {
      await cook.page.keyboard.press('Tab');
      const here = await focused(cook.page);
      got.push(here ? `${here.role} ${here.name}` : 'outside');
    }
    t.assert.deepEqual(got, wanted, screen);
    reached += got.length;
    await cook.page.evaluate(() => document.activeElement?.blur());
    await t.app.idle(cook.page);
  });
  t.assert.ok(reached > 100);
  console.log(`        ${reached} controls reached by Tab`);
}

// The screen goes downwards as the list goes on, or on to a column beside: no control stands wholly
// above the one before it and not to the right of it.
async function readingOrder(t) {
  const cook = await t.cook({ viewport: { width: 360, height: 640 } });
  await everyScreen(cook, async (screen) => {
    const nodes = (await t.app.tree(cook.page)).filter((n) => focusable(n) && !n.away);
    for (let i = 1; i < nodes.length; i++) {
      const [a, b] = [nodes[i - 1], nodes[i]];
      const beside = b.rect.x >= a.rect.x + a.rect.width;
      t.assert.ok(beside || b.rect.y + b.rect.height > a.rect.y + 1,
        `${screen}: ${b.name} stands above ${a.name}`);
    }
  });
}

const session = (as) => async (t) => {
  const cook = await t.cook({ as });
  await cook.begin('Pork loin', '4250');
  await cook.weigh('182', /^Portions,/);
  await cook.weigh('1790', /^Portions,/);
  await cook.weigh('640', /^Usable trim,/);
  await cook.weigh('1000', /^Portions,/);
  await cook.correct('Cross out');
  await cook.weigh('900', /^Usable trim,/);
  await cook.correct(/^Unusable trim/);
  await cook.tap('Result');
  await cook.tap(/^All is weighed/);
  await cook.keepField(/^Price, /, '6.50');
  await cook.chapter(/^Cut it or buy it cut/);
  await cook.keepField(/^Ready-cut price/, '13.90');
  await cook.keepField(/^Portion target/, '180');
  await cook.tap('More');
  await cook.write('New note', 'Dry on one side');
  await cook.tap('Result');
  const shown = await everyChapter(t.app, cook);
  const report = t.replay(await cook.exported());
  t.assert.equal(report.piece, 'Pork loin');
  t.assert.equal(report.as_purchased_g, 4250);
  t.assert.equal(report.primary_g, 182 + 1790);
  t.assert.equal(report.usable_trim_g, 640);
  t.assert.equal(report.unusable_trim_g, 900);
  t.assert.deepEqual(report.notes.map((n) => n.text), ['Dry on one side']);
  console.log(`        ${compareShown(shown, report)} figures equal`);
};

// A finger's tap is done with at its pointer; who presses the element itself needs the click, and so
// does a text box. Nothing at or above the elements listens to touches.
async function clicks(t) {
  const cook = await t.cook();
  await cook.begin('Pork loin', '4250');
  const { page } = cook;
  await page.evaluate(() => {
    globalThis.clicks = 0;
    addEventListener('click', () => { globalThis.clicks++; }, true);
  });
  const counted = () => page.evaluate(() => globalThis.clicks);
  await cook.tap('7');
  await cook.sees(/^into .* 7\b/);
  t.assert.equal(await counted(), 0);
  await page.getByRole('button', { name: '8', exact: true }).dispatchEvent('click');
  await cook.sees(/^into .* 78\b/);
  t.assert.equal(await counted(), 1);
  for (let i = 0; i < 2; i++) await cook.tap('Delete last digit');
  await cook.tap('More');
  await cook.write('Name', 'Neck');
  await cook.sees(/Neck/);
  t.assert.ok(await counted() > 1, 'the text box had its click');
  const devtools = await page.context().newCDPSession(page);
  for (const place of ['document.querySelector("#access").firstChild', 'document.querySelector("#access")',
    'document.querySelector("#app")', 'document.body']) { // the driver listens above
    const { result } = await devtools.send('Runtime.evaluate', { expression: place });
    const { listeners } = await devtools.send('DOMDebugger.getEventListeners', { objectId: result.objectId });
    t.assert.deepEqual(listeners.map((one) => one.type).filter((type) => type.startsWith('touch')), [], place);
  }
}

export const tests = [
  { name: 'axe-core finds nothing on any light screen', quick: false, run: audit('light') },
  { name: 'axe-core finds nothing on any dark screen', quick: false, run: audit('dark') },
  { name: 'Tab reaches every control of every screen in the order of the list', quick: false,
    run: tabOrder },
  { name: 'a tap makes no click, a press of the element does', quick: true, run: clicks },
  { name: 'the list goes down the screen', quick: false, run: readingOrder },
  { name: 'a whole session by keyboard alone is what its file replays to', quick: false,
    run: session(KeyCook) },
  { name: 'a whole session by roles and names alone is what its file replays to', quick: false,
    run: session(VoiceCook) },
];
