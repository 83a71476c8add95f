import { partFrom } from '../core/part/read-part.ts';
import type { Part } from '../core/part/types.ts';
import { seal, unseal } from './sealed.ts';
import { allOf, type Card, type Db, type VersionRecord } from './store.ts';

/** A state of a part to go back to. `n` counts up, whatever the clock does. */
export type Version = {
  readonly n: number;
  readonly at: number;
  readonly name: string;
  readonly auto: boolean;
  readonly part: Part;
};

/** Of those that the app makes by itself, only the newest stay. */
const MOST_AUTO = 20;

/** Whether a record is a version; anything may stand in a store that was damaged. */
function isRecord(value: unknown): value is VersionRecord {
  if (typeof value !== 'object' || value === null) return false;
  const { at, name, auto, part } = value as Record<string, unknown>;
  const kinds = Number.isFinite(at) && typeof name === 'string' && typeof auto === 'boolean';
  return kinds && typeof part === 'object' && part !== null;
}

/** The versions of an entry, newest first; those that cannot be read are left out. */
export async function listVersions(db: Db, id: string): Promise<readonly Version[]> {
  const tx = db.transaction('versions');
  const [keys, records] = await Promise.all([tx.store.getAllKeys(allOf(id)), tx.store.getAll(allOf(id))]);
  return records
    .flatMap((record, i): Version[] => {
      if (!isRecord(record)) return [];
      const { at, name, auto, part: sealed } = record;
      const read = partFrom(unseal(sealed), 'a kept version');
      return read.ok ? [{ n: keys[i]?.[1] ?? 0, at, name, auto, part: read.value }] : [];
    })
    .reverse();
}

/**
 * Keeps the part as a version. Without a name it is one of those that the app makes: none where the newest version
 * is the same part, and the oldest of its kind make room.
 */
export async function keepVersion(db: Db, card: Card, part: Part, name: string | null): Promise<void> {
  const tx = db.transaction('versions', 'readwrite', { durability: 'strict' });
  const keys = await tx.store.getAllKeys(allOf(card.id));
  const records: readonly unknown[] = await tx.store.getAll(allOf(card.id));
  const sealed = seal(part);
  const newest = records.at(-1);
  if (name === null && isRecord(newest) && newest.part.text === sealed.text) return tx.done;
  const record = { at: Date.now(), name: name ?? '', auto: name === null, part: sealed };
  const writes: Promise<unknown>[] = [tx.store.put(record, [card.id, (keys.at(-1)?.[1] ?? 0) + 1])];
  const autos = keys.filter((_, i) => {
    const kept = records[i];
    return !isRecord(kept) || kept.auto; // what was damaged makes room too
  });
  for (const key of autos.slice(0, Math.max(0, autos.length + 1 - MOST_AUTO)))
    writes.push(tx.store.delete(key));
  await Promise.all([...writes, tx.done]);
}
