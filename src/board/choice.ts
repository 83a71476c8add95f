import type { Part } from '../core/part/types.ts';
import { edgeIds } from '../core/part/resolve-edges.ts';

/** What is chosen on the board or in a table: one kind of thing of the part, by its id. */
export type ChoiceKind = 'station' | 'segment' | 'length' | 'edge' | 'hole' | 'crossing';
export type Choice = { readonly kind: ChoiceKind; readonly id: string };

export const sameChoice = (a: Choice | null, b: Choice | null): boolean =>
  a === b || (a !== null && b !== null && a.kind === b.kind && a.id === b.id);

/** What each id of a part names. */
export function kindsOf(part: Part): Map<string, ChoiceKind> {
  const all = (kind: ChoiceKind, ids: readonly string[]) => ids.map((id): [string, ChoiceKind] => [id, kind]);
  const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id);
  return new Map([
    ...all('station', ids([...part.faces, ...part.points])),
    ...all('segment', ids(part.segments)),
    ...all('length', ids(part.lengths)),
    ...all('edge', edgeIds(part)),
    ...all('hole', ids(part.holes)),
    ...all('crossing', ids(part.crossings)),
  ]);
}

/** The first thing that a step put into a part, to be chosen next: a feature before its points, a segment before its faces. */
export function addedBy(before: Part, after: Part): Choice | null {
  const had = kindsOf(before);
  // An edge without an id is called after its face and side: on a part that was turned round those are others.
  const fresh = [...kindsOf(after)]
    .filter(([id, kind]) => !had.has(id) && (kind !== 'edge' || after.edges.length > before.edges.length))
    .map(([id, kind]): Choice => ({ kind, id }));
  const order: readonly Choice['kind'][] = ['crossing', 'hole', 'edge', 'segment', 'length', 'station'];
  return order.flatMap((kind) => fresh.filter((c) => c.kind === kind))[0] ?? null;
}
