// Boot order and wiring: storage and role begin beside the downloads; the program starts when all is
// there; the offline copy is made after the first frame.
import { Access } from './access.js';
import { Awake } from './awake.js';
import { Environment, locale } from './environment.js';
import { filePicker, offerFile, offerPicture } from './files.js';
import { Frames } from './frames.js';
import { Input } from './input.js';
import { Program } from './program.js';
import { Role } from './role.js';
import { usable } from './start.js';
import { Storage, schema, status } from './storage.js';
import { Update } from './update.js';

const build = '@BUILD_ID@';
const decoder = new TextDecoder();
const refusal = (reason) => Object.assign(new Error('cannot start: ' + reason), { reason });

// Of this very build: its name is asked for, and another one's bytes are refused.
async function fetchWhole(path, integrity) {
  const response = await fetch(`${path}?v=${build}`, { integrity });
  if (!response.ok) throw new Error(`${path}: status ${response.status}`);
  return response;
}

async function compile(path, integrity) {
  const response = await fetchWhole(path, integrity);
  // Under another type the browser compiles nothing while it comes in.
  const typed = response.headers.get('Content-Type')?.trim().toLowerCase() === 'application/wasm';
  return typed ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}

// The parts after the first, in their order: name, its file and that of its words, each with its checksum.
const laterParts = '@PARTS@';

// Until `wait` ms are over, there is a network again, or the person comes back or touches something.
function worthAnotherTry(wait) {
  const over = new AbortController();
  return new Promise((again) => {
    const heard = { signal: over.signal, capture: true };
    setTimeout(again, wait);
    for (const event of ['online', 'pointerup', 'click']) addEventListener(event, again, heard);
    document.addEventListener('visibilitychange', () => { if (!document.hidden) again(); }, heard);
  }).finally(() => over.abort());
}

// The program's first part, and how to add the next: it fills the gaps that those before it have in the table.
async function loadModule(page) {
  const compiled = compile('tallyblock.wasm', '@INTEGRITY:tallyblock.wasm@');
  const { default: create } = await import('./tallyblock.js');
  let addNext;
  const module = await new Promise((resolve, reject) => {
    const instantiateWasm = (imports, done) => {
      const known = { ...imports };
      compiled.then((code) => WebAssembly.instantiate(code, known)).then((first) => {
        known.first = first.exports;
        addNext = async ({ name, program, words }) => {
          const [code, text] = await Promise.all([compile(...program), loadWords(...words)]);
          known[name] = (await WebAssembly.instantiate(code, known)).exports;
          return text;
        };
        done(first);
      }).catch(reject);
      return {};
    };
    create({ page, instantiateWasm }).then(resolve, reject);
  });
  return { module, addNext };
}

// Words of the program (web/words/words.h), as they are handed over.
async function loadWords(path, integrity) {
  return new Uint8Array(await (await fetchWhole(path, integrity)).arrayBuffer());
}

async function loadFont() {
  const buffer = await (await fetchWhole('font.ttf', '@INTEGRITY:font.ttf@')).arrayBuffer();
  new FontFace('Tallyblock', buffer).load().then((face) => document.fonts.add(face), () => {});
  return new Uint8Array(buffer);
}

// Everything that lives as long as the page. `program` is null until it has started.
class Page {
  constructor() {
    this.program = null;
    this.untold = []; // news from before the first frame; null after it
    this.storage = new Storage({
      mayWrite: () => this.role.writer,
      flush: () => this.program?.hidden(),
      usable: () => this.program?.othersChanged(),
      tell: (news, count) => this.#news(news, count),
    });
    this.role = new Role({
      changed: (writer) => {
        this.storage.changedElsewhere();
        this.program?.role(writer);
      },
      othersKept: () => {
        this.storage.changedElsewhere();
        this.program?.othersChanged();
      },
      handOver: () => this.flush(),
    });
    this.environment = new Environment((now) => {
      if (!this.program) return;
      this.program.environment(now);
      this.frames.now();
    });
    this.awake = new Awake();
    this.update = new Update({
      waiting: () => this.program.updateWaiting(),
      notKept: () => this.program.offline(false),
      beforeReload: () => this.flush(),
    });
  }

  // Stores what is pending and waits for it.
  async flush() {
    this.program?.hidden();
    await this.storage.settled();
  }

  async start() {
    this.storage.open().catch(() => {}); // the first load answers why
    const persisted = navigator.storage?.persisted?.().catch(() => false);
    const [{ module, addNext }, font, words, kept] = await Promise.all([loadModule(this.#calls()), loadFont(),
      loadWords('words-en.bin', '@INTEGRITY:words-en.bin@'), persisted, this.role.elect()]);
    const program = new Program(module);
    program.words(words);
    this.frames = new Frames(program);
    const root = document.getElementById('app');
    this.input = new Input(root, program, this.environment);
    this.access = new Access(document.getElementById('access'), program, this.environment, this.input);
    this.pickFile = filePicker(program);
    program.environment(this.environment.now);
    program.locale(locale());
    program.role(this.role.writer);
    if (kept) program.protected(true);
    const refused = program.start(font, build, schema);
    if (refused !== 0) throw refusal(['', 'mixed', 'graphics', 'load'][refused]);
    this.program = program;
    // the pen may have changed hands while starting
    program.role(this.role.writer);
    this.#followLife();
    this.frames.want();
    this.#complete(addNext);
  }

  // The first part is drawn and used while the others are on their way, one after the other. A failure is
  // said, and it is tried again, less and less often by itself.
  async #complete(addNext) {
    for (const [i, part] of laterParts.entries()) {
      for (let wait = 1000; ; wait = Math.min(2 * wait, 60_000)) {
        try {
          this.program.words(await addNext(part));
          break;
        } catch {
          this.program.part(0);
        }
        await worthAnotherTry(wait);
      }
      this.program.part(i + 1);
    }
    performance.mark('tallyblock-whole');
  }

  // What the two stores have to say, once there is a frame to say it in.
  #news(news, count) {
    if (this.untold) this.untold.push([news, count]);
    else this.program.news(news, count);
  }

  #followLife() {
    let shown = true;
    const hide = () => {
      if (shown) this.program.hidden();
      shown = false;
      this.storage.both().then((both) => both.copy()).catch(() => {});
    };
    const show = () => {
      this.storage.check();
      if (!shown) this.program.shown();
      shown = true;
      this.frames.want();
    };
    document.addEventListener('visibilitychange', () => (document.hidden ? hide() : show()));
    addEventListener('pagehide', hide);
    addEventListener('pageshow', show);
    const canvas = document.getElementById('canvas');
    canvas.addEventListener('webglcontextlost', (event) => {
      event.preventDefault();
      this.program.contextLost();
    });
    canvas.addEventListener('webglcontextrestored', () => this.program.contextRestored());
  }

  // What the program may ask of the page (BRIDGE.md). Byte arrays are views into its memory, valid
  // only during the call, unless said otherwise.
  #calls() {
    return {
      storeCommit: (token, ops) => // a copy
        this.storage.commit(ops).then((done) => this.program.commitDone(token, done)),
      storeLoad: (token, area, prefix) =>
        this.#load(area, decoder.decode(prefix)).then((found) =>
          this.program.loadDone(token, found.status, found.bytes ?? new Uint8Array(0))),
      access: (list) => this.access.take(decoder.decode(list)),
      wantFrame: () => this.frames.want(),
      ready: () => this.#ready(),
      offerFile: (name, mime, bytes) => // bytes are a copy
        offerFile(decoder.decode(name), decoder.decode(mime), bytes),
      offerPicture: (name, width, height, pixels) => offerPicture(decoder.decode(name), width, height, pixels),
      pickFile: () => this.pickFile(),
      askPersist: () => {
        const asked = navigator.storage?.persist?.() ?? Promise.resolve(false);
        asked.catch(() => false).then((granted) => this.program.protected(granted));
      },
      adoptUpdate: () => this.update.adopt(),
      takeOver: () => this.role.takeOver(),
      announce: (text) => {
        const line = document.getElementById('announce');
        line.textContent = '';
        const words = decoder.decode(text);
        requestAnimationFrame(() => { line.textContent = words; });
      },
      keepAwake: (on) => this.awake.keep(on),
      tellOthers: () => this.role.tellOthers(),
      wakeAfter: (ms) => setTimeout(() => this.program.timer(), ms),
      theme: (dark, ground) => this.#theme(dark, decoder.decode(ground)),
    };
  }

  // What a later version has stored is read all the same, to be exported.
  async #load(area, prefix) {
    const found = await this.storage.load(area, prefix);
    if (found.status !== status.newer) return found;
    return import('./read_any.js').then((any) => any.readNewer(area, prefix)).catch(() => found);
  }

  // The first frame that shows the person's data has been drawn.
  #ready() {
    document.documentElement.classList.add('ready');
    document.getElementById('first').remove();
    usable();
    performance.mark('tallyblock-usable');
    const untold = this.untold;
    this.untold = null;
    for (const [news, count] of untold) this.program.news(news, count);
    setTimeout(() => this.storage.both().then((both) => both.compare()).catch(() => {}), 500);
    setTimeout(() => this.update.register(), 0);
  }

  #theme(dark, ground) {
    document.documentElement.dataset.theme = dark ? 'dark' : 'light';
    if (ground === '') return;
    for (const meta of document.querySelectorAll('meta[name="theme-color"]')) meta.content = ground;
  }
}

export async function boot() {
  if (document.documentElement.dataset.build !== build) throw refusal('mixed');
  const page = new Page();
  await page.start();
  // For tests and measurements: frames drawn so far, and whether nothing is under way.
  globalThis.tallyblock = {
    build,
    get frames() { return page.frames.count; },
    get idle() { return page.frames.idle && page.access.idle; },
    get writer() { return page.role.writer; },
    settled: () => page.storage.settled(),
    copied: () => page.storage.both().then((both) => both.copy()), // the second store has what the first has
  };
}
