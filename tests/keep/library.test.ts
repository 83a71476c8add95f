import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { setTitle } from '../../src/core/part/part-commands.ts';
import { dropEntry, readEntry, Overtaken, writeEntry, type Work } from '../../src/keep/entry.ts';
import { addEntry, duplicateEntry, listEntries, renameEntry, trashEntry } from '../../src/keep/library.ts';
import { fileKey, freshCard, openStore, type Db } from '../../src/keep/store.ts';
import { keepVersion, listVersions } from '../../src/keep/versions.ts';
import { pin } from '../panels/pin.ts';

let db: Db;
beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  db = await openStore(() => undefined);
});
afterEach(() => {
  db.close();
  vi.restoreAllMocks();
});

const work = (title: string): Work => ({ part: { ...pin, title }, steps: [], position: 0, fileCopy: null });
const titles = async () => (await listEntries(db)).map(({ card }) => card.title);

describe('the library', () => {
  test('lists the one last used first, whatever the clock says', async () => {
    const first = await addEntry(db, work('first'));
    vi.spyOn(Date, 'now').mockReturnValue(0);
    await addEntry(db, work('second'));
    expect(await titles()).toEqual(['second', 'first']);
    await renameEntry(db, first, 'first, renamed');
    expect(await titles()).toEqual(['first, renamed', 'second']);
  });

  test('a renamed part can be had back by undo', async () => {
    const id = await addEntry(db, work('old'));
    await renameEntry(db, id, 'new');
    const entry = await readEntry(db, id);
    expect(entry?.work.steps.map(({ did }) => did)).toEqual([setTitle(pin, 'new').did]);
    expect(entry?.work.position).toBe(1);
  });

  test('a duplicate is a part of its own', async () => {
    const id = await addEntry(db, work('one'));
    const twin = await duplicateEntry(db, id);
    await renameEntry(db, twin ?? '', 'other');
    expect((await titles()).sort()).toEqual(['one', 'other']);
    expect(await duplicateEntry(db, 'none')).toBeNull();
  });

  test('the trash gives back, and dropping takes all of one part and nothing of another', async () => {
    const [a, b] = [await addEntry(db, work('a')), await addEntry(db, work('b'))];
    await trashEntry(db, a, true);
    expect((await listEntries(db)).find(({ card }) => card.id === a)?.card.trashed).toBe(true);
    await trashEntry(db, a, false);
    expect((await listEntries(db)).every(({ card }) => !card.trashed)).toBe(true);
    await db.put('meta', 'a file', fileKey(a));
    await keepVersion(db, { ...freshCard('shelf', null), id: a }, pin, 'named');
    await dropEntry(db, a);
    expect(await titles()).toEqual(['b']);
    expect(await listVersions(db, a)).toEqual([]);
    expect(await db.get('meta', fileKey(a))).toBeUndefined();
    expect(await readEntry(db, b)).not.toBeNull();
  });

  test('a spoilt record costs its own part the newest state, and no other anything', async () => {
    const [a, b] = [await addEntry(db, work('a')), await addEntry(db, work('b'))];
    await renameEntry(db, a, 'a, newest');
    await db.put('heads', { round: 2, part: { text: '{', sum: 1 }, position: 0, count: 0 }, [a, 0]);
    const spoilt = await readEntry(db, a);
    expect(spoilt?.work.part.title).toBe('a');
    expect(spoilt?.mended).toMatch(/last good version/);
    expect((await readEntry(db, b))?.mended).toBeNull();
  });

  test('whoever missed a write may not write over it', async () => {
    const seen = freshCard('own', null);
    const newer = await writeEntry(db, seen, work('first writer'), []);
    await expect(writeEntry(db, seen, work('second writer'), [])).rejects.toBeInstanceOf(Overtaken);
    expect((await readEntry(db, seen.id))?.work.part.title).toBe('first writer');
    await writeEntry(db, newer, work('first again'), []);
    expect((await readEntry(db, seen.id))?.work.part.title).toBe('first again');
  });

  test('every write asks to be on the disk before it is called kept', async () => {
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await addEntry(db, work('a'));
    const writes = transaction.mock.calls.filter(([, mode]) => mode === 'readwrite');
    expect(writes.length).toBeGreaterThan(0);
    for (const [, , options] of writes) expect(options).toEqual({ durability: 'strict' });
  });
});

describe('versions', () => {
  const card = { ...freshCard('own', null), id: 'a' };
  test('those with a name stay, of those the app makes the newest twenty', async () => {
    await keepVersion(db, card, pin, 'as drawn');
    for (let n = 0; n < 25; n += 1) await keepVersion(db, card, { ...pin, title: `${n}` }, null);
    const kept = await listVersions(db, 'a');
    expect(kept).toHaveLength(21);
    expect(kept[0]?.part.title).toBe('24');
    expect(kept.at(-1)?.name).toBe('as drawn');
  });

  test('the same part twice is one version of the app’s own, and two where a person asks', async () => {
    for (const name of [null, null, 'once', 'twice']) await keepVersion(db, card, pin, name);
    expect(await listVersions(db, 'a')).toHaveLength(3);
  });

  test('a spoilt one is left out, the others are there', async () => {
    await keepVersion(db, card, pin, 'good');
    await db.put('versions', { at: 0, name: 'bad', auto: false, part: { text: 'x', sum: 0 } }, ['a', 9]);
    expect((await listVersions(db, 'a')).map(({ name }) => name)).toEqual(['good']);
  });
});
