// First script: starts the rest, and says so in plain HTML when that fails.
//
// The words stand in index.html, one paragraph per reason; nothing here needs the program. Starts that
// came to nothing are counted outside the database: which are under way, and how many in a row hung, died
// or stopped before a usable frame. A start leaves its mark before the program begins and takes it away
// when the frame is there, when it says itself what failed, or when the page is put away; the mark of one
// that hangs or dies is left over. After two the rescue page is shown instead.

document.documentElement.dataset.begun = 'yes'; // types.js asks

const reasons = ['load', 'mixed', 'graphics', 'stopped', 'file', 'picture'];
const mostBad = 2;
const firstSeconds = 10_000; // ms after the first frame in which a stop counts as a failed start
const tooLong = 60_000; // ms after which a start in another window counts as hanging

// Shows the paragraph of `reason`. `closable`: the app goes on behind it.
export function fail(reason, closable = false) {
  for (const known of reasons) {
    document.getElementById('failure-' + known).hidden = known !== reason;
  }
  document.getElementById('failure-reload').hidden = closable;
  document.getElementById('failure-rescue').hidden = closable;
  document.getElementById('failure-close').hidden = !closable;
  document.getElementById('failure').hidden = false;
}

// ---- starts that came to nothing

const place = 'tallyblock starts ' + new URL('.', location.href).pathname;
const me = Math.random().toString(36).slice(2);
const lockOf = (id) => `${place} ${id}`;
let badBefore = 0;
let under = true; // the start is under way
let good = 0; // time of the first usable frame
let unlock = () => {};

function starts() {
  try {
    const { bad, now } = JSON.parse(localStorage.getItem(place));
    return { bad: Number(bad) || 0, now: { ...now } };
  } catch {
    return { bad: 0, now: {} };
  }
}

function change(act) {
  const all = starts();
  act(all);
  try {
    if (all.bad === 0 && Object.keys(all.now).length === 0) localStorage.removeItem(place);
    else localStorage.setItem(place, JSON.stringify(all));
  } catch { /* not counted */ }
}

// How many starts in a row came to nothing. A mark left over counts, unless its window still lives.
async function countBad() {
  if (Object.keys(starts().now).length > 0) {
    const { held = [] } = await navigator.locks?.query().catch(() => ({})) ?? {};
    const living = new Set(held.map(({ name }) => name));
    change((all) => {
      for (const [id, since] of Object.entries(all.now)) {
        if (living.has(lockOf(id)) && Math.abs(Date.now() - since) < tooLong) continue;
        delete all.now[id];
        all.bad++;
      }
    });
  }
  return starts().bad;
}

// The mark is there while the start is under way and seen.
function mark() {
  unlock();
  const on = under && !document.hidden;
  change((all) => {
    delete all.now[me];
    if (on) all.now[me] = Date.now();
  });
  if (on) {
    navigator.locks?.request(lockOf(me), () => new Promise((resolve) => { unlock = resolve; })).catch(() => {});
  }
}

function over(bad) {
  under = false;
  mark();
  change((all) => { all.bad = bad; });
}

// Called at the first usable frame.
export function usable() {
  good = performance.now();
  over(0);
}

const again = (bad) => {
  change((all) => { all.bad = bad; });
  location.reload();
};

async function rescue(asked) {
  under = false;
  mark();
  try {
    const page = await import('./rescue.js');
    // once more in vain, and this page is here again
    page.show({ again: () => again(mostBad - 1), asked });
  } catch (error) {
    console.error(error);
    fail('load');
  }
}

// ----

// The page itself past every cache: the parts it names are then those of its own version.
document.getElementById('failure-reload').addEventListener('click', () =>
  fetch(location.href, { cache: 'reload' }).catch(() => {}).then(() => location.reload()));
document.getElementById('failure-rescue').addEventListener('click', () => {
  document.getElementById('failure').hidden = true;
  rescue(true);
});
document.getElementById('failure-close').addEventListener('click', () => {
  document.getElementById('failure').hidden = true;
});

function failed(reason) {
  if (under || performance.now() - good < firstSeconds) {
    over(badBefore + (reason === 'stopped' || reason === 'graphics' ? 1 : 0));
  }
  fail(reason);
  if (reason === 'load') dispatchEvent(new Event('tallyblock-failed'));
}

// A fault inside the program leaves its memory in an unknown state: say so and stop.
const stopped = (error) => {
  if (error instanceof WebAssembly.RuntimeError) failed('stopped');
};
addEventListener('error', (event) => stopped(event.error));
addEventListener('unhandledrejection', (event) => stopped(event.reason));

countBad().then((bad) => {
  badBefore = bad;
  if (bad >= mostBad) return rescue(false);
  mark();
  document.addEventListener('visibilitychange', mark);
  addEventListener('pagehide', () => {
    const was = under;
    under = false;
    mark();
    under = was;
  });
  addEventListener('pageshow', mark);
  return import('./main.js').then((main) => main.boot());
}).catch((error) => {
  console.error(error);
  const trap = error instanceof WebAssembly.RuntimeError;
  failed(trap ? 'stopped' : reasons.includes(error?.reason) ? error.reason : 'load');
});
