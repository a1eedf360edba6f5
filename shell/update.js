// The offline copy and its next version.
//
// The worker keeps one whole version (sw.js). A new one waits until the person adopts it; then the
// page loads again. A window that did not ask follows as soon as its own work is stored. Where there is
// no such copy and none can be made, the program is told: it opens only with a connection.

const policy = window.trustedTypes?.createPolicy('tallyblock', {
  createScriptURL(url) {
    if (url !== 'sw.js') throw new TypeError('not a script of this app');
    return url;
  },
});

export class Update {
  // calls: { waiting(), notKept(), async beforeReload() }.
  constructor(calls) {
    this.calls = calls;
    this.registration = null;
    this.reloading = false;
  }

  async register() {
    if (!navigator.serviceWorker || typeof caches === 'undefined') { // plain HTTP, some private windows
      this.calls.notKept();
      return;
    }
    // The first worker of a first visit replaces nothing.
    let had = navigator.serviceWorker.controller !== null;
    navigator.serviceWorker.addEventListener('controllerchange', () => {
      if (had) this.#reload();
      had = true;
    });
    const url = policy ? policy.createScriptURL('sw.js') : 'sw.js';
    try {
      this.registration = await navigator.serviceWorker.register(url, { updateViaCache: 'none' });
    } catch (error) {
      console.warn('no offline copy:', error);
      this.calls.notKept();
      return;
    }
    const watch = (worker) => worker?.addEventListener('statechange', () => this.#look());
    this.registration.addEventListener('updatefound', () => watch(this.registration.installing));
    watch(this.registration.installing);
    this.#look();
  }

  // Makes the waiting version the current one and loads it.
  adopt() {
    const waiting = this.registration?.waiting;
    if (!waiting) return;
    // a page loaded before the first worker has no controller that could change
    waiting.addEventListener('statechange', () => {
      if (waiting.state === 'activated') this.#reload();
    });
    waiting.postMessage('adopt');
  }

  #look() {
    const { active, waiting, installing } = this.registration;
    if (!active && !waiting && !installing) this.calls.notKept(); // the first one failed
    if (waiting && active) this.calls.waiting();
  }

  async #reload() {
    if (this.reloading) return;
    this.reloading = true;
    await this.calls.beforeReload();
    location.reload();
  }
}
