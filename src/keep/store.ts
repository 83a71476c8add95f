import { deleteDB, openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { seal, type Sealed } from './sealed.ts';

/** How an entry came about: along with the app, and gone again if it is left untouched; on the board; on the shelf. */
export type Origin = 'app' | 'own' | 'shelf';

/** What is known of a kept part besides itself. `round` counts its writes: who did not see the last one may not write. */
export type Card = {
  readonly id: string;
  readonly title: string;
  readonly origin: Origin;
  readonly round: number;
  /** Place in the order of last use. Counted, as clocks go back. */
  readonly used: number;
  readonly touched: number;
  readonly trashed: boolean;
  readonly fileCopy: { readonly name: string; readonly at: number } | null;
  /** The entry that was on the board before this one was opened; undo of the opening leads back to it. */
  readonly from: string | null;
};

/** The part as it stands. Two lie side by side, written by turns: a spoilt one leaves the one before. */
export type Head = {
  readonly round: number;
  readonly part: Sealed;
  readonly position: number;
  readonly count: number;
};

export type VersionRecord = {
  readonly at: number;
  readonly name: string;
  /** Made by the app at the start of a visit, not by the person. */
  readonly auto: boolean;
  readonly part: Sealed;
};

export interface Store extends DBSchema {
  cards: { key: string; value: Card };
  heads: { key: [string, number]; value: Head };
  moves: { key: [string, number]; value: Sealed };
  versions: { key: [string, number]; value: VersionRecord };
  bench: { key: string; value: unknown };
  /** Pictures that are traced, as data URLs, by the key that parts name them by. */
  pictures: { key: string; value: { readonly url: string; readonly at: number } };
  meta: { key: string; value: unknown };
}
export type Db = IDBPDatabase<Store>;

/** The card of an entry that nothing was written of yet. Over plain http a browser has no `randomUUID`. */
export function freshCard(origin: Origin, from: string | null): Card {
  const id = crypto.randomUUID?.() ?? `${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`;
  const unused = { round: 0, used: 0, touched: Date.now(), trashed: false, fileCopy: null };
  return { id, title: '', origin, from, ...unused };
}

/** Whether a record is a card; anything may stand in a store that was damaged. */
export const isCard = (value: unknown): value is Card => {
  if (typeof value !== 'object' || value === null) return false;
  const { id, title, round, used, touched } = value as Record<string, unknown>;
  return typeof id === 'string' && typeof title === 'string' && [round, used, touched].every(Number.isFinite);
};

/** The card that stands in for a damaged one: what there is of the part is found again by its id. */
export const standInCard = (id: string, round: number): Card => ({
  ...freshCard('own', null),
  ...{ id, round },
});

export const NAME = 'shaftwright';
/** 1 kept one part; 2 keeps a library; 3 keeps traced pictures beside it. */
const VERSION = 3;

/** Empties the store; for tests and for a person who wants to start afresh. */
export const forgetAll = (): Promise<void> => deleteDB(NAME);

/**
 * Opens the store, and carries over what an older version of the app kept. `onlost` is called where the browser
 * closes it, or a newer version of the app in another window needs it.
 */
export function openStore(onlost: () => void): Promise<Db> {
  return openDB<Store>(NAME, VERSION, {
    async upgrade(db, from, _to, tx) {
      db.createObjectStore('pictures');
      if (from >= 2) return;
      for (const name of ['cards', 'heads', 'moves', 'versions', 'meta'] as const) db.createObjectStore(name);
      if (from < 1) db.createObjectStore('bench');
      else await carryOver(db, tx);
    },
    blocking(_now, _next, event) {
      (event.target as IDBDatabase).close();
      onlost();
    },
    terminated: onlost,
  });
}

type Names = ('cards' | 'heads' | 'moves' | 'versions' | 'bench' | 'pictures' | 'meta')[];
type Upgrade = IDBPTransaction<Store, Names, 'versionchange'>;

/** The one part of version 1, with its steps and its ticks, becomes the first entry of the library. */
async function carryOver(db: Db, tx: unknown): Promise<void> {
  const old = tx as {
    objectStore(name: string): { get(key: string): Promise<unknown>; getAll(): Promise<unknown[]> };
  };
  const head = await old.objectStore('head').get('work');
  const steps = await old.objectStore('steps').getAll();
  const progress = await old.objectStore('bench').get('progress');
  for (const name of ['head', 'steps']) (db as unknown as IDBDatabase).deleteObjectStore(name);
  if (typeof head !== 'object' || head === null) return;
  const { part, position, fileCopy } = head as { part: object; position: number; fileCopy: Card['fileCopy'] };
  const now = tx as Upgrade;
  const id = 'first';
  const title = String((part as { title?: unknown }).title ?? '');
  const card: Card = {
    ...{ id, title, origin: 'own', round: 1, used: 1, touched: Date.now() },
    ...{ trashed: false, fileCopy: fileCopy ?? null, from: null },
  };
  await now.objectStore('cards').put(card, id);
  await now.objectStore('heads').put({ round: 1, part: seal(part), position, count: steps.length }, [id, 1]);
  for (const [n, step] of steps.entries()) await now.objectStore('moves').put(seal(step), [id, n]);
  if (progress !== undefined) await now.objectStore('bench').put(progress, id);
  await now.objectStore('meta').put(id, 'current');
}

/** Where `meta` remembers which file is kept in step with an entry. */
export const fileKey = (id: string): string => `file of ${id}`;

/** All keys of one entry in a store whose keys are pairs. */
export const allOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);
