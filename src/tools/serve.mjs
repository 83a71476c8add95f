// A small server for the built app: node:http, one folder, nothing else. Also what the browser tests talk to.
import { createReadStream } from 'node:fs';
import { readFile, realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { networkInterfaces } from 'node:os';
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

/**
 * The policy that the app's own page carries, as a header: so it holds for workers too, and nobody puts the page in a frame.
 * Nothing where the folder's page has none.
 */
async function policyOf(folder) {
  const page = await readFile(join(folder, 'index.html'), 'utf8').catch(() => '');
  const [, policy] = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(page) ?? [];
  return policy ? { 'Content-Security-Policy': `${policy}; frame-ancestors 'none'` } : {};
}

function answer(response, status, text, more = {}) {
  response.writeHead(status, { ...common, 'Content-Type': 'text/plain; charset=utf-8', ...more });
  response.end(`${text}\n`);
}

async function handle(folder, policy, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return answer(response, 405, 'Only GET and HEAD.', { Allow: 'GET, HEAD' });
  const file = await fileFor(folder, request.url);
  if (!file) return answer(response, 404, 'Not found.');
  const type = types.get(extname(file.path).toLowerCase()) ?? 'application/octet-stream';
  response.writeHead(200, { ...common, ...policy, 'Content-Type': type, 'Content-Length': file.size });
  if (request.method === 'HEAD') return response.end();
  createReadStream(file.path)
    .on('error', () => response.destroy())
    .pipe(response);
}

const ONLY_HERE = '127.0.0.1';

/** Listens on an address of this machine; rejects where the port is taken. */
function listen(server, port, host) {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve(server);
    });
  });
}

/** Where other devices of the same network reach this machine: every address of it that is not only its own. */
const homeAddresses = (port) =>
  Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => `http://${address}:${port}/`);

/**
 * Serves the files of `folder`: on this machine only, or to every device of its network where they are shared. `port`
 * null takes the first free one from 4173 on; 0 any.
 * @returns The address to open here, those that other devices open (none where not shared), and `close()`.
 * @throws Error where the folder is missing, or a port that was asked for is taken.
 */
export async function serve(folder, port = null, shared = false) {
  const root = await realpath(folder);
  const policy = await policyOf(root);
  const ports = port === null ? Array.from({ length: 50 }, (_, i) => 4173 + i) : [port];
  for (const [i, candidate] of ports.entries()) {
    const server = createServer((request, response) => void handle(root, policy, request, response));
    try {
      await listen(server, candidate, shared ? '0.0.0.0' : ONLY_HERE);
    } catch (fault) {
      if (fault?.code === 'EADDRINUSE' && i < ports.length - 1) continue;
      throw fault;
    }
    const close = () =>
      new Promise((resolve) => {
        server.close(resolve);
        server.closeAllConnections();
      });
    const { port: taken } = server.address();
    const others = shared ? homeAddresses(taken) : [];
    return { address: `http://${ONLY_HERE}:${taken}/`, others, close };
  }
  throw new Error('No port from 4173 to 4222 is free; set PORT.');
}
