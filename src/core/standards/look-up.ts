import type { Unit } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import type { Entry, EntryKind, Reader } from './entry.ts';
import { atSize, fit, taper, thread, undercut } from './part-entries.ts';
import { bearing, centreDrill, collet, drill, materialEntry } from './shop-entries.ts';
import { beginning } from './suggest.ts';
import type { SuggestKind } from './suggest.ts';

const readers: Readonly<Record<EntryKind, Reader>> = {
  thread,
  fit,
  bearing,
  drill,
  'centre-drill': centreDrill,
  taper,
  undercut,
  collet,
  material: materialEntry,
  size: atSize,
};
const KINDS: readonly SuggestKind[] = [
  'thread',
  'fit',
  'bearing',
  'drill',
  'centre-drill',
  'taper',
  'undercut',
  'collet',
  'material',
];

/** Everything the tables say of one designation, with its sources. Reports what the reader of that kind reports. */
export function lookUp(kind: EntryKind, text: string, unit: Unit): Outcome<Entry> {
  return readers[kind](text, unit);
}

/**
 * Every entry that a text may mean, in any table: those that read it whole first, then those that begin so.
 * `unit` is that of bare sizes. At most `limit`; none for an empty text.
 */
export function searchTables(query: string, unit: Unit = 'mm', limit = 20): readonly Entry[] {
  if (query.trim() === '') return [];
  const whole = [...KINDS, 'size' as const].map((kind) => lookUp(kind, query, unit));
  const begun = KINDS.flatMap((kind) => beginning(kind, query).map(({ text }) => lookUp(kind, text, unit)));
  const found = [...whole, ...begun].flatMap((outcome) => (outcome.ok ? [outcome.value] : []));
  const first = found.filter(
    (e, i) => found.findIndex((o) => o.kind === e.kind && o.title === e.title) === i,
  );
  return first.slice(0, limit);
}
