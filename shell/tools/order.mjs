// The order of a part's functions. It means nothing to the program, but Brotli writes a copy the shorter the
// nearer what it copies lies, so each function is followed by the one most like it: that has the most runs of
// three lines in common with it, of all the runs that either has.
const tooCommon = 300; // a run found in more functions than this says nothing about any

function runsOf(lines) {
  const runs = new Set();
  for (let i = 1; i + 3 <= lines.length; i++) runs.add(lines.slice(i, i + 3).map((line) => line.trim()).join('\n'));
  return runs;
}

// `functions`: [{ lines }], in the text format. The same ones, always in the same order.
export function likeToLike(functions) {
  const runs = functions.map(({ lines }) => runsOf(lines));
  const having = new Map(); // run -> the functions that have it
  for (const [i, own] of runs.entries()) {
    for (const run of own) having.set(run, [...(having.get(run) ?? []), i].slice(0, tooCommon + 1));
  }
  const left = new Set([...functions.keys()].sort((a, b) => functions[b].lines.length - functions[a].lines.length));
  const order = [];
  for (let now = left.values().next().value; now !== undefined;) {
    order.push(functions[now]);
    left.delete(now);
    const common = new Map();
    for (const run of runs[now]) {
      if (having.get(run).length > tooCommon) continue;
      for (const other of having.get(run)) if (left.has(other)) common.set(other, (common.get(other) ?? 0) + 1);
    }
    const likeness = (other) => common.get(other) / (runs[now].size + runs[other].size - common.get(other) + 10);
    let next = left.values().next().value; // like none of them: the largest
    if (common.size > 0) next = [...common.keys()].reduce((best, one) => (likeness(one) > likeness(best) ? one : best));
    now = next;
  }
  return order;
}
