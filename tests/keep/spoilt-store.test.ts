import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { setTitle } from '../../src/core/part/part-commands.ts';
import { Keeper, type KeepState } from '../../src/keep/autosave.ts';
import { readEntry, writeEntry, type Work } from '../../src/keep/entry.ts';
import { record } from '../../src/keep/history.ts';
import { addEntry, listEntries, trashEntry } from '../../src/keep/library.ts';
import { Pictures } from '../../src/keep/picture/pictures.ts';
import { openStore, type Db } from '../../src/keep/store.ts';
import { keepVersion, listVersions } from '../../src/keep/versions.ts';
import { pin } from '../panels/pin.ts';

let db: Db;
let hurt = '';
let other = '';

const work = (title: string): Work => ({ part: { ...pin, title }, steps: [], position: 0, fileCopy: null });

/** Two parts: one to be hurt, with a step, a version and two heads, on the board at the last visit; one to be let alone. */
beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  db = await openStore(() => undefined);
  other = await addEntry(db, work('other'));
  hurt = await addEntry(db, work('hurt'));
  const first = await readEntry(db, hurt);
  if (!first) throw new Error('what was just kept is not there');
  const change = setTitle(first.work.part, 'hurt, newer');
  const history = record(first.work, { kind: 'change', at: 1, ...change });
  const newer = { ...first.work, ...history, part: { ...first.work.part, title: 'hurt, newer' } };
  await writeEntry(db, first.card, newer, []);
  await keepVersion(db, first.card, first.work.part, null);
  await db.put('meta', hurt, 'current');
  await db.put('bench', { at: 3 }, hurt);
});
afterEach(() => db.close());

/** What may stand where a record was: other kinds, and records whose fields are of other kinds. */
const rubbish: readonly unknown[] = [
  undefined,
  null,
  NaN,
  7,
  'rubbish',
  [],
  {},
  { id: 5, round: 'x', used: null, title: {}, part: null },
  { round: Number.NaN, part: 'x', position: -1, count: Infinity, at: 'now', name: null, text: 5 },
  { round: 1e9, part: { text: '{"x":', sum: 1 }, position: 0, count: 0, at: 1, name: '', auto: true },
];
const places: readonly [store: 'cards' | 'heads' | 'moves' | 'versions' | 'meta' | 'bench', nth: number][] = [
  ['cards', 0],
  ['heads', 0],
  ['heads', 1],
  ['moves', 0],
  ['versions', 0],
  ['meta', 0],
  ['meta', 1],
  ['bench', 0],
];
const cases = places.flatMap(([store, nth]) => rubbish.map((value, i) => [store, nth, i, value] as const));

/** Writes over the `nth` record of the hurt part in a store, or of all records where they belong to no part. */
async function spoil(store: (typeof places)[number][0], nth: number, value: unknown): Promise<void> {
  const keys = (await db.getAllKeys(store)).filter((key) => store === 'meta' || [key].flat()[0] === hurt);
  const key = keys[nth];
  if (key === undefined) throw new Error(`there is no record ${nth} in ${store}`);
  const tx = db.transaction(store, 'readwrite');
  await (tx.store as unknown as { put(value: unknown, key: unknown): Promise<unknown> }).put(value, key);
  await tx.done;
}

describe('rubbish in place of one record of a part', () => {
  test.each(cases)(
    '%s %d, rubbish %d: the part opens, the others are there, work goes on',
    async (store, nth, _i, value) => {
      await spoil(store, nth, value);
      const said: KeepState[] = [];
      const keeper = new Keeper((state) => said.push(state));
      const entry = await keeper.openLast();
      expect(said.at(-1)).toEqual({ kind: 'kept' });
      // Where the one on the board was noted stands rubbish: it is in the list all the same.
      const opened = entry ?? (await keeper.openEntry(hurt));
      expect(opened?.work.part.title).toMatch(/^hurt/);

      const shelf = await listEntries(db);
      expect(shelf.map(({ card }) => card.id).sort()).toEqual([hurt, other].sort());
      expect(shelf.find(({ card }) => card.id === other)).toMatchObject({
        part: { title: 'other' },
        mended: null,
      });
      expect(shelf.find(({ card }) => card.id === hurt)?.part?.title).toMatch(/^hurt/);
      await listVersions(db, hurt);

      keeper.keep(work('hurt, and worked on'));
      await keeper.settled();
      expect(said.at(-1)).toEqual({ kind: 'kept' });
      expect((await readEntry(db, hurt))?.work.part.title).toBe('hurt, and worked on');
      await trashEntry(db, hurt, true);
      const thrown = (await listEntries(db)).find(({ card }) => card.id === hurt);
      expect(thrown).toMatchObject({ card: { trashed: true }, part: { title: 'hurt, and worked on' } });
      keeper.close();
    },
  );
});

test.each(rubbish)('rubbish in place of a picture is a picture that is lost: %j', async (value) => {
  const before = new Pictures(() => db);
  const key = before.hold('data:image/png;base64,iVBORw0KGgo=');
  await expect.poll(() => db.count('pictures')).toBe(1);
  const tx = db.transaction('pictures', 'readwrite');
  await (tx.store as unknown as { put(value: unknown, key: unknown): Promise<unknown> }).put(value, key);
  await tx.done;
  const after = new Pictures(() => db);
  expect(await after.find(key)).toBeNull();
  await after.tidy(Date.now());
});

test('a part of which nothing can be read is said to be lost, and the others are there', async () => {
  for (const store of ['heads', 'versions'] as const)
    for (const key of await db.getAllKeys(store)) {
      if (key[0] === hurt) await db.put(store, { rubbish: true } as never, key);
    }
  const keeper = new Keeper(() => undefined);
  expect(await keeper.openLast()).toBeNull();
  expect(keeper.lostLast).toBe(true);
  const shelf = await listEntries(db);
  expect(shelf.find(({ card }) => card.id === hurt)?.part).toBeNull();
  expect(shelf.find(({ card }) => card.id === other)?.part?.title).toBe('other');
  keeper.close();
});
