// The parallel DOM: one real element per node of the program's list (web/kit/access.h).
//
// Same id, same element; reading order is list order. All but text boxes are unseen and let touches
// through to the canvas below; keyboards and assistive technology use them like any page. It follows
// the frame that shows what it tells, so that no tap waits for it; with a text box in it, which may move with the
// drawing, it goes with the frame.
import { isTextBox } from './input.js';

const kinds = ['heading', 'button', 'textbox', 'value', 'text', 'status', 'image', 'link'];

// The list's text (UTF-8, decoded) as nodes, fields in the order of struct AccessNode.
export function readList(text) {
  if (text === '') return [];
  return text.split('\x1e').map((line) => {
    const f = line.split('\x1f');
    return {
      id: Number(f[0]), kind: kinds[Number(f[1])], label: f[2], value: f[3],
      x: Number(f[4]), y: Number(f[5]), w: Number(f[6]), h: Number(f[7]),
      enabled: f[8] === '1', pressed: Number(f[9]), expanded: Number(f[10]), level: Number(f[11]),
      multiline: f[12] === '1', visible: f[13] === '1', maxLength: Number(f[14]),
      position: Number(f[15]), setSize: Number(f[16]), hint: f[17],
    };
  });
}

function tagOf(node) {
  switch (node.kind) {
    case 'heading': return 'h' + Math.min(3, Math.max(1, node.level));
    case 'button': return 'button';
    case 'textbox': return node.multiline ? 'textarea' : 'input';
    case 'text': return 'p';
    case 'link': return 'a';
    default: return 'div';
  }
}

const set = (element, name, value) => {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
};
const setFlag = (element, name, on) => {
  if (element.hasAttribute(name) !== on) element.toggleAttribute(name, on);
};
const setText = (element, text) => {
  if (element.textContent !== text) element.textContent = text;
};
const threeState = (element, name, state) => {
  if (state === 2) element.removeAttribute(name);
  else set(element, name, state === 1 ? 'true' : 'false');
};

export class Access {
  // input: asked whether a click repeats a tap.
  constructor(root, program, environment, input) {
    this.root = root;
    this.program = program;
    this.environment = environment;
    this.input = input;
    this.entries = new Map(); // key -> { element, node, box, sent }
    this.byElement = new WeakMap();
    this.waiting = null; // nodes not put in step yet
    root.addEventListener('click', (event) => this.#click(event));
    root.addEventListener('focusin', (event) => this.#focus(event.target, true));
    root.addEventListener('focusout', (event) => this.#focus(event.target, false));
    root.addEventListener('input', (event) => this.#typed(event.target, false));
    root.addEventListener('keydown', (event) => this.#leave(event));
    // a browser may scroll what is clipped to show the focus; the program scrolls instead
    root.addEventListener('scroll', () => { root.scrollTop = root.scrollLeft = 0; });
  }

  // The list as of the frame that is being drawn.
  take(text) {
    const nodes = readList(text);
    if (this.root.querySelector('input, textarea') || nodes.some((node) => node.kind === 'textbox')) {
      this.waiting = null;
      this.#update(nodes);
      return;
    }
    if (!this.waiting) setTimeout(() => this.#catchUp());
    this.waiting = nodes;
  }

  // The elements are in step with the last list taken.
  get idle() {
    return this.waiting === null;
  }

  #catchUp() {
    const nodes = this.waiting;
    this.waiting = null;
    if (nodes) this.#update(nodes);
  }

  // Puts the elements in step with the nodes.
  #update(nodes) {
    const before = this.entries;
    const focused = this.root.contains(document.activeElement) ? document.activeElement : null;
    const place = focused ? [...this.root.children].indexOf(focused) : -1;
    const seen = new Map();
    this.entries = new Map();
    for (const node of nodes) {
      const times = (seen.get(node.id) ?? 0) + 1;
      seen.set(node.id, times);
      const tag = tagOf(node);
      const key = `${node.id}:${times}:${tag}:${node.kind}`;
      const entry = before.get(key) ?? this.#create(tag, node);
      before.delete(key);
      this.entries.set(key, entry);
      entry.was = entry.node;
      entry.node = node;
    }
    for (const { element } of before.values()) element.remove();
    let next = this.root.firstChild;
    for (const entry of this.entries.values()) {
      if (entry.element === next) next = next.nextSibling;
      else this.root.insertBefore(entry.element, next);
      this.#dress(entry);
    }
    if (focused && document.activeElement !== focused) this.#refocus(focused, place);
  }

  #create(tag, node) {
    const element = document.createElement(tag);
    if (node.kind === 'button') element.type = 'button';
    if (node.kind === 'value') element.setAttribute('role', 'group');
    if (node.kind === 'status') element.setAttribute('role', 'status');
    if (node.kind === 'image') element.setAttribute('role', 'img');
    if (node.kind === 'textbox') {
      element.autocomplete = 'off';
      element.spellcheck = false;
      element.enterKeyHint = 'done';
    }
    if (node.kind === 'link') {
      // an installed app has no way back from a page without one
      element.target = '_blank';
      element.rel = 'noopener';
    }
    const entry = { element, node, box: '', sent: null };
    this.byElement.set(element, entry);
    return entry;
  }

  #dress(entry) {
    const { element, node } = entry;
    switch (node.kind) {
      case 'button':
        setText(element, node.label);
        set(element, 'aria-disabled', node.enabled ? 'false' : 'true');
        threeState(element, 'aria-pressed', node.pressed);
        threeState(element, 'aria-expanded', node.expanded);
        break;
      case 'textbox': this.#dressBox(entry); break;
      case 'value':
        set(element, 'aria-label', node.label);
        setText(element, node.value);
        break;
      case 'image': set(element, 'aria-label', node.label); break;
      case 'link':
        setText(element, node.label);
        set(element, 'href', node.value);
        break;
      default: setText(element, node.value ? `${node.label} ${node.value}` : node.label);
    }
    const box = [node.x, node.y, node.w, node.h, this.environment.ratio].join();
    if (entry.box !== box) {
      entry.box = box;
      const ratio = this.environment.ratio;
      element.style.transform = `translate(${node.x / ratio}px, ${node.y / ratio}px)`;
      element.style.width = node.w / ratio + 'px';
      element.style.height = node.h / ratio + 'px';
    }
    // only what is near is in the page: where it stands among all is said with it
    if (node.setSize > 0) set(element, 'aria-description', `${node.position} / ${node.setSize}`);
    element.classList.toggle('away', !node.visible);
  }

  #dressBox(entry) {
    const { element, node } = entry;
    set(element, 'aria-label', node.label);
    set(element, 'placeholder', node.hint);
    setFlag(element, 'disabled', !node.enabled);
    if (element.maxLength !== node.maxLength) element.maxLength = node.maxLength;
    // While someone types, the program's answers lag behind the keys: only what it changed by
    // itself goes into the box.
    const echo = document.activeElement === element && entry.sent !== null &&
      (entry.was.value === node.value || entry.sent.has(node.value));
    if (!echo && element.value !== node.value) element.value = node.value;
  }

  // The focused element is gone: its successor in place, or the heading of what came instead.
  #refocus(gone, place) {
    if (gone.isConnected) {
      gone.focus({ preventScroll: true });
      return;
    }
    const same = this.root.children[place];
    const target = same && same.matches('button, a') ? same : this.root.querySelector('h1, h2, button');
    if (!target) return;
    if (!target.matches('button, a')) target.tabIndex = -1;
    target.focus({ preventScroll: true });
  }

  #click(event) {
    const entry = this.byElement.get(event.target);
    if (!entry || entry.node.kind !== 'button') return;
    event.preventDefault();
    if (!entry.node.enabled || this.input.justTapped(entry.element.getBoundingClientRect())) return;
    this.program.activate(entry.node.id);
  }

  #focus(element, on) {
    const entry = this.byElement.get(element);
    if (!entry) return;
    if (!on && isTextBox(element)) this.#typed(element, true);
    this.program.focus(entry.node.id, on);
  }

  #typed(element, done) {
    const entry = this.byElement.get(element);
    if (!entry || !isTextBox(element) || !this.root.contains(element)) return;
    if (done) entry.sent = null;
    else (entry.sent ??= new Set()).add(element.value);
    this.program.text(entry.node.id, element.value, done);
  }

  // Enter ends a line, Escape ends any text.
  #leave(event) {
    if (!isTextBox(event.target) || event.isComposing) return;
    const line = event.target instanceof HTMLInputElement;
    if (event.key === 'Escape' || (event.key === 'Enter' && line)) {
      event.preventDefault();
      event.stopPropagation();
      event.target.blur();
    }
  }
}
