// What the measurements in a browser share: what is watched within the page, and the table they print.
import { verdict } from './verdict.mjs';

// Before the page loads: times of drawn frames and of taps, and the program's memory.
export function watch() {
  const seen = { frames: [], taps: [], memory: null };
  globalThis.bench = seen;
  const request = globalThis.requestAnimationFrame.bind(globalThis);
  globalThis.requestAnimationFrame = (act) => request((ms) => {
    const drawn = globalThis.tallyblock?.frames;
    const begin = performance.now();
    act(ms);
    if (globalThis.tallyblock?.frames !== drawn) seen.frames.push(performance.now() - begin);
  });
  // W3C Event Timing: from the event to the frame that shows what came of it, in steps of 8 ms.
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === 'pointerup') seen.taps.push(entry.duration);
  }).observe({ type: 'event', durationThreshold: 16 });
  const instantiate = WebAssembly.instantiate;
  WebAssembly.instantiate = async (...args) => {
    const made = await instantiate.apply(WebAssembly, args);
    // the program's first part has it; the second has none of its own
    seen.memory ??= Object.values((made.instance ?? made).exports).find((e) => e instanceof WebAssembly.Memory);
    return made;
  };
}

export const count = { passed: 0, failed: 0 };

// One line: what, value, unit, its budget (none: undefined) and how it keeps it.
export function row(what, value, unit, budget, note = '') {
  const { word, counts, fails } = verdict(value, unit, budget);
  if (counts) count[fails ? 'failed' : 'passed']++;
  const shown = value >= 100 ? value.toFixed(0) : value.toFixed(1);
  console.log(`${what.padEnd(38)} ${shown.padStart(8)} ${unit.padEnd(3)} ` +
    `${budget === undefined ? '' : `of ${budget}`} ${word} ${note}`.trimEnd());
}
