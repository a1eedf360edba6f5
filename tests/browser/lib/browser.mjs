// Debian's Chromium with a phone's screen and touch, driven by playwright-core.
//
// TALLYBLOCK_CHROMIUM names another browser; NODE_PATH or the project's cache holds the driver.
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';

const cache = process.env.TALLYBLOCK_CACHE ?? path.join(os.homedir(), '.cache', 'tallyblock');
const places = [...(process.env.NODE_PATH ?? '').split(':'), path.join(cache, 'npm', 'node_modules')];

// Where a file of a package of shell/tools/package.json is, e.g. of 'axe-core'.
export function toolPath(name, file = '') {
  const place = places.filter(Boolean).find((one) => fs.existsSync(path.join(one, name)));
  if (!place) throw new Error(`${name} is not installed: run shell/tools/toolchain.sh checks`);
  return path.join(place, name, file);
}

// A package itself.
export const tool = (name) => createRequire(path.join(toolPath(name), '..', 'x.js'))(name);

// One canvas pixel per CSS pixel: software draws a seventh of what a phone's screen has, so that a
// tap takes a fifth of the time. Tests about drawing and the measurements use `sharp`.
export const phone = {
  viewport: { width: 412, height: 915 },
  deviceScaleFactor: 1,
  hasTouch: true,
  isMobile: true,
  locale: 'en-IE', // grams, euros, a decimal point: what the tests type and read
  timezoneId: 'Europe/Berlin',
};

export const sharp = { deviceScaleFactor: 2.625 };

const flags = ['--no-sandbox', '--disable-gpu', '--use-gl=angle', '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync'];

const options = (more) => ({
  executablePath: process.env.TALLYBLOCK_CHROMIUM ?? '/usr/bin/chromium',
  headless: true,
  args: [...flags, ...(more ?? [])],
});

// A browser whose contexts are private ones: each starts empty.
export function launch({ args } = {}) {
  return tool('playwright-core').chromium.launch(options(args));
}

// One context kept in `folder`, which outlives the browser's process. Returns the context.
export function launchKept(folder, { args, ...context } = {}) {
  return tool('playwright-core').chromium.launchPersistentContext(folder, {
    ...options(args), ...phone, ...context,
  });
}

// A context with a phone's screen. Files are saved as downloads: no save picker, no share sheet.
export async function phoneContext(browser, context = {}) {
  const made = await browser.newContext({ ...phone, acceptDownloads: true, ...context });
  await made.addInitScript(() => {
    delete window.showSaveFilePicker;
    delete Navigator.prototype.share;
    delete Navigator.prototype.canShare;
  });
  return made;
}
