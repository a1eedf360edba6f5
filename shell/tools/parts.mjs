// parts.mjs PROGRAM.wasm LIST FOLDER WASM_DIS WASM_OPT
//
// Parts the program: the functions whose names match a pattern under a part's heading in LIST (see its
// head) and all that is reached only through them go into that part, FOLDER/tallyblock-NAME.wasm. What two
// parts need lies in the earlier one. What is exported, or stands in the function table without matching a
// pattern, and all that is called from there stays in the first, FOLDER/tallyblock.wasm. The only way from
// a part into a later one is the function table, at the places named in LIST: where a part calls such a
// function by name, nothing is parted. Such a place stays empty until its part comes and fills it, so that a
// call too early stops the program. Each part exports what later ones use of it; they import that from the
// module of its name. Needs the names of the functions; the parts are written without them.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { likeToLike } from './order.mjs';
import { partsOf, wasmOf } from './parts_list.mjs';

const [program, listFile, folder, dis, opt] = process.argv.slice(2);
const features = ['--enable-bulk-memory', '--enable-nontrapping-float-to-int', '--enable-sign-ext',
  '--enable-mutable-globals'];
const plain = (name) => name.replace(/\\([0-9a-f]{2})/g, (_, hex) => String.fromCharCode(parseInt(hex, 16)));

// A line of LIST. One that begins with ! names what the parts before this one must do without.
function pattern(line) {
  const parts = line.replace(/^!/, '').split('*');
  const text = parts.map((part) => part.replace(/[.+?^${}()|[\]\\]/g, '\\$&')).join('.*');
  return { line, guard: line.startsWith('!'), test: new RegExp(`^${text}$`, 's') };
}

// The program's text taken apart: its head and the functions by name, each with its lines and whom it calls,
// who is called from outside, and who stands where in the table.
function read(text) {
  const head = [], functions = new Map(), exported = new Set(), table = new Map();
  let now = null;
  for (const line of text.split('\n')) {
    const begun = /^ \(func \$(\S+?)(?=[\s)]|$)/.exec(line);
    if (begun) {
      now = { lines: [line], calls: new Set() };
      functions.set(begun[1], now);
    } else if (/^ \(elem/.test(line)) {
      const [, at, names] = /^ \(elem \S+ \(i32\.const (\d+)\) (.*)\)$/.exec(line);
      names.split(' ').forEach((name, i) => table.set(Number(at) + i, name.slice(1)));
    } else if (/^ \(/.test(line)) {
      now = null;
      head.push(line);
      const called = /^ \((?:export "\S+" \(func|start) \$(\S+?)\)/.exec(line);
      if (called) exported.add(called[1]);
    } else if (now !== null && line !== ')') {
      now.lines.push(line);
      const found = /\((?:call|return_call|ref\.func) \$(\S+?)(?=[\s)]|$)/.exec(line);
      if (found) now.calls.add(found[1]);
    }
  }
  return { head, functions, exported, table };
}

// What the parts before keep, and for each of it what needs it: a function of theirs, or null for what is
// exported or stands in the table. `straight`: their calls of functions in `begins`.
function kept({ functions, exported, table }, begins) {
  const neededBy = new Map(), straight = [];
  const due = [...exported, ...table.values()].filter((name) => functions.has(name) && !begins.has(name));
  for (const name of due) neededBy.set(name, null);
  while (due.length > 0) {
    const name = due.pop();
    for (const callee of functions.get(name).calls) {
      if (begins.has(callee)) straight.push([callee, name]);
      if (begins.has(callee) || neededBy.has(callee) || !functions.has(callee)) continue;
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

// The part of each function, by number: 0 is the first, 1 the first of `parts`.
function owners(graph, parts) {
  for (const root of parts.flatMap((part) => part.roots)) {
    root.names = [...graph.functions.keys()].filter((name) => root.test.test(plain(name)));
    if (root.names.length === 0) throw new Error(`no function is named ${root.line}`);
  }
  const owner = new Map([...graph.functions.keys()].map((name) => [name, 0]));
  for (const [i, { name: part }] of parts.entries()) {
    const roots = parts.slice(i).flatMap((one) => one.roots);
    const named = (guard) => roots.filter((root) => root.guard === guard).flatMap((root) => root.names);
    const { neededBy, straight } = kept(graph, new Set(named(false)));
    if (straight.length > 0) {
      const [callee, name] = straight[0];
      throw new Error(`a part before "${part}" calls what begins it by name, which nothing holds back:\n    ` +
        `${plain(callee)}\n    called by ${chain(name, neededBy)}`);
    }
    const bad = named(true).find((name) => neededBy.has(name));
    if (bad !== undefined) {
      throw new Error(`this belongs into "${part}", but a part before it needs it:\n    ${chain(bad, neededBy)}\n` +
        'The last one is exported or handed over by address. If only that part calls it, name it in the list ' +
        'of parts, or call it directly.');
    }
    for (const name of graph.functions.keys()) if (!neededBy.has(name)) owner.set(name, i + 1);
  }
  return owner;
}

// The table's places that belong to a part, as few pieces as possible.
function elements(table, isOwn) {
  const pieces = [];
  let next = -1;
  for (const [at, name] of [...table].sort(([a], [b]) => a - b)) {
    if (!isOwn(name)) continue;
    if (at === next) pieces.at(-1).push(`$${name}`);
    else pieces.push([`(elem (i32.const ${at})`, `$${name}`]);
    next = at + 1;
  }
  return pieces.map((piece) => ` ${piece.join(' ')})`);
}

// The text of each part. What one uses of another has a short name on both sides.
function texts({ head, functions, table }, owner, names) {
  const of = (what) => head.filter((line) => line.startsWith(` (${what}`));
  const ownerOf = (name) => owner.get(name) ?? 0; // what the page gives comes through the first
  const linesOf = (isOwn) => likeToLike([...functions].filter(([name]) => isOwn(name)).map(([, one]) => one))
    .flatMap(({ lines }) => lines);
  const handed = names.map(() => new Map());
  const handOver = (from, what) => {
    if (!handed[from].has(what)) handed[from].set(what, `%${handed[from].size.toString(36)}`);
    return handed[from].get(what);
  };
  const given = new Map(of('import').map((line) => [/\(func \$(\S+?)[ )]/.exec(line)[1], line]));
  const shared = [...of('memory'), ...of('table'), ...of('global')].map((line) => {
    const [, kind, name, type] = /^ \((\w+) \$(\S+) (\(mut \w+\)|[^()]+)/.exec(line);
    return { kind, name, type };
  });
  const importOf = (from, name) => {
    const type = functions.has(name) ? /^ \(func \S+(.*)$/.exec(functions.get(name).lines[0])[1]
      : /\(func \S+?((?: \(.*\))?)\)\)$/.exec(given.get(name))[1];
    return ` (import "${names[from]}" "${handOver(from, name)}" (func $${name}${type}))`;
  };
  const later = names.slice(1).map((_, i) => {
    const isOwn = (name) => owner.get(name) === i + 1;
    const own = [...functions].filter(([name]) => isOwn(name));
    const used = new Set(own.flatMap(([, { calls }]) => [...calls]).filter((name) => !isOwn(name)));
    return [
      ...of('type'), ...[...used].map((name) => importOf(ownerOf(name), name)),
      ...shared.map(({ kind, name, type }) =>
        ` (import "${names[0]}" "${handOver(0, `${kind} ${name}`)}" (${kind} $${name} ${type}))`),
      ...elements(table, isOwn), ...linesOf(isOwn),
    ];
  });
  const isFirst = (name) => ownerOf(name) === 0;
  const first = [...head, ...elements(table, isFirst), ...linesOf(isFirst)];
  return [first, ...later].map((lines, i) => ['(module', ...lines,
    ...[...handed[i]].map(([what, short]) =>
      ` (export "${short}" (${what.includes(' ') ? what.replace(' ', ' $') : `func $${what}`}))`), ')'].join('\n'));
}

try {
  const work = fs.mkdtempSync(path.join(os.tmpdir(), 'tallyblock-parts-'));
  const file = (name) => path.join(work, `${name}.wat`);
  try {
    execFileSync(dis, [program, ...features, '-o', file('program')]);
    const graph = read(fs.readFileSync(file('program'), 'utf8'));
    const listed = partsOf(listFile).map(({ name, lines }) => ({ name, roots: lines.map(pattern) }));
    const owner = owners(graph, listed);
    const names = ['first', ...listed.map(({ name }) => name)];
    for (const [i, text] of texts(graph, owner, names).entries()) {
      fs.writeFileSync(file(names[i]), text);
      const whole = path.join(folder, i === 0 ? 'tallyblock.wasm' : wasmOf(names[i]));
      execFileSync(opt, [file(names[i]), ...features, '-Oz', '--converge', '-o', whole], { stdio: ['ignore', 'inherit', 'inherit'] });
    }
    const counts = names.map((name, i) => `${[...owner.values()].filter((one) => one === i).length} functions in "${name}"`);
    console.log(`Parted the program: ${counts.join(', ')}.`);
  } finally {
    fs.rmSync(work, { recursive: true, force: true });
  }
} catch (error) {
  console.error(`The program could not be parted: ${error.message}`);
  process.exitCode = 1;
}
