import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, test } from 'vitest';
import { readLathe } from '../../src/core/part/read-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { resolveLathe } from '../../src/core/part/resolve-lathe.ts';
import { writePart } from '../../src/core/part/write-part.ts';
import { readBackup, writeBackup } from '../../src/keep/backup.ts';
import { Keeper } from '../../src/keep/autosave.ts';
import { Settings } from '../../src/keep/settings.svelte.ts';
import { NAME, openStore } from '../../src/keep/store.ts';

// One kept example of each version that was ever written. They are never changed: whoever changes a format adds one.
const kept = (name: string) => readFileSync(`tests/keep/formats/${name}`, 'utf8');
const part1 = () => JSON.parse(kept('part-1.json')) as object;

beforeEach(() => {
  localStorage.clear();
  globalThis.indexedDB = new IDBFactory();
});

describe('files of older versions', () => {
  test('a part of version 1 opens with every text as it was written, and goes out with what is not known', () => {
    const read = readPart(kept('part-1.json'), 'part-1.json');
    if (!read.ok) throw new Error(read.problem.say);
    expect(read.value).toMatchObject(part1());
    expect(JSON.parse(writePart(read.value))).toMatchObject(part1());
  });

  test('a lathe of version 1 opens and can be planned for', () => {
    const read = readLathe(kept('lathe-1.json'), 'lathe-1.json');
    if (!read.ok) throw new Error(read.problem.say);
    expect(resolveLathe(read.value).errors).toEqual([]);
  });

  test.each([
    ['backup-1.json', 0, false, 1],
    ['backup-2.json', 1, true, 0],
  ])('%s gives back parts, versions, lathe and pictures', (name, pictures, trashed, versions) => {
    const read = readBackup(kept(name), name);
    if (!read.ok) throw new Error(read.problem.say);
    expect(read.value.pictures).toHaveLength(pictures);
    expect(read.value.lathe?.name).toBe('kept lathe');
    expect(read.value.parts[0]).toMatchObject({ trashed, part: part1() });
    expect(read.value.parts[0]?.versions).toHaveLength(versions);
    expect(readBackup(writeBackup(read.value), 'again')).toEqual(read);
  });

  test.each([
    ['a newer backup', '{"shaftwright_backup": 3, "parts": []}', 'newer-version'],
    ['no list of parts', '{"shaftwright_backup": 2}', 'not-a-backup'],
    [
      'a picture from elsewhere',
      '{"shaftwright_backup": 2, "parts": [], "pictures": ["https://a.test/x.png"]}',
      'not-a-backup',
    ],
    [
      'a drawing with script for a picture',
      '{"shaftwright_backup": 2, "parts": [], "pictures": ["data:image/svg+xml,<svg onload=alert(1)>"]}',
      'not-a-backup',
    ],
    ['a picture that is no text', '{"shaftwright_backup": 2, "parts": [], "pictures": [7]}', 'not-a-backup'],
    [
      'millions of nothings',
      `{"shaftwright_backup": 2, "parts": [${'[],'.repeat(1_500_000)}[]]}`,
      'too-many',
    ],
  ])('%s is refused', (_name, text, code) => {
    const read = readBackup(text, 'x.json');
    expect(read.ok ? null : read.problem.code).toBe(code);
  });
});

describe('what a browser kept before', () => {
  test('settings without the newer ones are taken, and the newer ones are as usual', () => {
    localStorage.setItem('shaftwright.settings', kept('settings-1.json'));
    const settings = new Settings(localStorage);
    expect([settings.unit, settings.theme, settings.page, settings.board]).toEqual(['mm', 'dark', 'a4', 55]);
    expect(readLathe(settings.lathe ?? '', 'kept').ok).toBe(true);
    expect(settings.lathes).toEqual([]);
  });

  test('the one part of the store’s version 1 becomes the first of the library, with steps and ticks', async () => {
    const old = JSON.parse(kept('store-1.json')) as {
      head: { work: object };
      steps: object[];
      bench: { progress: object };
    };
    await inStore(
      1,
      (db) => {
        for (const name of ['head', 'steps', 'bench']) db.createObjectStore(name);
      },
      (tx) => {
        tx('head').put(old.head.work, 'work');
        old.steps.forEach((step, i) => tx('steps').put(step, i));
        tx('bench').put(old.bench.progress, 'progress');
      },
    );
    const keeper = new Keeper(() => undefined);
    const work = await keeper.open();
    expect(work?.part).toMatchObject(part1());
    expect(work?.steps.map(({ did }) => did)).toEqual(['Title to Kept since version 1']);
    expect(work?.position).toBe(1);
    expect(work?.fileCopy?.name).toBe('old.json');
    expect(await keeper.progress()).toEqual(old.bench.progress);
    keeper.close();
  });

  test('a library of version 2 is untouched by what version 3 adds', async () => {
    await inStore(
      2,
      (db) => {
        for (const name of ['cards', 'heads', 'moves', 'versions', 'bench', 'meta'])
          db.createObjectStore(name);
      },
      (tx) => tx('meta').put(7, 'used'),
    );
    const db = await openStore(() => undefined);
    expect(await db.get('meta', 'used')).toBe(7);
    expect([...db.objectStoreNames]).toContain('pictures');
    db.close();
  });
});

/** Makes the store as an older version of the app did. */
function inStore(
  version: number,
  make: (db: IDBDatabase) => void,
  fill: (store: (name: string) => IDBObjectStore) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, version);
    request.onupgradeneeded = () => make(request.result);
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      const tx = request.result.transaction([...request.result.objectStoreNames], 'readwrite');
      fill((name) => tx.objectStore(name));
      tx.oncomplete = () => {
        request.result.close();
        resolve();
      };
    };
  });
}
