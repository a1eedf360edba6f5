// Keeps one whole version of the app on the device.
//
// Installing fetches every file of the list and compares its SHA-256; one bad answer and nothing is
// kept, so the version before goes on working. A new version waits until a page says "adopt".

// Copies served from other paths of the same origin share its caches: each calls its own by its path.

const scope = self.registration.scope;
const prefix = `tallyblock-${new URL(scope).pathname} `;
const cacheName = prefix + '@BUILD_ID@';
const files = "@PRECACHE@"; // [[path, sha256 as hex], ...], paths relative to this script

const hex = (buffer) =>
  [...new Uint8Array(buffer)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

async function fetchWhole([path, sha256]) {
  const url = new URL(path, scope).href;
  const response = await fetch(url, { cache: 'reload', credentials: 'same-origin' });
  if (!response.ok) throw new Error(`${path}: status ${response.status}`);
  const bytes = await response.arrayBuffer();
  const found = hex(await crypto.subtle.digest('SHA-256', bytes));
  if (found !== sha256) throw new Error(`${path}: not the file of this version`);
  const type = response.headers.get('Content-Type') ?? 'application/octet-stream';
  return [url, new Response(bytes, {
    headers: { 'Content-Type': type, 'Content-Length': String(bytes.byteLength) },
  })];
}

async function install() {
  const fetched = await Promise.all(files.map(fetchWhole));
  await caches.delete(cacheName);
  const cache = await caches.open(cacheName);
  try {
    for (const [url, response] of fetched) await cache.put(url, response);
  } catch (error) {
    await caches.delete(cacheName);
    throw error;
  }
}

// Before paths counted a cache was named by its build alone: whose it is, its page says.
async function isOld(name) {
  if (!/^tallyblock-[0-9a-f]+$/.test(name)) return false;
  return await (await caches.open(name)).match(new URL('index.html', scope)) !== undefined;
}

async function dropOthers() {
  for (const name of await caches.keys()) {
    const own = name.startsWith(prefix) && name !== cacheName;
    if (own || await isOld(name)) await caches.delete(name);
  }
}

// The stored address for a request, or '' for what is not part of the app.
function storedAddress(request) {
  const url = new URL(request.url);
  url.search = '';
  url.hash = '';
  if (!url.href.startsWith(scope)) return '';
  const path = url.href.slice(scope.length);
  if (files.some(([known]) => known === path)) return url.href;
  // deeper down there may be another copy
  return request.mode === 'navigate' && path === '' ? new URL('index.html', scope).href : '';
}

async function answer(request, address) {
  const cache = await caches.open(cacheName);
  return (await cache.match(address)) ?? fetch(request);
}

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(dropOthers()));
self.addEventListener('message', (event) => {
  if (event.data === 'adopt') self.skipWaiting();
});
self.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET') return;
  const address = storedAddress(event.request);
  if (address !== '') event.respondWith(answer(event.request, address));
});
