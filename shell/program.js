// The program's exported functions (BRIDGE.md) as plain methods.
//
// Texts and bytes are copied into memory that the program frees. Coordinates: physical pixels.

const encoder = new TextEncoder();

export class Program {
  constructor(module) {
    this.module = module;
    this.stopped = false; // by a fault: its memory is in an unknown state
  }

  #give(bytes) {
    const at = this.module._malloc(bytes.length || 1);
    this.module.HEAPU8.set(bytes, at);
    return at;
  }

  // Calls `name` with every text and byte array among `args` as address and length.
  #call(name, ...args) {
    if (this.stopped) return 0;
    const flat = [];
    for (const arg of args) {
      if (typeof arg === 'string' || arg instanceof Uint8Array) {
        const bytes = typeof arg === 'string' ? encoder.encode(arg) : arg;
        flat.push(this.#give(bytes), bytes.length);
      } else {
        flat.push(Number(arg));
      }
    }
    try {
      return this.module['_tb_' + name](...flat);
    } catch (error) {
      this.stopped = true;
      throw error;
    }
  }

  environment(e) {
    this.#call('environment', e.width, e.height, e.ratio, e.textScale, e.dark, e.reducedMotion,
      e.insets.top, e.insets.right, e.insets.bottom, e.insets.left, e.standalone, e.keyboard);
  }

  locale(l) {
    this.#call('locale', l.region, l.decimalComma, l.twelveHours, l.monthFirst);
  }

  words(packed) { this.#call('words', packed); }
  // 0: started; 1: program and page are of different builds; 2: no graphics; 3: not a font.
  start(font, build, schema) { return this.#call('start', font, build, schema); }
  pointer(kind, pointer, x, y, touch, ms) { this.#call('pointer', kind, pointer, x, y, touch, ms); }
  wheel(dx, dy) { this.#call('wheel', dx, dy); }
  key(key, shift) { this.#call('key', key, shift); }
  activate(id) { this.#call('activate', id); }
  focus(id, on) { this.#call('focus', id, on); }
  text(id, text, done) { this.#call('text', id, text, done); }
  // True: another frame is wanted at once.
  frame(ms) { return this.#call('frame', ms) !== 0; }
  commitDone(token, status) { this.#call('commit_done', token, status); }
  loadDone(token, status, bytes) { this.#call('load_done', token, status, bytes); }
  file(name, bytes, last) { this.#call('file', name, bytes, last); }
  files(count) { this.#call('files', count); }
  // Sessions that wait to be kept; -1: no more files are wanted.
  importing() { return this.#call('importing'); }
  protected(granted) { this.#call('protected', granted); }
  role(writer) { this.#call('role', writer); }
  othersChanged() { this.#call('others_changed'); }
  news(news, count) { this.#call('news', news, count); }
  part(number) { this.#call('part', number); }
  offline(works) { this.#call('offline', works); }
  updateWaiting() { this.#call('update_waiting'); }
  hidden() { this.#call('hidden'); }
  shown() { this.#call('shown'); }
  timer() { this.#call('timer'); }
  contextLost() { this.#call('context_lost'); }
  contextRestored() { this.#call('context_restored'); }
}
