// Which window has the pen: one writer per device, elected with Web Locks; others follow.
//
// A window that wants the pen asks for it first, so that the holder can store what is half done,
// and takes it when there is no answer. Where the browser has no locks, every window writes.

import { channel as channelName, lock as lockName } from './places.js';

const grace = 1500; // ms the holder has to hand the pen over

export class Role {
  // calls: { changed(writer), othersKept(), async handOver() }; handOver stores what is pending.
  constructor(calls) {
    this.calls = calls;
    this.writer = false;
    this.release = null;
    this.channel = typeof BroadcastChannel === 'function' ? new BroadcastChannel(channelName) : null;
    this.channel?.addEventListener('message', (event) => this.#heard(event.data));
  }

  // Resolves when it is known whether this window writes.
  async elect() {
    if (!navigator.locks) {
      this.writer = true;
      return;
    }
    await new Promise((known) => {
      navigator.locks.request(lockName, { ifAvailable: true }, (lock) => {
        if (!lock) {
          known();
          return undefined;
        }
        return this.#hold(known);
      }).catch(() => this.#lost());
    });
    if (!this.writer) this.#queue();
  }

  // Tells the other windows that something was kept.
  tellOthers() {
    this.channel?.postMessage('kept');
  }

  async takeOver() {
    if (this.writer || !navigator.locks) return;
    this.channel?.postMessage('hand over');
    await new Promise((resolve) => setTimeout(resolve, grace));
    if (this.writer) return;
    navigator.locks.request(lockName, { steal: true }, () => this.#hold(() => this.calls.changed(true)))
      .catch(() => this.#lost());
  }

  #hold(begun) {
    this.writer = true;
    begun();
    return new Promise((resolve) => { this.release = resolve; });
  }

  // Stands in line: becomes the writer when the holder closes or hands over.
  #queue() {
    navigator.locks.request(lockName, () => (this.writer ? undefined : this.#hold(() => this.calls.changed(true))))
      .catch(() => this.#lost());
  }

  #lost() {
    if (!this.writer) return;
    this.writer = false;
    this.release = null;
    this.calls.changed(false);
    this.#queue();
  }

  async #heard(message) {
    if (message === 'kept') {
      this.calls.othersKept();
    } else if (message === 'hand over' && this.release) {
      const release = this.release;
      await this.calls.handOver();
      if (this.release !== release) return; // taken meanwhile
      this.writer = false;
      this.release = null;
      this.calls.changed(false);
      release();
      // behind the window that asked
      setTimeout(() => this.#queue(), grace);
    }
  }
}
