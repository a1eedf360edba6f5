// What the device is like: size, pixel ratio, text size, theme, insets, keyboard. Says when it changes.

const root = () => document.getElementById('app');

function measure() {
  const ratio = devicePixelRatio || 1;
  const width = Math.max(1, Math.round(root().clientWidth * ratio));
  const height = Math.max(1, Math.round(root().clientHeight * ratio));
  const style = getComputedStyle(document.getElementById('insets'));
  const inset = (side) => Math.round((parseFloat(style['padding' + side]) || 0) * ratio);
  return {
    width,
    height,
    ratio,
    textScale: (parseFloat(getComputedStyle(document.documentElement).fontSize) || 16) / 16,
    dark: matchMedia('(prefers-color-scheme: dark)').matches,
    reducedMotion: matchMedia('(prefers-reduced-motion: reduce)').matches,
    insets: { top: inset('Top'), right: inset('Right'), bottom: inset('Bottom'), left: inset('Left') },
    standalone: matchMedia('(display-mode: standalone)').matches || navigator.standalone === true,
    keyboard: keyboardHeight(ratio),
  };
}

// The habits of the browser's language, for what a first start begins with.
export function locale() {
  const found = { region: '', decimalComma: false, twelveHours: false, monthFirst: false };
  try {
    const tag = navigator.language;
    found.decimalComma = new Intl.NumberFormat(tag).format(1.5).includes(',');
    const hours = new Intl.DateTimeFormat(tag, { hour: 'numeric' }).resolvedOptions();
    found.twelveHours = hours.hour12 === true;
    found.monthFirst = new Intl.DateTimeFormat(tag).formatToParts()[0].type === 'month';
    found.region = new Intl.Locale(tag).maximize().region || '';
  } catch {
    // a language the browser does not know: as far as it came
  }
  return found;
}

// Some systems only shrink the visual viewport for their keyboard. Pinch zoom shrinks it too and is
// not a keyboard.
function keyboardHeight(ratio) {
  const view = window.visualViewport;
  if (!view || view.scale > 1.05) return 0;
  const covered = root().clientHeight - view.height - view.offsetTop;
  return covered > 60 ? Math.round(covered * ratio) : 0;
}

export class Environment {
  // changed(environment): after the canvas has its new size, in the same task.
  constructor(changed) {
    this.changed = changed;
    this.now = measure();
    this.#fit();
    this.again = () => this.#again();
    addEventListener('resize', this.again);
    window.visualViewport?.addEventListener('resize', this.again);
    window.visualViewport?.addEventListener('scroll', this.again);
    for (const query of ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)',
      '(display-mode: standalone)']) {
      matchMedia(query).addEventListener('change', this.again);
    }
    const sizes = new ResizeObserver(this.again);
    for (const id of ['app', 'em', 'insets']) sizes.observe(document.getElementById(id));
    this.#watchRatio();
  }

  get ratio() {
    return this.now.ratio;
  }

  #watchRatio() {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => {
      this.#again();
      this.#watchRatio();
    }, { once: true });
  }

  #again() {
    const now = measure();
    if (JSON.stringify(now) === JSON.stringify(this.now)) return;
    this.now = now;
    this.#fit();
    this.changed(now);
  }

  // One canvas pixel is one physical pixel. Setting the size empties the canvas, so only when needed.
  #fit() {
    const canvas = document.getElementById('canvas');
    const { width, height, ratio } = this.now;
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    canvas.style.width = width / ratio + 'px';
    canvas.style.height = height / ratio + 'px';
  }
}
