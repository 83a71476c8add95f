import { transaction, type Draft } from './draft.ts';
import type { Items, ListName, OpenList, Transaction } from './edit.ts';
import { sameJson } from './same-json.ts';
import type { Part } from './types.ts';

const OPEN_LISTS: readonly OpenList[] = ['lengths', 'requirements', 'edges', 'holes', 'crossings', 'points'];

/** Fields that make one item another: what only the first has goes. */
const turnedInto = (was: object, now: object): object => ({
  ...Object.fromEntries(Object.keys(was).map((key) => [key, undefined])),
  ...now,
});

const sameIds = (a: readonly { id?: string }[], b: readonly { id?: string }[]): boolean =>
  a.length === b.length && a.every(({ id }, i) => id === b[i]?.id);

/** How many items two lists have in common at their beginning, and then at their end. */
function common(a: readonly unknown[], b: readonly unknown[]): { head: number; tail: number } {
  const most = Math.min(a.length, b.length);
  let [head, tail] = [0, 0];
  while (head < most && sameJson(a[head], b[head])) head += 1;
  while (tail < most - head && sameJson(a[a.length - 1 - tail], b[b.length - 1 - tail])) tail += 1;
  return { head, tail };
}

const inPlace = (draft: Draft, list: ListName, target: Part): void =>
  target[list].forEach((now, at) => {
    const was = draft.part[list][at];
    if (was) draft.change(list, at, turnedInto(was, now));
  });

/** Takes away what the target does not have, list by list; what is left is put back by `addMissing`. */
function dropOthers(draft: Draft, list: OpenList, target: Part): void {
  if (sameIds(draft.part[list], target[list])) return;
  const { head, tail } = common(draft.part[list], target[list]);
  for (let at = draft.part[list].length - tail - 1; at >= head; at -= 1) draft.drop(list, at);
}

function addMissing<L extends OpenList>(draft: Draft, list: L, target: Part): void {
  const wanted: readonly Items[L][] = target[list] as unknown as readonly Items[L][];
  if (draft.part[list].length === wanted.length) return inPlace(draft, list, target);
  const { head } = common(draft.part[list], wanted);
  const missing = wanted.length - draft.part[list].length;
  wanted.slice(head, head + missing).forEach((item, i) => draft.add(list, item, head + i));
}

/** Segments and faces go together: all but what stays at both ends goes, then comes anew. */
function relay(draft: Draft, target: Part): void {
  if (sameIds(draft.part.faces, target.faces) && sameIds(draft.part.segments, target.segments)) {
    inPlace(draft, 'faces', target);
    return inPlace(draft, 'segments', target);
  }
  const kept = Math.max(
    0,
    draft.part.faces.findIndex(({ id }) => id === target.faces[0]?.id),
  );
  while (draft.part.segments.length > kept)
    draft.dropSegment(draft.part.segments.length - 1, draft.part.segments.length);
  while (draft.part.segments.length > 0) draft.dropSegment(0, 0);
  inPlace(draft, 'faces', { ...target, faces: target.faces.slice(0, 1) });
  target.segments.forEach((segment, at) => {
    const face = target.faces[at + 1];
    if (face) draft.addSegment(at, segment, at + 1, face);
  });
}

/**
 * The step that turns a part into another that was worked out from it: its lists and the fields that name things in
 * them. Title, unit and the like are no business of it. Undone exactly, like every step.
 */
export function turnInto(part: Part, target: Part, did: string): Transaction {
  return transaction(part, did, (draft) => {
    for (const list of OPEN_LISTS) dropOthers(draft, list, target);
    relay(draft, target);
    for (const list of OPEN_LISTS) addMissing(draft, list, target);
    draft.set('matched', target.matched);
    draft.set('scan', target.scan);
  });
}
