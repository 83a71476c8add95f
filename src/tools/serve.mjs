// A small server for the built app: node:http, one folder, nothing else. Also what the browser tests talk to.
import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';

const types = new Map([
  ['.css', 'text/css; charset=utf-8'],
  ['.html', 'text/html; charset=utf-8'],
  ['.ico', 'image/x-icon'],
  ['.js', 'text/javascript; charset=utf-8'],
  ['.json', 'application/json; charset=utf-8'],
  ['.map', 'application/json; charset=utf-8'],
  ['.md', 'text/plain; charset=utf-8'],
  ['.pdf', 'application/pdf'],
  ['.png', 'image/png'],
  ['.svg', 'image/svg+xml'],
  ['.ttf', 'font/ttf'],
  ['.txt', 'text/plain; charset=utf-8'],
  ['.wasm', 'application/wasm'],
  ['.webmanifest', 'application/manifest+json'],
  ['.woff2', 'font/woff2'],
]);

/** The names in a request's path, decoded; null where it is no path below the folder. */
function namesIn(url) {
  const path = (url ?? '').split(/[?#]/, 1)[0] ?? '';
  if (!path.startsWith('/')) return null;
  try {
    const names = decodeURIComponent(path).split('/').slice(1);
    const sound = (name, i) =>
      (name !== '' || i === names.length - 1) && !name.startsWith('.') && !/[\\\p{Cc}:]/u.test(name);
    return names.every(sound) ? names : null;
  } catch {
    return null;
  }
}

/** The regular file that a request means, and its size; null where there is none inside `folder`. */
async function fileFor(folder, url) {
  const names = namesIn(url);
  if (!names) return null;
  if (names.at(-1) === '') names[names.length - 1] = 'index.html';
  try {
    const path = await realpath(join(folder, ...names));
    if (!path.startsWith(folder + sep)) return null; // a link that leads out
    const found = await stat(path);
    return found.isFile() ? { path, size: found.size } : null;
  } catch {
    return null;
  }
}

const common = {
  'Cache-Control': 'no-cache',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

function answer(response, status, text, more = {}) {
  response.writeHead(status, { ...common, 'Content-Type': 'text/plain; charset=utf-8', ...more });
  response.end(`${text}\n`);
}

async function handle(folder, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return answer(response, 405, 'Only GET and HEAD.', { Allow: 'GET, HEAD' });
  const file = await fileFor(folder, request.url);
  if (!file) return answer(response, 404, 'Not found.');
  const type = types.get(extname(file.path).toLowerCase()) ?? 'application/octet-stream';
  response.writeHead(200, { ...common, 'Content-Type': type, 'Content-Length': file.size });
  if (request.method === 'HEAD') return response.end();
  createReadStream(file.path)
    .on('error', () => response.destroy())
    .pipe(response);
}

/** Listens on 127.0.0.1; rejects where the port is taken. */
function listen(server, port) {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      resolve(server);
    });
  });
}

/**
 * Serves the files of `folder` on this machine only. `port` null takes the first free one from 4173 on; 0 any.
 * @returns The address to open, and `close()`.
 * @throws Error where the folder is missing, or a port that was asked for is taken.
 */
export async function serve(folder, port = null) {
  const root = await realpath(folder);
  const ports = port === null ? Array.from({ length: 50 }, (_, i) => 4173 + i) : [port];
  for (const [i, candidate] of ports.entries()) {
    const server = createServer((request, response) => void handle(root, request, response));
    try {
      await listen(server, candidate);
    } catch (fault) {
      if (fault?.code === 'EADDRINUSE' && i < ports.length - 1) continue;
      throw fault;
    }
    const close = () =>
      new Promise((resolve) => {
        server.close(resolve);
        server.closeAllConnections();
      });
    return { address: `http://127.0.0.1:${server.address().port}/`, close };
  }
  throw new Error('No port from 4173 to 4222 is free; set PORT.');
}
