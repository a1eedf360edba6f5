// Frames are drawn only when there is something to show; losing the drawing surface stops nobody.
// What is drawn is looked at: each control whose name the list has must have ink inside.
import { sharp as sharpScreen } from './lib/browser.mjs';
import { colours, contrastWithin, decodePng, difference } from './lib/pixels.mjs';
import { everyScreen } from './lib/tour.mjs';
import { tapAt } from './lib/touch.mjs';
import { loseContext, restoreContext } from './lib/faults.mjs';

async function idleFrames(t) {
  const cook = await t.cook();
  await cook.begin('Cod', '2000');
  await cook.page.waitForTimeout(1000);
  const frames = () => cook.page.evaluate(() => globalThis.tallyblock.frames);
  const before = await frames();
  await cook.page.waitForTimeout(5000);
  t.assert.equal(await frames(), before);
}

const picture = async (page) => decodePng(await page.screenshot());

// Fails unless the page has colours and every button and heading in sight has ink. Elements of the
// parallel DOM are unseen, so that ink can only be the canvas's. Returns how many were looked at.
async function inkEverywhere(t, page, screen) {
  const shot = await picture(page);
  t.assert.ok(colours(shot) > 40, `${screen}: ${colours(shot)} colours`);
  const { width, height } = page.viewportSize();
  const whole = ({ rect: r }) =>
    r.x >= 0 && r.y >= 0 && r.x + r.width <= width && r.y + r.height <= height;
  const nodes = (await t.app.tree(page)).filter((n) => ['button', 'heading'].includes(n.role) &&
    !n.away && whole(n) && n.rect.height >= 16 && !n.disabled);
  t.assert.ok(nodes.length > 0, screen);
  const blank = nodes.filter((n) => contrastWithin(shot, n.rect) < 3).map((n) => n.name);
  t.assert.deepEqual(blank, [], `${screen}: nothing is drawn in these`);
  return nodes.length;
}

const inked = (colorScheme) => async (t) => {
  const cook = await t.cook({ colorScheme });
  let count = 0;
  await everyScreen(cook, async (screen) => { count += await inkEverywhere(t, cook.page, screen); });
  console.log(`        ink in ${count} controls and headings`);
};

// The look must be able to fail: here the page draws nothing.
async function blank(t) {
  const cook = await t.cook({ before: (page) => page.addInitScript(() => {
    WebGL2RenderingContext.prototype.drawElements = () => {};
  }) });
  await t.assert.rejects(() => inkEverywhere(t, cook.page, 'pieces'), /colours|nothing is drawn/);
}

async function lost(t) {
  const cook = await t.cook();
  await cook.begin('Cod', '2000');
  const before = await picture(cook.page);
  await loseContext(cook.page);
  await cook.page.waitForTimeout(300);
  await restoreContext(cook.page);
  await cook.page.waitForTimeout(300);
  await t.app.idle(cook.page);
  await inkEverywhere(t, cook.page, 'weigh');
  const share = difference(before, await picture(cook.page));
  t.assert.ok(share < 0.002, `${share} of the pixels are not as before`);
  await cook.weigh('120', /^Portions,/);
  await cook.sees(/^120 g, Portions, Saved/);
  await inkEverywhere(t, cook.page, 'weighed');
}

async function sharp(t) {
  const cook = await t.cook(sharpScreen);
  const size = await cook.page.evaluate(() => {
    const canvas = document.getElementById('canvas');
    return [canvas.width, canvas.height, innerWidth * devicePixelRatio, innerHeight * devicePixelRatio];
  });
  t.assert.ok(Math.abs(size[0] - size[2]) <= 1 && Math.abs(size[1] - size[3]) <= 1, String(size));
}

// A slab of the result under a finger tells its weight, share and money; a narrow one is as wide as a finger.
async function slabs(t) {
  const cook = await t.cook({ viewport: { width: 390, height: 844 } });
  await cook.loadSample();
  await cook.tap(/^Beef tenderloin/);
  await cook.tap('Result');
  const blocks = await t.app.get(cook.page, 'button', /^Bought/);
  const touch = async (across, down) => {
    await tapAt(cook.page, blocks.rect.x + blocks.rect.width * across, blocks.rect.y + blocks.rect.height * down);
    await t.app.idle(cook.page);
  };
  await touch(0.3, 0.25);
  await cook.sees(/^Centre-cut steaks 1445 g, 58\.3 %, 62\.67 €/);
  await t.picture('result-slab');
  await touch(0.6, 0.25);
  await cook.sees(/^Tail and head 408 g, 16\.5 %, 8\.97 €/);
  await touch(0.6, 0.25); // once more: put away
  await cook.seesNot(/^Tail and head 408 g, 16/);
  await touch(0.3, 0.75); // of the money below
  await cook.sees(/^Centre-cut steaks 1445 g/);
}

export const tests = [
  { name: 'slabs of the result tell what they are under a finger', quick: true, run: slabs },
  { name: 'nothing is drawn in five seconds at rest', quick: false, run: idleFrames },
  { name: 'every control of every light screen has ink', quick: false, run: inked('light') },
  { name: 'every control of every dark screen has ink', quick: false, run: inked('dark') },
  { name: 'a canvas that stays blank would be noticed', quick: true, run: blank },
  { name: 'all is drawn as before, and work goes on, after the drawing surface was lost and restored', quick: true, run: lost },
  { name: 'the canvas has the pixels of the screen at a ratio of 2.625', quick: true, run: sharp },
];
