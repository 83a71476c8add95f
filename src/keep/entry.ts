import { partFrom } from '../core/part/read-part.ts';
import type { Part } from '../core/part/types.ts';
import type { Step } from './history.ts';
import { seal, unseal } from './sealed.ts';
import { allOf, fileKey, isCard, standInCard, type Card, type Db, type Head } from './store.ts';

/** What is kept of a part between visits: as it stands, and the steps that led to it and onward. */
export type Work = {
  readonly part: Part;
  readonly steps: readonly Step[];
  readonly position: number;
  readonly fileCopy: { readonly name: string; readonly at: number } | null;
};

/** An entry as it was read. `mended` says in a sentence what was spoilt and what is shown instead. */
export type Entry = { readonly card: Card; readonly work: Work; readonly mended: string | null };

/** Another window wrote this part after this one had read it last. Nothing of either is overwritten. */
export class Overtaken extends Error {}

const partOf = (sealed: unknown): Part | null => {
  const read = partFrom(unseal(sealed), 'the kept record');
  return read.ok ? read.value : null;
};

/** The entry, or its last good state where a record is spoilt; null where nothing of it can be read. */
export async function readEntry(db: Db, id: string): Promise<Entry | null> {
  const tx = db.transaction(['cards', 'heads', 'moves', 'versions']);
  if ((await tx.objectStore('cards').getKey(id)) === undefined) return null;
  const kept: unknown = await tx.objectStore('cards').get(id);
  const heads = (await tx.objectStore('heads').getAll(allOf(id)))
    .filter(isHead)
    .sort((a, b) => b.round - a.round);
  const moves = await tx.objectStore('moves').getAll(allOf(id));
  const versions: readonly unknown[] = await tx.objectStore('versions').getAll(allOf(id));
  const [newest] = heads;
  const card = isCard(kept) ? kept : standInCard(id, newest?.round ?? 0);
  const whole = newest && newest.round === card.round ? partOf(newest.part) : null;
  const entry = newest && whole ? readWhole(card, newest, whole, moves) : readOlder(card, heads, versions);
  if (!entry || isCard(kept)) return entry;
  const { title } = entry.work.part;
  return {
    ...entry,
    card: { ...card, title },
    mended: entry.mended ?? 'The card of this part was damaged: the part is whole.',
  };
}

const isHead = (value: unknown): value is Head =>
  typeof value === 'object' && value !== null && Number.isFinite((value as Record<string, unknown>)['round']);

const sealedIn = (record: unknown): unknown =>
  typeof record === 'object' && record !== null ? (record as Record<string, unknown>)['part'] : undefined;

function readWhole(card: Card, head: Head, part: Part, moves: readonly unknown[]): Entry {
  const steps = moves.map(unseal).filter(isStep);
  const sound = steps.length === moves.length && steps.length === head.count && head.position <= head.count;
  const work: Work = {
    part,
    steps: sound ? steps : [],
    position: sound ? head.position : 0,
    fileCopy: card.fileCopy,
  };
  const mended = sound
    ? null
    : 'The steps of this part could not be read back: the part is whole, undo starts anew.';
  return { card, work, mended };
}

function readOlder(card: Card, heads: readonly Head[], versions: readonly unknown[]): Entry | null {
  const candidates = [...heads, ...[...versions].reverse()];
  for (const record of candidates) {
    const part = partOf(sealedIn(record));
    const mended = 'The newest record of this part is damaged: its last good version is on the board.';
    if (part) return { card, work: { part, steps: [], position: 0, fileCopy: card.fileCopy }, mended };
  }
  return null;
}

function isStep(value: unknown): value is Step {
  if (typeof value !== 'object' || value === null) return false;
  const { kind, did, edits, was, now } = value as Record<string, unknown>;
  if (typeof did !== 'string') return false;
  if (kind === 'change') return Array.isArray(edits);
  return kind === 'opening' && partFrom(was, '').ok && partFrom(now, '').ok;
}

/**
 * Writes an entry in one transaction that is on the disk when it settles: card, part, and the steps that differ from
 * `written`. Rejects with `Overtaken` where the stored card is not the one that was seen last.
 */
export async function writeEntry(db: Db, seen: Card, work: Work, written: readonly Step[]): Promise<Card> {
  const tx = db.transaction(['cards', 'heads', 'moves', 'meta'], 'readwrite', { durability: 'strict' });
  // The transaction is watched from the start: where it is aborted, nobody else may find its rejection.
  const done = tx.done.then(
    () => null,
    (fault: unknown) => ({ fault }),
  );
  const there: unknown = await tx.objectStore('cards').get(seen.id);
  const stored = isCard(there) ? there : null;
  // A card that is rubbish says nothing of another window's writes.
  const spoilt = !stored && (await tx.objectStore('cards').getKey(seen.id)) !== undefined;
  if (!spoilt && (stored?.round ?? 0) !== seen.round) {
    tx.abort();
    throw new Overtaken();
  }
  const used = await nextUse(tx.objectStore('meta'));
  const { fileCopy, part, steps, position } = work;
  const round = seen.round + 1;
  const card: Card = { ...(stored ?? seen), round, used, fileCopy, title: part.title, touched: Date.now() };
  let same = 0;
  while (same < steps.length && steps[same] === written[same]) same += 1;
  try {
    const moves = tx.objectStore('moves');
    const most = Number.MAX_SAFE_INTEGER;
    const head: Head = { round, part: seal(part), position, count: steps.length };
    const writes: Promise<unknown>[] = [];
    const write = (request: Promise<unknown>) => {
      request.catch(() => undefined); // waited for below; one that fails at once must not leave the others unheard
      writes.push(request);
    };
    write(moves.delete(IDBKeyRange.bound([seen.id, same], [seen.id, most])));
    for (let n = same; n < steps.length; n += 1) write(moves.put(seal(steps[n]), [seen.id, n]));
    write(tx.objectStore('heads').put(head, [seen.id, round % 2]));
    write(tx.objectStore('cards').put(card, seen.id));
    write(tx.objectStore('meta').put(used, 'used'));
    if (round === 1 && seen.origin !== 'shelf') write(tx.objectStore('meta').put(seen.id, 'current'));
    await Promise.all(writes);
  } catch (fault) {
    try {
      tx.abort();
    } catch {
      // it was aborted by what failed
    }
    const ended = await done;
    throw isFull(ended?.fault) ? ended?.fault : fault;
  }
  const ended = await done;
  if (ended) throw ended.fault;
  return card;
}

/** Takes an entry away for good, with all that was kept beside it. */
export async function dropEntry(db: Db, id: string): Promise<void> {
  const stores = ['cards', 'heads', 'moves', 'versions', 'bench', 'meta'] as const;
  const tx = db.transaction(stores, 'readwrite', { durability: 'strict' });
  await Promise.all([
    tx.objectStore('cards').delete(id),
    tx.objectStore('meta').delete(fileKey(id)),
    tx.objectStore('bench').delete(id),
    ...(['heads', 'moves', 'versions'] as const).map((name) => tx.objectStore(name).delete(allOf(id))),
    tx.done,
  ]);
}

/** Whether the browser refused for want of room. */
export const isFull = (fault: unknown): boolean =>
  fault instanceof DOMException && fault.name === 'QuotaExceededError';

/** The next number in the order of use. */
export const nextUse = async (meta: { get(key: string): Promise<unknown> }): Promise<number> => {
  const last = await meta.get('used');
  return (typeof last === 'number' && Number.isSafeInteger(last) ? last : 1) + 1;
};
