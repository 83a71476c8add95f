import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { createServer, request, type Server } from 'node:http';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serve } from '../../src/tools/serve.mjs';

let folder = '';
let at = { address: '', close: async () => {} };
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'serve-'));
  const dist = join(folder, 'dist');
  await mkdir(join(dist, 'fonts'), { recursive: true });
  await writeFile(join(dist, 'index.html'), '<h1>app</h1>');
  await writeFile(join(dist, 'app.js'), 'export {};');
  await writeFile(join(dist, 'a b.css'), 'a{}');
  await writeFile(join(dist, 'fonts', 'x.ttf'), 'font');
  await writeFile(join(dist, '.hidden'), 'secret');
  await writeFile(join(folder, 'outside.txt'), 'secret');
  await symlink(join(folder, 'outside.txt'), join(dist, 'link.txt'));
  at = await serve(dist, 0);
});
afterAll(async () => {
  await at.close();
  await rm(folder, { recursive: true });
});

/** Sends `path` as it stands; fetch would tidy it first. */
function ask(path: string, method = 'GET') {
  const { hostname, port } = new URL(at.address);
  return new Promise<{ status: number; type: string; body: string; length: string }>((resolve, reject) => {
    request({ hostname, port, path, method }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (chunk: string) => (body += chunk));
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          type: response.headers['content-type'] ?? '',
          length: response.headers['content-length'] ?? '',
          body,
        }),
      );
    })
      .on('error', reject)
      .end();
  });
}

test('it listens on this machine only', () => {
  expect(new URL(at.address).hostname).toBe('127.0.0.1');
});

describe('files with their types', () => {
  test.each([
    ['/', 'text/html; charset=utf-8', '<h1>app</h1>'],
    ['/index.html?x=1#y', 'text/html; charset=utf-8', '<h1>app</h1>'],
    ['/app.js', 'text/javascript; charset=utf-8', 'export {};'],
    ['/a%20b.css', 'text/css; charset=utf-8', 'a{}'],
    ['/fonts/x.ttf', 'font/ttf', 'font'],
  ])('%s', async (path, type, body) => {
    expect(await ask(path)).toMatchObject({ status: 200, type, body, length: String(body.length) });
  });

  test('a head has no body', async () => {
    expect(await ask('/app.js', 'HEAD')).toMatchObject({ status: 200, body: '', length: '10' });
  });
});

describe('nothing else', () => {
  test.each([
    '/none.js',
    '/fonts',
    '/fonts/',
    '/../outside.txt',
    '/fonts/../../outside.txt',
    '/%2e%2e/outside.txt',
    '/..%2foutside.txt',
    '/fonts/..%5c..%5coutside.txt',
    '/link.txt',
    '/.hidden',
    '//app.js',
    '/app.js%00',
    '/%',
    '*',
  ])('%s', async (path) => {
    const { status, body } = await ask(path);
    expect(status).toBe(404);
    expect(body).not.toContain('secret');
  });

  test.each(['POST', 'PUT', 'DELETE'])('%s is not taken', async (method) => {
    expect((await ask('/app.js', method)).status).toBe(405);
  });
});

test('a port that is asked for and taken is said, not passed over', async () => {
  const other: Server = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const address = other.address();
  const port = address && typeof address === 'object' ? address.port : 0;
  await expect(serve(join(folder, 'dist'), port)).rejects.toMatchObject({ code: 'EADDRINUSE' });
  await new Promise((resolve) => other.close(resolve));
});

test('without a port the first free one from 4173 on serves, so two can run side by side', async () => {
  const one = await serve(join(folder, 'dist'));
  const two = await serve(join(folder, 'dist'));
  const ports = [one, two].map(({ address }) => Number(new URL(address).port));
  for (const port of ports) expect(port).toBeGreaterThanOrEqual(4173);
  expect(ports[0]).not.toBe(ports[1]);
  await Promise.all([one.close(), two.close()]);
});

test('a folder that was never built is an error', async () => {
  await expect(serve(join(folder, 'none'), 0)).rejects.toThrow();
});

test('other devices reach it only where it is shared', async () => {
  const dist = join(folder, 'dist');
  const home = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .find(({ family, internal }) => family === 'IPv4' && !internal)?.address;
  const opened = (address: string) =>
    fetch(address).then(
      ({ status }) => status,
      () => 'closed',
    );
  const alone = await serve(dist, 0);
  expect(alone.others).toEqual([]);
  const shared = await serve(dist, 0, true);
  expect(await opened(shared.address)).toBe(200);
  if (home !== undefined) {
    const portOf = (address: string) => new URL(address).port;
    expect(await opened(`http://${home}:${portOf(alone.address)}/`)).toBe('closed');
    expect(shared.others).toContain(`http://${home}:${portOf(shared.address)}/`);
    expect(await opened(`http://${home}:${portOf(shared.address)}/`)).toBe(200);
  }
  await Promise.all([alone.close(), shared.close()]);
});

describe('the policy of the page', () => {
  const header = async (folder: string, path = '') => {
    const site = await serve(folder, 0);
    const answer = await fetch(`${site.address}${path}`);
    await answer.text();
    await site.close();
    return answer.headers.get('content-security-policy');
  };

  test('goes along with every file as a header, with no frame round it', async () => {
    const site = join(folder, 'with-policy');
    await mkdir(site);
    const source = await readFile(new URL('../../src/index.html', import.meta.url), 'utf8');
    await writeFile(join(site, 'index.html'), source);
    await writeFile(join(site, 'some.worker.js'), '');
    const [, policy = 'none'] = /content="(default-src[^"]+)"/.exec(source) ?? [];
    expect(await header(site)).toBe(`${policy}; frame-ancestors 'none'`);
    expect(await header(site, 'some.worker.js')).toBe(`${policy}; frame-ancestors 'none'`);
  });

  test('allows scripts from the app itself only: none inline, none from text, and asks for trusted types', async () => {
    const policy = (await header(join(folder, 'with-policy'))) ?? '';
    const rules = new Map(
      policy.split(';').map((rule) => {
        const [name = '', ...values] = rule.trim().split(/\s+/);
        return [name, values] as const;
      }),
    );
    expect(rules.get('default-src')).toEqual(["'none'"]);
    expect(rules.get('script-src')).toEqual(["'self'"]);
    expect(rules.get('worker-src')).toEqual(["'self'"]);
    expect(rules.get('connect-src')).toEqual(["'self'"]);
    expect(rules.get('object-src')).toEqual(["'none'"]);
    expect(rules.get('base-uri')).toEqual(["'none'"]);
    expect(rules.get('require-trusted-types-for')).toEqual(["'script'"]);
    expect(policy).not.toContain('unsafe-eval');
    expect(policy).not.toMatch(/https?:/);
  });

  test('a folder whose page has none is served without', async () => {
    expect(await header(join(folder, 'dist'))).toBeNull();
  });
});
