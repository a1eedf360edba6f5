// The app in a page, found by role and name through its accessible tree and used by touch.
import { swipe, tapAt } from './touch.mjs';

const roles = { H1: 'heading', H2: 'heading', H3: 'heading', BUTTON: 'button', INPUT: 'textbox',
  TEXTAREA: 'textbox', P: 'text', A: 'link' };

// How long anything may be waited for, ms. A wait ends as soon as what it waits for is there: this only
// tells a page that hangs from a machine that is busy.
export const patience = 60_000;

// Opens the app and waits until it can be used.
export async function openApp(page, url) {
  await page.goto(url);
  await usable(page);
}

export async function usable(page, timeout = patience) {
  await page.waitForFunction(() => document.documentElement.classList.contains('ready'), null,
    { timeout });
  await idle(page);
}

// What was sent to the page has been handled, every storage operation so far is answered, and no
// frame is asked for.
export async function idle(page, timeout = patience) {
  await page.waitForFunction(async () => {
    const app = globalThis.tallyblock;
    if (!app) return false;
    const refresh = () => new Promise(requestAnimationFrame);
    for (let i = 0; i < 2; i++) {
      await refresh();
      await refresh();
      if (!app.idle) return false;
      await app.settled();
    }
    await refresh();
    return app.idle;
  }, null, { timeout, polling: 30 });
}

// Everything on screen in reading order: { role, name, value, level, pressed, expanded, disabled,
// away, rect } with rect { x, y, width, height } in CSS pixels.
export function tree(page) {
  return page.evaluate((known) => [...document.getElementById('access').children].map((e) => {
    const role = e.getAttribute('role') ?? known[e.tagName];
    const box = e.getBoundingClientRect();
    const state = (name) => (e.hasAttribute(name) ? e.getAttribute(name) === 'true' : undefined);
    return {
      role,
      name: e.getAttribute('aria-label') ?? e.textContent,
      value: role === 'textbox' ? e.value : role === 'group' ? e.textContent : undefined,
      level: role === 'heading' ? Number(e.tagName[1]) : undefined,
      pressed: state('aria-pressed'),
      expanded: state('aria-expanded'),
      disabled: e.disabled === true || state('aria-disabled') === true,
      away: e.classList.contains('away'),
      rect: { x: box.x, y: box.y, width: box.width, height: box.height },
    };
  }), roles);
}

const matches = (name, wanted) =>
  wanted === undefined || (wanted instanceof RegExp ? wanted.test(name) : name === wanted);

export async function all(page, role, name) {
  return (await tree(page)).filter((node) => node.role === role && matches(node.name, name));
}

// The first node of that role and name, or undefined.
export async function find(page, role, name) {
  return (await all(page, role, name))[0];
}

export async function get(page, role, name, timeout = patience) {
  const end = Date.now() + timeout;
  for (;;) {
    const node = await find(page, role, name);
    if (node) return node;
    if (Date.now() > end) {
      const seen = (await tree(page)).map((n) => `${n.role} "${n.name}"`).join(', ');
      throw new Error(`no ${role} named ${name}; there are: ${seen}`);
    }
    await page.waitForTimeout(50);
  }
}

// A figure's value as shown.
export async function figure(page, label) {
  return (await get(page, 'group', label)).value;
}

const middle = ({ rect }) => [rect.x + rect.width / 2, rect.y + rect.height / 2];

// Between two places of the bar there is the bar.
const beside = ({ name }) => (/^(Board|Where to cut|Result|More|Pieces)$/.test(name) ? 12 : 0);

// What lies below the edge of its list, under what stands there: that comes later in the list.
function isCovered(node, all) {
  const [x, y] = middle(node);
  const at = all.findIndex((one) => one.role === node.role && one.name === node.name);
  return all.slice(at + 1).some((other) => !other.away && ['button', 'status'].includes(other.role) &&
    x > other.rect.x - beside(other) && x < other.rect.x + other.rect.width + beside(other) &&
    y > other.rect.y && y < other.rect.y + other.rect.height);
}

// Brings a node into view by scrolling with a finger, as a person would.
export async function intoView(page, role, name) {
  const { height } = page.viewportSize();
  for (let i = 0; i < 30; i++) {
    const node = await get(page, role, name);
    if (!node.away && !isCovered(node, await tree(page))) return node;
    const x = middle(node)[0]; // of its own column
    const up = middle(node)[1] > height / 2;
    // above a keypad that may be open
    await swipe(page, [x, height * (up ? 0.4 : 0.17)], [x, height * (up ? 0.17 : 0.4)]);
    await idle(page);
  }
  throw new Error(`${role} named ${name} did not come into view`);
}

// Taps a control with a finger and waits until nothing moves.
export async function tap(page, role, name, { scroll = true, wait = true } = {}) {
  const node = scroll ? await intoView(page, role, name) : await get(page, role, name);
  await tapAt(page, ...middle(node));
  if (wait) await idle(page);
}

// Writes into a text box as a person does: tap it, type, leave it.
export async function type(page, name, text) {
  const node = await intoView(page, 'textbox', name);
  await tapAt(page, ...middle(node));
  const box = page.getByRole('textbox', { name, exact: typeof name === 'string' });
  await box.fill(text);
  await box.blur();
  await idle(page);
}
