// After vite build: writes dist/licences.md, and dist/sw.js, the service worker that keeps the app usable with the network off.
import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { licenceTexts } from './third-party.mjs';

const WORKER = 'sw.js';

// Fonts for scripts that few titles need are most of the app's bytes: they follow when the page stands, as do the licences
// and what unpacks JPEG 2000.
// What draws the pages in Print is not among them: someone may go out to the shed right after the first visit.
const LATER = /^(?:fonts\/(?!drawing\.ttf$)|licences\.md$|assets\/openjpeg)/;

/** All files below `folder`, with forward slashes, sorted. */
async function filesIn(folder) {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) =>
      relative(folder, join(entry.parentPath ?? entry.path, entry.name))
        .split(sep)
        .join('/'),
    )
    .filter((file) => file !== WORKER)
    .sort();
}

/**
 * The service worker for a built folder. Its cache is named after every name and content, so that a changed build
 * never mixes with an older one: an open page keeps its own files until it is told to take over, and finds them still
 * where another window has told so.
 */
export async function workerFor(folder) {
  const files = await filesIn(folder);
  const hash = createHash('sha256');
  for (const file of files) hash.update(`${file}\0`).update(await readFile(join(folder, file)));
  const urls = (list) => list.map((file) => (file === 'index.html' ? './' : `./${encodeURI(file)}`));
  const first = urls(files.filter((file) => !LATER.test(file)));
  const later = urls(files.filter((file) => LATER.test(file)));
  return script(`shaftwright-${hash.digest('hex').slice(0, 16)}`, first, later);
}

const script = (name, first, later) => `// Written by src/tools/offline.mjs; do not edit.
const NAME = ${JSON.stringify(name)};
const FIRST = ${JSON.stringify(first, null, 1)};
const LATER = ${JSON.stringify(later, null, 1)};
const start = new URL('./', self.registration.scope).href;
const fresh = (url) => new Request(url, { cache: 'reload' });

// In the order they were made.
const ours = async () => (await caches.keys()).filter((name) => name.startsWith('shaftwright-'));

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(NAME).then((cache) => cache.addAll(FIRST.map(fresh))));
});

self.addEventListener('activate', (event) => {
  const dropOlder = async () => {
    const older = (await ours()).filter((name) => name !== NAME);
    // The last one stays: a window that is still open with it may want a file that only it holds.
    await Promise.all(older.slice(0, -1).map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(dropOlder());
});

self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting();
});

// From the cache, else from that of the build before, for a window that has not been loaded again; else from the
// network. A page that is not kept is the app itself. Names of scripts carry a hash: builds cannot be mixed up.
async function answer(request) {
  const cache = await caches.open(NAME);
  const page = request.mode === 'navigate';
  const kept = await cache.match(request, { ignoreSearch: page });
  if (kept) return kept;
  if (page) return (await cache.match(start)) ?? fetch(request);
  for (const name of (await ours()).reverse()) {
    const older = await (await caches.open(name)).match(request);
    if (older) return older;
  }
  return fetch(request);
}

// One after the other, so that nothing the page waits for is held up; what fails is tried again at the next start.
async function fetchLater() {
  const cache = await caches.open(NAME);
  for (const url of LATER) if (!(await cache.match(url))) await cache.add(fresh(url)).catch(() => undefined);
}
let filling;

self.addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  if (method !== 'GET' || !url.startsWith(start)) return;
  event.respondWith(answer(event.request));
  filling ??= fetchLater();
  event.waitUntil(filling);
});
`;

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const top = fileURLToPath(new URL('../..', import.meta.url));
  const dist = process.argv[2] ?? join(top, 'dist');
  await writeFile(join(dist, 'licences.md'), await licenceTexts(top));
  await writeFile(join(dist, WORKER), await workerFor(dist));
}
