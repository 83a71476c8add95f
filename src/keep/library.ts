import { applyAll } from '../core/part/edit.ts';
import { setTitle } from '../core/part/part-commands.ts';
import type { Part } from '../core/part/types.ts';
import { nextUse, readEntry, writeEntry, type Work } from './entry.ts';
import { record } from './history.ts';
import { freshCard, isCard, standInCard, type Card, type Db } from './store.ts';

/** An entry as the list shows it. `part` is null where nothing of it can be read any more. */
export type Shelved = { readonly card: Card; readonly part: Part | null; readonly mended: string | null };

/** Every entry, the one last used first. One that cannot be read does not keep the others away. */
export async function listEntries(db: Db): Promise<readonly Shelved[]> {
  const tx = db.transaction('cards');
  const [ids, cards] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll()]);
  const shelved = await Promise.all(
    ids.map(async (id, i): Promise<Shelved> => {
      const entry = await readEntry(db, id).catch(() => null);
      const { work, mended = null } = entry ?? {};
      return { card: entry?.card ?? cardOf(cards[i], id), part: work?.part ?? null, mended };
    }),
  );
  return shelved.sort((a, b) => b.card.used - a.card.used);
}

const cardOf = (record: unknown, id: string): Card => (isCard(record) ? record : standInCard(id, 0));

/** A new entry with work of its own; gives its id. */
export async function addEntry(db: Db, work: Work, trashed = false): Promise<string> {
  const card = { ...freshCard('shelf', null), trashed };
  await writeEntry(db, card, work, []);
  return card.id;
}

/** A second entry with the same part, its steps its own from here; null where the first cannot be read. */
export async function duplicateEntry(db: Db, id: string): Promise<string | null> {
  const entry = await readEntry(db, id);
  if (!entry) return null;
  const { part } = entry.work;
  const title = `${part.title || 'Untitled shaft'} (copy)`;
  return addEntry(db, { part: { ...part, title }, steps: [], position: 0, fileCopy: null });
}

/** Gives a part that is not on any board another title, as a step that undo takes back. */
export async function renameEntry(db: Db, id: string, title: string): Promise<void> {
  const entry = await readEntry(db, id);
  if (!entry) return;
  const { work } = entry;
  const change = setTitle(work.part, title);
  const history = record(work, { kind: 'change', at: Date.now(), ...change });
  await writeEntry(db, entry.card, { ...work, ...history, part: applyAll(work.part, change) }, work.steps);
}

/** Into the trash, or back out of it. */
export async function trashEntry(db: Db, id: string, trashed: boolean): Promise<void> {
  const entry = await readEntry(db, id);
  const tx = db.transaction(['cards', 'meta'], 'readwrite', { durability: 'strict' });
  const there = (await tx.objectStore('cards').getKey(id)) !== undefined;
  const record: unknown = await tx.objectStore('cards').get(id);
  const card = isCard(record) ? record : (entry?.card ?? standInCard(id, 0));
  const used = await nextUse(tx.objectStore('meta'));
  await tx.objectStore('meta').put(used, 'used');
  if (there) await tx.objectStore('cards').put({ ...card, trashed, used }, id);
  await tx.done;
}
