import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { workerFor } from '../../src/tools/offline.mjs';

let dist = '';
beforeEach(async () => {
  dist = await mkdtemp(join(tmpdir(), 'dist-'));
  await mkdir(join(dist, 'fonts'));
  await writeFile(join(dist, 'index.html'), '<h1>app</h1>');
  await writeFile(join(dist, 'app.js'), 'app');
  await writeFile(join(dist, 'fonts', 'drawing.ttf'), 'drawing');
  await writeFile(join(dist, 'fonts', 'thai.ttf'), 'thai');
});
afterEach(() => rm(dist, { recursive: true }));

type Handler = (event: Record<string, unknown>) => void;
type Answer = { readonly from: string; readonly ok?: boolean };

/** A service worker's surroundings: caches in memory, and a network that can be cut. */
class Surroundings {
  readonly stores = new Map<string, Map<string, Answer>>();
  readonly handlers = new Map<string, Handler>();
  readonly asked: string[] = [];
  online = true;
  skipped = 0;

  readonly fetch = async (request: string | { url: string }): Promise<Answer> => {
    const url = this.#url(request);
    this.asked.push(url);
    if (!this.online) throw new TypeError('no network');
    return { from: `network ${url}` };
  };

  #url(request: string | { url: string }) {
    return new URL(typeof request === 'string' ? request : request.url, 'http://shop/app/').href;
  }

  #cache(name: string) {
    const store = this.stores.get(name) ?? new Map<string, Answer>();
    this.stores.set(name, store);
    const add = async (request: { url: string }) => {
      store.set(this.#url(request), { from: `cache ${(await this.fetch(request)).from}` });
    };
    return {
      add,
      addAll: async (requests: { url: string }[]) => void (await Promise.all(requests.map(add))),
      match: async (request: string | { url: string }) => store.get(this.#url(request).split('?')[0] ?? ''),
    };
  }

  start(script: string) {
    const caches = {
      open: async (name: string) => this.#cache(name),
      keys: async () => [...this.stores.keys()],
      delete: async (name: string) => this.stores.delete(name),
    };
    class Request {
      readonly url: string;
      readonly cache: string;
      constructor(url: string, { cache }: { cache: string }) {
        this.url = url;
        this.cache = cache;
      }
    }
    const self = {
      registration: { scope: 'http://shop/app/' },
      clients: { claim: async () => undefined },
      skipWaiting: () => (this.skipped += 1),
      addEventListener: (kind: string, handler: Handler) => this.handlers.set(kind, handler),
    };
    new Function('self', 'caches', 'fetch', 'Request', script)(self, caches, this.fetch, Request);
  }

  /** Sends an event and waits for what it set going; gives what it was answered with, or null. */
  async send(kind: string, event: Record<string, unknown> = {}): Promise<Answer | null> {
    const pending: Promise<unknown>[] = [];
    let answer: Promise<Answer> | null = null;
    this.handlers.get(kind)?.({
      ...event,
      waitUntil: (promise: Promise<unknown>) => pending.push(promise),
      respondWith: (promise: Promise<Answer>) => (answer = promise),
    });
    await Promise.all(pending);
    return answer;
  }

  get = (url: string, mode = 'cors', method = 'GET') =>
    this.send('fetch', { request: { url, mode, method } });
}

const installed = async () => {
  const browser = new Surroundings();
  browser.start(await workerFor(dist));
  await browser.send('install');
  await browser.send('activate');
  return browser;
};

describe('with the network off', () => {
  test('pages and files come from what was kept', async () => {
    const browser = await installed();
    await browser.get('http://shop/app/', 'navigate');
    browser.online = false;
    for (const path of ['', 'app.js', 'fonts/drawing.ttf', 'fonts/thai.ttf'])
      expect((await browser.get(`http://shop/app/${path}`))?.from).toBe(
        `cache network http://shop/app/${path}`,
      );
    expect((await browser.get('http://shop/app/?x=1', 'navigate'))?.from).toContain('cache');
    expect((await browser.get('http://shop/app/none', 'navigate'))?.from).toBe(
      'cache network http://shop/app/',
    );
  });

  test('what was never kept fails, as a control', async () => {
    const browser = await installed();
    browser.online = false;
    await expect(browser.get('http://shop/app/none.js')).rejects.toThrow('no network');
  });
});

test('rare fonts do not hold up the installation', async () => {
  const browser = new Surroundings();
  browser.start(await workerFor(dist));
  await browser.send('install');
  expect(browser.asked).not.toContain('http://shop/app/fonts/thai.ttf');
  expect(browser.asked).toContain('http://shop/app/fonts/drawing.ttf');
});

test('requests elsewhere and those that change something are left alone', async () => {
  const browser = await installed();
  expect(await browser.get('http://elsewhere/app.js')).toBeNull();
  expect(await browser.get('http://shop/app/app.js', 'cors', 'POST')).toBeNull();
});

/** The next build: one file changed, the old one gone from the host. */
async function builtAgain(browser: Surroundings, name: string) {
  await rm(join(dist, (await readdir(dist)).find((file) => file.startsWith('app')) ?? ''));
  await writeFile(join(dist, name), name);
  browser.start(await workerFor(dist));
  await browser.send('install');
}

test('a new build waits until told, and touches nobody else’s cache', async () => {
  const browser = await installed();
  browser.stores.set('somebody-else', new Map());
  await builtAgain(browser, 'app-2.js');
  expect(browser.skipped).toBe(0);
  await browser.send('message', { data: 'something' });
  expect(browser.skipped).toBe(0);
  await browser.send('message', { data: 'take-over' });
  expect(browser.skipped).toBe(1);
  await browser.send('activate');
  expect([...browser.stores.keys()]).toContain('somebody-else');
});

test('a window with the build before still finds its files under the new worker; older ones are dropped', async () => {
  const browser = await installed();
  const [oldest] = browser.stores.keys();
  for (const name of ['app-2.js', 'app-3.js']) {
    await builtAgain(browser, name);
    await browser.send('activate');
  }
  browser.online = false;
  expect((await browser.get('http://shop/app/app-3.js'))?.from).toContain('cache');
  expect((await browser.get('http://shop/app/app-2.js'))?.from).toContain('cache');
  await expect(browser.get('http://shop/app/app.js')).rejects.toThrow('no network');
  expect([...browser.stores.keys()]).not.toContain(oldest);
  expect(browser.stores.size).toBe(2);
});

test('the cache is named after names and contents: the same build is the same worker', async () => {
  const before = await workerFor(dist);
  await writeFile(join(dist, 'sw.js'), before);
  expect(await workerFor(dist)).toBe(before);
  await writeFile(join(dist, 'fonts', 'thai.ttf'), 'thai 2');
  expect(await workerFor(dist)).not.toBe(before);
});
