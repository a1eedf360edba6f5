// static_server.mjs [FOLDER [PORT]]: serves a built site on this machine only.
//
// Sends FILE.br where the browser takes Brotli. Everything is revalidated (ETag), the service
// worker's script is never stored. Not meant for the open internet.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.wasm': 'application/wasm',
  '.ttf': 'font/ttf',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.ico': 'image/x-icon',
};

function fileFor(folder, url) {
  let name;
  try {
    name = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return null;
  }
  if (name.endsWith('/')) name += 'index.html';
  const file = path.join(folder, path.normalize(name));
  const inside = file.startsWith(folder + path.sep) && !file.endsWith('.br');
  return inside && fs.statSync(file, { throwIfNoEntry: false })?.isFile() ? file : null;
}

function answer(folder, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { Allow: 'GET, HEAD' }).end();
    return;
  }
  const file = fileFor(folder, request.url);
  if (!file) {
    response.writeHead(404, { 'Content-Type': 'text/plain' }).end('There is no such file.\n');
    return;
  }
  const small = /\bbr\b/.test(request.headers['accept-encoding'] ?? '') && fs.existsSync(`${file}.br`);
  const bytes = fs.readFileSync(small ? `${file}.br` : file);
  const tag = `"${createHash('sha256').update(bytes).digest('hex').slice(0, 16)}"`;
  const headers = {
    'Content-Type': TYPES[path.extname(file)] ?? 'application/octet-stream',
    'Cache-Control': path.basename(file) === 'sw.js' ? 'no-store' : 'no-cache',
    'X-Content-Type-Options': 'nosniff',
    Vary: 'Accept-Encoding',
    ETag: tag,
  };
  if (small) headers['Content-Encoding'] = 'br';
  if (request.headers['if-none-match'] === tag) {
    response.writeHead(304, headers).end();
    return;
  }
  response.writeHead(200, { ...headers, 'Content-Length': bytes.length });
  response.end(request.method === 'HEAD' ? undefined : bytes);
}

// Listens on `port` or, if it is taken, the next free one; port 0: any. -> { url, close }
export async function serve(folder, port = 0) {
  const whole = path.resolve(folder);
  for (let tried = port; tried < port + 100; tried++) {
    const server = http.createServer((request, response) => answer(whole, request, response));
    try {
      await new Promise((listening, failed) => {
        server.once('error', failed);
        server.listen(tried, 'localhost', listening);
      });
    } catch (error) {
      if (error.code === 'EADDRINUSE') continue;
      throw error;
    }
    const close = () =>
      new Promise((closed) => {
        server.close(closed);
        server.closeAllConnections();
      });
    return { url: `http://localhost:${server.address().port}/`, close };
  }
  throw new Error(`No port from ${port} to ${port + 99} is free.`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const [folder = '.build/site', port = '8080'] = process.argv.slice(2);
  try {
    const { url } = await serve(folder, Number(port));
    console.log(`Tallyblock is at ${url} (stop with Ctrl+C)`);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
