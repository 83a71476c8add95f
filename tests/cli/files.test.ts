import { mkdtemp, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readText, writeOut } from '../../src/cli/files.ts';
import { LARGEST_FILE } from '../../src/core/part/read-json.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'files-'));
});
afterAll(() => rm(folder, { recursive: true }));

const file = async (name: string, content: string | Uint8Array) => {
  const path = join(folder, name);
  await writeFile(path, content);
  return path;
};

test('text comes back as it stands, without a byte order mark', async () => {
  const path = await file('mark.json', '\ufeff{"title":"Ø½"}');
  expect(await readText(path)).toEqual({ ok: true, value: '{"title":"Ø½"}' });
});

describe('what is refused, with file, place and reason', () => {
  test.each<[string, () => Promise<string>]>([
    ['no such file', async () => join(folder, 'none.json')],
    ['directory', async () => folder],
    ['not UTF-8', () => file('latin.json', Uint8Array.of(0xd8, 0x31))],
    [
      'larger than 5 MB',
      async () => {
        const path = await file('large.json', '');
        await truncate(path, LARGEST_FILE + 1);
        return path;
      },
    ],
    ['no directory', async () => join(await file('flat', ''), 'below.json')],
  ])('%s', async (reason, make) => {
    const path = await make();
    const read = await readText(path);
    if (read.ok) throw new Error('it was read');
    expect(read.problem.say).toContain(`${path}: the file: `);
    expect(read.problem.say).toContain(reason);
  });
});

test('what cannot be written is said, what can is whole', async () => {
  expect((await writeOut(folder, 'x'))?.say).toContain('it cannot be written: this is a directory');
  expect((await writeOut(join(folder, 'no', 'o.json'), 'x'))?.say).toContain('there is no such file');
  const path = join(folder, 'o.json');
  expect(await writeOut(path, 'x')).toBeNull();
  expect(await readText(path)).toEqual({ ok: true, value: 'x' });
});
