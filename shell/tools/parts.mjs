// parts.mjs PROGRAM.wasm ROOTS FIRST.wasm SECOND.wasm WASM_DIS WASM_SPLIT WASM_OPT
//
// Parts the program in two: the functions whose names match a pattern of ROOTS (see its head) and all
// that is reached only through them go into the second. What is exported, or stands in the function
// table without matching a pattern, and all that is called from there stays in the first. The only way
// from the first part into the second is the function table, at the places named in the head of ROOTS:
// where the first calls such a function by name, there is no part. Needs the names of the functions;
// both parts are written without them.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const [program, rootsFile, firstFile, secondFile, dis, split, opt] = process.argv.slice(2);
const features = ['--enable-bulk-memory', '--enable-nontrapping-float-to-int', '--enable-sign-ext',
  '--enable-mutable-globals'];
const plain = (name) => name.replace(/\\([0-9a-f]{2})/g, (_, hex) => String.fromCharCode(parseInt(hex, 16)));

// The lines of ROOTS. One that begins with ! names what the first part must do without.
function patterns(file) {
  return fs.readFileSync(file, 'utf8').split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => {
      const parts = line.replace(/^!/, '').split('*');
      const text = parts.map((part) => part.replace(/[.+?^${}()|[\]\\]/g, '\\$&')).join('.*');
      return { line, used: false, guard: line.startsWith('!'), test: new RegExp(`^${text}$`, 's') };
    });
}

// Who calls whom, who can be called from outside, and who stands in the table.
function callsOf(text) {
  const calls = new Map(), exported = new Set(), table = [];
  let now = null;
  for (const line of text.split('\n')) {
    const begun = /^ \(func \$(\S+?)(?=[\s)])/.exec(line);
    if (begun) {
      now = begun[1];
      calls.set(now, new Set());
    } else if (/^ \((elem|export|start)/.test(line)) {
      now = null;
      const names = [...line.matchAll(/\$(\S+?)(?=[\s)])/g)].map((found) => found[1]);
      if (line.startsWith(' (elem')) table.push(...names);
      else for (const name of names) exported.add(name);
    } else if (now !== null) {
      for (const found of line.matchAll(/\((?:call|return_call|ref\.func) \$(\S+?)(?=[\s)]|$)/g)) calls.get(now).add(found[1]);
    }
  }
  return { calls, exported, table };
}

// What must stay, and for each of it what needs it: a function of the first part, or null for what is
// exported or stands in the table. `straight`: the first part's calls of functions in `begins`.
function kept({ calls, exported, table }, begins) {
  const neededBy = new Map(), straight = [];
  const due = [...exported, ...table].filter((name) => calls.has(name) && !begins.has(name));
  for (const name of due) neededBy.set(name, null);
  while (due.length > 0) {
    const name = due.pop();
    for (const callee of calls.get(name)) {
      if (begins.has(callee)) straight.push([callee, name]);
      if (begins.has(callee) || neededBy.has(callee) || !calls.has(callee)) continue;
      neededBy.set(callee, name);
      due.push(callee);
    }
  }
  return { neededBy, straight };
}

function chain(name, neededBy) {
  const names = [];
  for (let at = name; at != null; at = neededBy.get(at)) names.push(plain(at));
  return names.join('\n    needed by ');
}

function moved(graph, roots) {
  const begins = new Set(), guarded = [];
  for (const name of graph.calls.keys()) {
    for (const root of roots.filter((one) => one.test.test(plain(name)))) {
      root.used = true;
      if (root.guard) guarded.push(name);
      else begins.add(name);
    }
  }
  const unused = roots.filter((root) => !root.used).map((root) => root.line);
  if (unused.length > 0) throw new Error(`no function is named ${unused.join(', nor ')}`);
  const { neededBy, straight } = kept(graph, begins);
  if (straight.length > 0) {
    const [callee, name] = straight[0];
    throw new Error(`the first part calls the second by name, which nothing holds back:\n    ` +
      `${plain(callee)}\n    called by ${chain(name, neededBy)}`);
  }
  const bad = guarded.find((name) => neededBy.has(name));
  if (bad !== undefined) {
    throw new Error(`this belongs into the second part, but the first needs it:\n    ${chain(bad, neededBy)}\n` +
      'The last one is exported or handed over by address. If only the second part calls it, name it in ' +
      'second_part.txt, or call it directly.');
  }
  return [...graph.calls.keys()].filter((name) => !neededBy.has(name));
}

try {
  const work = fs.mkdtempSync(path.join(os.tmpdir(), 'tallyblock-parts-'));
  try {
    execFileSync(dis, [program, ...features, '-o', path.join(work, 'program.wat')]);
    const list = moved(callsOf(fs.readFileSync(path.join(work, 'program.wat'), 'utf8')), patterns(rootsFile));
    fs.writeFileSync(path.join(work, 'moved.txt'), list.join('\n'));
    const whole = [path.join(work, 'first.wasm'), path.join(work, 'second.wasm')];
    const run = (tool, ...words) =>
      execFileSync(tool, [...words, ...features], { stdio: ['ignore', 'inherit', 'inherit'] });
    run(split, program, '-o1', whole[0], '-o2', whole[1], `--split-funcs=@${path.join(work, 'moved.txt')}`,
      '--export-prefix=%', '--import-namespace=first', '--placeholder-namespace=second');
    // Apart, each gets a little smaller.
    [firstFile, secondFile].forEach((file, i) => run(opt, whole[i], '-Oz', '-o', file));
    console.log(`Parted the program: ${list.length} functions in the second part.`);
  } finally {
    fs.rmSync(work, { recursive: true, force: true });
  }
} catch (error) {
  console.error(`The program could not be parted: ${error.message}`);
  process.exitCode = 1;
}
