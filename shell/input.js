// Fingers, mouse, wheel and keys become the program's own events (physical pixels).
//
// All pointers arrive at one root. Text boxes and links are real elements and also take their pointer
// themselves; the program hears of it too, so that a drag begun on one still scrolls.

const kinds = { pointerdown: 0, pointermove: 1, pointerup: 2, pointercancel: 3 };
const wanted = new Set(['Backspace', 'Enter', 'Escape', ...'0123456789.,/- ']);
const lineHeight = 20; // CSS px, for wheels that count lines
const slop = 8; // CSS px a finger may move within a tap

export const isTextBox = (element) =>
  element instanceof HTMLTextAreaElement || element instanceof HTMLInputElement;

export class Input {
  constructor(root, program, environment) {
    this.root = root;
    this.program = program;
    this.environment = environment;
    this.down = new Map(); // pointer id -> where it went down, CSS px
    this.lastTap = { ms: -Infinity, x: 0, y: 0 };
    for (const type of Object.keys(kinds)) root.addEventListener(type, (event) => this.#pointer(event));
    // A tap on the drawing is done with by its pointer: no click is made of it, which would take time
    // before the next frame. Not heard at the root: what assistive technology presses may count as touched
    // there, and needs its click; so do text boxes and links.
    root.querySelector('canvas').addEventListener('touchend', (event) => {
      if (event.cancelable) event.preventDefault();
    }, { passive: false });
    root.addEventListener('wheel', (event) => this.#wheel(event), { passive: false });
    root.addEventListener('contextmenu', (event) => {
      if (!isTextBox(event.target)) event.preventDefault();
    });
    addEventListener('keydown', (event) => this.#key(event));
    document.addEventListener('visibilitychange', () => {
      if (document.hidden) this.#cancelAll();
    });
  }

  // A finger just went up inside this rectangle (CSS px): a click there is the same act once more.
  justTapped(rect) {
    const { ms, x, y } = this.lastTap;
    return performance.now() - ms < 400 &&
      x >= rect.left && x <= rect.right && y >= rect.top && y <= rect.bottom;
  }

  #pointer(event) {
    const kind = kinds[event.type];
    if (event.pointerType === 'mouse' && kind === 0 && event.button !== 0) return;
    if (kind !== 0 && !this.down.has(event.pointerId)) return;
    const onText = isTextBox(event.target);
    const onOwn = onText || event.target instanceof HTMLAnchorElement;
    if (kind === 0) {
      this.down.set(event.pointerId, { x: event.clientX, y: event.clientY });
      if (!onOwn) {
        event.preventDefault();
        this.root.setPointerCapture(event.pointerId);
      }
    } else if (kind === 2) {
      const { x, y } = this.down.get(event.pointerId);
      const tap = Math.hypot(event.clientX - x, event.clientY - y) <= slop;
      if (tap && !onText) {
        this.lastTap = { ms: performance.now(), x: event.clientX, y: event.clientY };
        // what was typed is complete before the tap is acted upon
        if (isTextBox(document.activeElement)) document.activeElement.blur();
      }
    }
    if (kind >= 2) this.down.delete(event.pointerId);
    this.#send(kind, event);
  }

  #send(kind, event) {
    const box = this.root.getBoundingClientRect();
    const ratio = this.environment.ratio;
    const touch = event.pointerType === 'touch' || event.pointerType === 'pen';
    this.program.pointer(kind, event.pointerId ?? -1, (event.clientX - box.left) * ratio,
      (event.clientY - box.top) * ratio, touch, event.timeStamp);
  }

  #cancelAll() {
    for (const [id, { x, y }] of this.down) {
      this.program.pointer(3, id, x * this.environment.ratio, y * this.environment.ratio, true,
        performance.now());
    }
    this.down.clear();
  }

  #wheel(event) {
    if (event.ctrlKey || event.target instanceof HTMLTextAreaElement) return;
    event.preventDefault();
    const unit = event.deltaMode === 1 ? lineHeight
      : event.deltaMode === 2 ? this.root.clientHeight : 1;
    const scale = unit * this.environment.ratio;
    this.#send(1, event); // where the mouse is
    this.program.wheel(event.deltaX * scale, event.deltaY * scale);
  }

  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (isTextBox(event.target) || !wanted.has(event.key)) return;
    const onControl = event.target instanceof HTMLButtonElement ||
      event.target instanceof HTMLAnchorElement;
    if (onControl && (event.key === 'Enter' || event.key === ' ')) return;
    event.preventDefault();
    this.program.key(event.key, event.shiftKey);
  }
}
