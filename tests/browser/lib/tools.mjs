// What every browser test is given: a site, private contexts, a cook's fingers with their taps
// counted, files out and in.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import * as app from './app.mjs';
import { phoneContext } from './browser.mjs';
import { serveSite } from './site_server.mjs';

// A person at one page. `taps` counts every touch.
export class Cook {
  constructor(page) {
    this.page = page;
    this.taps = 0;
  }
  async tap(name, options) {
    this.taps++;
    await app.tap(this.page, 'button', name, options);
  }
  // Digits on the keypad, without waiting for the last one if `last` is false.
  async digits(text) {
    for (const ch of text) await this.tap(ch === '.' ? 'Decimal mark' : ch);
  }
  async weigh(digits, pile) {
    await this.digits(digits);
    await this.tap(pile);
  }
  async write(name, text) {
    await app.type(this.page, name, text);
  }
  // A field of the result or the details: opened, typed, kept.
  async keepField(name, digits) {
    await this.tap(name);
    await this.digits(digits);
    await this.tap('Save');
  }
  // A line of the result, opened in its place.
  async chapter(name) {
    const line = await app.get(this.page, 'button', name);
    if (!line.expanded) await this.tap(name);
  }
  // The cautions, which come once before the first piece.
  async understand() {
    if (await app.find(this.page, 'button', 'Understood')) await this.tap('Understood');
  }
  // From the pieces to an empty board.
  async newPiece() {
    await this.tap(/^Weigh (a new|my first) piece/);
    await this.understand();
  }
  // The invented example, from the pieces and back to them.
  async loadSample() {
    if (await app.find(this.page, 'button', /^Try the invented example/)) {
      await this.tap(/^Try the invented example/);
    } else {
      await this.tap('More');
      await this.tap(/^Load the example/);
    }
    await this.understand();
  }
  // From the pieces to a piece on the board.
  async begin(name, grams) {
    await this.newPiece();
    await this.write('What is on the board?', name);
    await this.weigh(grams, 'Weigh in');
  }
  names() {
    return app.tree(this.page).then((nodes) => nodes.map((n) => [n.name, n.value ?? ''].join(' ')));
  }
  async sees(pattern, timeout = app.patience) {
    const end = Date.now() + timeout;
    for (;;) {
      const names = await this.names();
      if (names.some((n) => pattern.test(n))) return;
      assert.ok(Date.now() < end, `${pattern} is not on the screen: ${names.join(' | ')}`);
      await this.page.waitForTimeout(50);
    }
  }
  async seesNot(pattern) {
    const found = (await this.names()).filter((n) => pattern.test(n));
    assert.deepEqual(found, []);
  }
  // The half-typed digits, as the keypad's line says them.
  async typed() {
    const line = (await app.tree(this.page)).find((n) =>
      n.role === 'group' && /^(into\b|tap its pile|Whole piece$)/.test(n.name));
    return line && `${line.name} ${line.value}`;
  }
  // Of the number just weighed: 'Cross out', 'Type anew', 'How many', or the pile it was meant for.
  async correct(how) {
    await this.tap(/^Correct/);
    await this.tap(how);
  }
  // Presses a control that saves a file and returns its text.
  async download(press) {
    const [file] = await Promise.all([this.page.waitForEvent('download'), press()]);
    return fs.readFileSync(await file.path(), 'utf8');
  }
  // Opens the picker, from the pieces and back to them, and gives it files: { name, mimeType, buffer } or a path.
  async bring(files) {
    await this.tap('More');
    const [chooser] = await Promise.all(
      [this.page.waitForEvent('filechooser'), this.tap('Import a file')]);
    await chooser.setFiles(files);
  }
  async exported(how = /^Export with names/) {
    await this.sees(/^(More|Close) /); // a piece that is on its way has neither
    // Under an open keypad a small phone has no room for the bar.
    if (!(await app.find(this.page, 'button', 'More'))) await this.tap('Close');
    if (!(await app.find(this.page, 'button', 'Share'))) await this.tap('More');
    await this.tap('Share');
    return this.download(() => this.tap(how));
  }
}

export async function makeTools({ browser, root, screens, quick, accept }) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'tallyblock-test-'));
  const built = process.env.TALLYBLOCK_SITE ?? path.join(root, '.build', 'site'); // another, for trials
  const site = await serveSite(built);
  const contexts = [];
  const faults = []; // errors nobody caught in a page
  let last;
  const look = (page) => {
    last = page;
    page.on('pageerror', (error) => faults.push(error.stack ?? String(error)));
  };
  const t = {
    app, assert, browser, folder, built, site, quick, accept, root, screens, faults,
    async context(options) {
      const made = await phoneContext(browser, options);
      contexts.push(made);
      return made;
    },
    // A page on the app, opened; before(page) is called first.
    async cook({ context, before, as = Cook, ...options } = {}) {
      const page = await (context ?? (await t.context(options))).newPage();
      look(page);
      if (before) await before(page);
      await app.openApp(page, site.url);
      return new as(page);
    },
    watch(page) { look(page); return new Cook(page); },
    picture: async (name) => last?.screenshot({ path: path.join(screens, name + '.png') }),
    // Everything the core derives from an exported file.
    replay(text) {
      const file = path.join(folder, 'session.json');
      fs.writeFileSync(file, text);
      const built = process.env.TALLYBLOCK_REPLAY; // one already built, for trials
      const command = built ? [built, file] : ['bash', path.join(root, 'tests/replay.sh'), file];
      return JSON.parse(execFileSync(command[0], command.slice(1),
        { encoding: 'utf8', maxBuffer: 1 << 26, stdio: ['ignore', 'pipe', 'ignore'] }));
    },
    async close() {
      for (const one of contexts) await one.close();
      await site.close();
      fs.rmSync(folder, { recursive: true, force: true });
    },
  };
  return t;
}
