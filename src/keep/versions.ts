import { partFrom } from '../core/part/read-part.ts';
import type { Part } from '../core/part/types.ts';
import { seal, unseal } from './sealed.ts';
import { allOf, type Card, type Db } from './store.ts';

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

/** The versions of an entry, newest first; those that cannot be read are left out. */
export async function listVersions(db: Db, id: string): Promise<readonly Version[]> {
  const tx = db.transaction('versions');
  const [keys, records] = await Promise.all([tx.store.getAllKeys(allOf(id)), tx.store.getAll(allOf(id))]);
  return records
    .flatMap(({ at, name, auto, part: sealed }, i): Version[] => {
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
  const records = await tx.store.getAll(allOf(card.id));
  const sealed = seal(part);
  if (name === null && records.at(-1)?.part.text === sealed.text) return tx.done;
  const record = { at: Date.now(), name: name ?? '', auto: name === null, part: sealed };
  const writes: Promise<unknown>[] = [tx.store.put(record, [card.id, (keys.at(-1)?.[1] ?? 0) + 1])];
  const autos = keys.filter((_, i) => records[i]?.auto);
  for (const key of autos.slice(0, Math.max(0, autos.length + 1 - MOST_AUTO)))
    writes.push(tx.store.delete(key));
  await Promise.all([...writes, tx.done]);
}
