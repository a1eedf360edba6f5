// Keeps the screen awake while asked to. The system takes the lock when the page is hidden; it is
// asked for again when the page is shown. A refusal is normal (battery saver) and ignored.

export class Awake {
  constructor() {
    this.on = false;
    this.lock = null;
    document.addEventListener('visibilitychange', () => this.#follow());
  }

  keep(on) {
    this.on = on;
    this.#follow();
  }

  async #follow() {
    if (!this.on) {
      const lock = this.lock;
      this.lock = null;
      await lock?.release().catch(() => {});
      return;
    }
    if (document.hidden || this.lock || !navigator.wakeLock) return;
    try {
      const lock = await navigator.wakeLock.request('screen');
      if (!this.on) {
        await lock.release();
        return;
      }
      this.lock = lock;
      lock.addEventListener('release', () => { if (this.lock === lock) this.lock = null; });
    } catch {
      // not given
    }
  }
}
