// Other ways than touch of using the app: a keyboard alone; roles and names alone, as a screen reader.
import assert from 'node:assert/strict';
import * as app from './app.mjs';
import { Cook } from './tools.mjs';

const matches = (name, wanted) => (wanted instanceof RegExp ? wanted.test(name) : name === wanted);
const mostTabs = 150;

// Role and name of what has the focus; undefined outside the app's controls.
export const focused = (page) => page.evaluate(() => {
  const e = document.activeElement;
  if (!e || !document.getElementById('access').contains(e)) return undefined;
  const kind = { BUTTON: 'button', A: 'link', INPUT: 'textbox', TEXTAREA: 'textbox' }[e.tagName];
  return { role: kind ?? e.tagName, name: e.getAttribute('aria-label') ?? e.textContent };
});

// Everything by Tab, Enter, Space and digits.
export class KeyCook extends Cook {
  async reach(role, name) {
    for (let i = 0; i < mostTabs; i++) {
      const here = await focused(this.page);
      if (here && here.role === role && matches(here.name, name)) return;
      await this.page.keyboard.press('Tab');
    }
    assert.fail(`Tab does not reach the ${role} ${name}: ${(await this.names()).join(' | ')}`);
  }
  async tap(name, { wait = true } = {}) {
    this.taps++;
    await this.reach('button', name);
    await this.page.keyboard.press(this.taps % 2 === 0 ? 'Enter' : 'Space');
    if (wait) await app.idle(this.page);
  }
  async digits(text) {
    for (const key of text) await this.page.keyboard.press(key);
    await app.idle(this.page);
  }
  async write(name, text) {
    await this.reach('textbox', name);
    await this.page.keyboard.type(text);
    await this.page.keyboard.press('Enter');
    await app.idle(this.page);
  }
}

// Everything by role and name in the browser's own accessibility tree; no place is known. A screen
// reader's act is a click event on the element.
export class VoiceCook extends Cook {
  async tap(name, { wait = true } = {}) {
    this.taps++;
    const control = this.page.getByRole('button', { name, exact: typeof name === 'string' }).first();
    await control.dispatchEvent('click');
    if (wait) await app.idle(this.page);
  }
  async write(name, text) {
    const box = this.page.getByRole('textbox', { name, exact: typeof name === 'string' });
    await box.focus();
    await box.fill(text);
    await box.blur();
    await app.idle(this.page);
  }
}
