// A static server whose answers a test controls, and a second version of a built site.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';

const types = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8', '.webmanifest': 'application/manifest+json',
  '.wasm': 'application/wasm', '.ttf': 'font/ttf', '.png': 'image/png', '.svg': 'image/svg+xml',
};
const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

// Serves `folder` on a free port of this machine.
//   url          address of the site
//   asked        paths asked for so far, in order
//   folder       may be set to another folder: the next version is published
//   spoil(path, how)  from now on that path answers wrongly: 'cut' (half the bytes), 'altered' (one
//                byte changed), 'missing' (404), 'error' (500), 'hangs up', { text } (that instead);
//                undefined: right again
//   caching(name)  what Cache-Control says of a path (default: no-cache)
//   types        { '.js': type }: other types than the right ones; nosniff: whether browsers must keep to them
//   mounts       { 'one/': folder }: further copies below the address
//   compress     send FILE.br where there is one (default true)
export async function serveSite(folder, { compress = true } = {}) {
  const spoilt = new Map();
  const site = {
    folder,
    asked: [],
    caching: () => 'no-cache',
    types: {},
    nosniff: false,
    mounts: {},
    spoil: (name, how) => (how ? spoilt.set(name, how) : spoilt.delete(name)),
  };
  const server = http.createServer((request, response) => {
    const name = decodeURIComponent(new URL(request.url, 'http://x').pathname).slice(1) || 'index.html';
    site.asked.push(name);
    const mount = Object.keys(site.mounts).find((one) => name.startsWith(one));
    const folder = mount ? site.mounts[mount] : site.folder;
    const below = mount ? name.slice(mount.length) || 'index.html' : name;
    const file = path.join(folder, below);
    if (!file.startsWith(folder) || !fs.statSync(file, { throwIfNoEntry: false })?.isFile() ||
        spoilt.get(name) === 'missing') {
      response.writeHead(404, { 'Content-Type': 'text/plain' }).end('missing');
      return;
    }
    const how = spoilt.get(name);
    if (how === 'hangs up') {
      request.socket.destroy();
      return;
    }
    if (how === 'error') {
      response.writeHead(500, { 'Content-Type': 'text/plain' }).end('error');
      return;
    }
    const small = compress && !how && fs.existsSync(file + '.br') &&
      /\bbr\b/.test(request.headers['accept-encoding'] ?? '');
    let bytes = fs.readFileSync(small ? file + '.br' : file);
    if (how === 'cut') bytes = bytes.subarray(0, bytes.length >> 1);
    if (how === 'altered') bytes[bytes.length >> 1] ^= 1;
    if (how?.text !== undefined) bytes = Buffer.from(how.text);
    const type = { ...types, ...site.types }[path.extname(below)] ?? 'application/octet-stream';
    response.writeHead(200, {
      'Content-Type': how?.type ?? type,
      'Content-Length': bytes.length,
      'Cache-Control': site.caching(name),
      ...(site.nosniff ? { 'X-Content-Type-Options': 'nosniff' } : {}),
      ...(small ? { 'Content-Encoding': 'br' } : {}),
    });
    response.end(bytes);
  });
  await new Promise((listening) => server.listen(0, '127.0.0.1', listening));
  // a secure context, as service workers need it
  site.url = `http://localhost:${server.address().port}/`;
  site.close = () => new Promise((closed) => {
    server.close(closed);
    server.closeAllConnections();
  });
  return site;
}

// Build id of a site's folder.
export function buildOf(folder) {
  return /data-build="([^"]*)"/.exec(fs.readFileSync(path.join(folder, 'index.html'), 'utf8'))[1];
}

function filesOf(folder, below = '') {
  return fs.readdirSync(path.join(folder, below), { withFileTypes: true }).flatMap((entry) => {
    const name = path.posix.join(below, entry.name);
    return entry.isDirectory() ? filesOf(folder, name) : [name];
  });
}

// Copies a built site to `to` as another version: other build id, list of hashes to match.
// change(name, text) may alter text files further. Returns the new id.
export function makeVersion(from, to, change = (_name, text) => text) {
  const id = buildOf(from);
  const next = sha256(id + to).slice(0, id.length);
  fs.rmSync(to, { recursive: true, force: true });
  const hashes = [];
  const integrity = (bytes) => `sha256-${createHash('sha256').update(bytes).digest('base64')}`;
  const changed = new Map(); // checksums: then -> now
  const names = filesOf(from).filter((name) => !name.endsWith('.br')).sort();
  const last = ['index.html', 'sw.js'];
  for (const name of [...names.filter((n) => !last.includes(n)), ...last]) {
    let bytes = fs.readFileSync(path.join(from, name));
    const before = integrity(bytes);
    if (/\.(html|js|mjs|css|txt|webmanifest|svg)$/.test(name)) {
      let text = change(name, bytes.toString('utf8').replaceAll(id, next));
      if (name === 'sw.js') {
        text = text.replace(/\[\["[^]*?"\]\]/, JSON.stringify(hashes));
      }
      if (name === 'index.html') {
        // the checksums of the modules, and that of the list they stand in
        const list = (page) => integrity(/<script type="importmap">(.*?)<\/script>/s.exec(page)[1]);
        const first = list(bytes.toString('utf8'));
        for (const [then, now] of changed) text = text.replaceAll(then, now);
        text = text.replace(first, list(text));
      }
      bytes = Buffer.from(text);
    }
    changed.set(before, integrity(bytes));
    if (name !== 'sw.js') hashes.push([name, sha256(bytes)]);
    fs.mkdirSync(path.dirname(path.join(to, name)), { recursive: true });
    fs.writeFileSync(path.join(to, name), bytes);
  }
  return next;
}
