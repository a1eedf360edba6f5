// site.mjs OUTPUT PARTS FOLDER_OR_FILE...: puts the static site together.
//
// Takes the files of each folder (without its sub-folder tools/, its scripts and its notes) and each
// single file. Then
//   - the page's scripts and stylesheet are packed (pack.mjs);
//   - one build id, taken from all contents, replaces @BUILD_ID@ in every text file;
//   - where one part names another to be loaded, that name carries the build id, so that no cache on the way
//     mixes two versions;
//   - "@CHECKSUMS@" in index.html becomes an import map with the checksum of every module, and
//     "@CHECKSUMS:HASH@" what allows this one script within the page; stylesheets and scripts that are no
//     modules have their checksum beside them;
//   - "@PARTS@" becomes what PARTS lists (web/platform/parts.txt), as main.js loads it;
//   - "@INTEGRITY:FILE@" becomes the checksum of that file, as fetch() takes it;
//   - "@PRECACHE@" in sw.js becomes the list of [path, SHA-256] of all files but sw.js itself;
//   - each file which gains by it gets a Brotli-compressed twin, FILE.br.
// The old site is replaced only when the new one is whole.
//
// site.mjs --budget FOLDER: fails when the finished site is larger than a phone should load.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import zlib from 'node:zlib';
import { ceilings, sumOf, transferSizes } from './budget.mjs';
import { packScripts } from './pack.mjs';
import { partsOf, wasmOf, wordsOf } from './parts_list.mjs';

const TEXT = /\.(html|js|mjs|css|txt|json|svg|webmanifest)$/;
const NO_MODULE = ['sw.js', 'types.js'];
const LEFT_OUT = /^(\..*|.*\.(sh|md|cmake|py))$/;

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

function filesOf(folder, below = '') {
  return fs.readdirSync(path.join(folder, below), { withFileTypes: true }).flatMap((entry) => {
    const name = path.posix.join(below, entry.name);
    if (LEFT_OUT.test(entry.name) || name === 'tools') return [];
    return entry.isDirectory() ? filesOf(folder, name) : [name];
  });
}

function collect(inputs) {
  const files = new Map();
  const add = (name, file) => {
    if (files.has(name)) throw new Error(`Two inputs of the site are named ${name}.`);
    files.set(name, fs.readFileSync(file));
  };
  for (const input of inputs) {
    if (fs.statSync(input).isDirectory()) {
      for (const name of filesOf(input)) add(name, path.join(input, name));
    } else {
      add(path.basename(input), input);
    }
  }
  return new Map([...files].sort(([a], [b]) => (a < b ? -1 : 1)));
}

// The page's own scripts; tallyblock.js is the compiler's.
const ownScripts = (files) => [...files.keys()].filter((name) => /^[^/]+\.js$/.test(name) && name !== 'tallyblock.js');

function replaceOnce(files, name, token, text) {
  const found = files.get(name).toString('utf8').split(token).length - 1;
  if (found !== 1) throw new Error(`${name} has ${token} ${found} times.`);
  replaceText(files, name, token, text);
}

function replaceText(files, name, token, text) {
  files.set(name, Buffer.from(files.get(name).toString('utf8').replaceAll(token, () => text)));
}

const integrityOf = (bytes) => `sha256-${createHash('sha256').update(bytes).digest('base64')}`;

// Modules name each other as "./NAME".
function nameModules(files, id) {
  for (const name of files.keys()) {
    if (!/\.js$/.test(name)) continue;
    const text = files.get(name).toString('utf8');
    files.set(name, Buffer.from(text.replace(/\b(from|import|import\()"\.\/([\w-]+\.js)"/g, (whole, how, of) => {
      if (!files.has(of)) throw new Error(`${name} names ${of}, which is not there.`);
      return `${how}"./${of}?v=${id}"`;
    })));
  }
}

// What the page loads, last: its checksums are those of finished files.
function nameParts(files, id) {
  const modules = [...files.keys()].filter((name) => /\.js$/.test(name) && !NO_MODULE.includes(name));
  const sums = modules.map((name) => [`./${name}?v=${id}`, integrityOf(files.get(name))]);
  const map = JSON.stringify({ integrity: Object.fromEntries(sums) });
  const beside = (name) => (/\.css$/.test(name) || NO_MODULE.includes(name)
    ? ` integrity="${integrityOf(files.get(name))}"` : '');
  const page = files.get('index.html').toString('utf8')
    .replace(/\b(href|src)="([\w-]+\.(?:js|css|wasm|ttf|bin))"/g,
      (_, how, of) => `${how}="${of}?v=${id}"${beside(of)}`)
    .replace('@CHECKSUMS@', () => map)
    .replace('@CHECKSUMS:HASH@', () => integrityOf(map));
  files.set('index.html', Buffer.from(page));
}

function laterParts(list) {
  const withSum = (file) => [file, `@INTEGRITY:${file}@`];
  return JSON.stringify(partsOf(list).map(({ name }) =>
    ({ name, program: withSum(wasmOf(name)), words: withSum(wordsOf(name)) })));
}

async function buildSite(output, list, inputs) {
  const collected = collect(inputs);
  const files = await packScripts(collected, ownScripts(collected));
  const id = sha256([...files].map(([name, bytes]) => `${name} ${sha256(bytes)}\n`).join('')).slice(0, 16);
  for (const name of files.keys()) {
    if (TEXT.test(name)) replaceText(files, name, '@BUILD_ID@', id);
  }
  nameModules(files, id);
  replaceOnce(files, 'main.js', '"@PARTS@"', laterParts(list));
  for (const name of files.keys()) {
    if (!TEXT.test(name)) continue;
    const text = files.get(name).toString('utf8');
    for (const [token, of] of text.matchAll(/@INTEGRITY:([^@]+)@/g)) {
      replaceText(files, name, token, integrityOf(files.get(of)));
    }
  }
  nameParts(files, id);
  if (files.has('sw.js')) {
    const list = [...files].filter(([name]) => name !== 'sw.js').map(([name, bytes]) => [name, sha256(bytes)]);
    replaceOnce(files, 'sw.js', '"@PRECACHE@"', JSON.stringify(list));
  }
  const part = `${output}.part`;
  fs.rmSync(part, { recursive: true, force: true });
  for (const [name, bytes] of files) {
    const file = path.join(part, name);
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, bytes);
    const small = zlib.brotliCompressSync(bytes, {
      params: {
        [zlib.constants.BROTLI_PARAM_QUALITY]: 11,
        [zlib.constants.BROTLI_PARAM_LGWIN]: 22,
        [zlib.constants.BROTLI_PARAM_LGBLOCK]: 24,
        [zlib.constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
      },
    });
    if (small.length < bytes.length * 0.95) fs.writeFileSync(`${file}.br`, small);
  }
  fs.rmSync(output, { recursive: true, force: true });
  fs.renameSync(part, output);
  return id;
}

const kilobytes = (bytes) => (bytes / 1000).toFixed(1);

function checkBudget(folder) {
  const sizes = transferSizes(folder);
  for (const { name, bytes } of sizes) console.log(`${kilobytes(bytes).padStart(8)} KB  ${name}`);
  for (const { what, bytes, limit } of ceilings(sizes)) {
    const good = bytes <= limit * 1000;
    console.log(`${good ? 'ok' : 'over the budget'}: ${kilobytes(bytes)} KB ${what}, of ${limit} KB`);
    if (!good) process.exitCode = 1;
  }
}

const [first, ...rest] = process.argv.slice(2);
try {
  if (first === '--budget') checkBudget(rest[0]);
  else console.log(`Built the site, build ${await buildSite(first, rest[0], rest.slice(1))}.`);
} catch (error) {
  console.error(`The site could not be put together: ${error.message}`);
  process.exitCode = 1;
}
