import { dropHanging } from './commands.ts';
import { placeIn, transaction, type Draft } from './draft.ts';
import type { Transaction } from './edit.ts';
import type { Mate, Part, Segment, SizeText } from './types.ts';

/** Changes fields of a segment; a field given as undefined goes. `did` says what it was. */
export function setSegment(
  part: Part,
  id: string,
  fields: object,
  did = `Segment ${id} changed`,
): Transaction {
  return transaction(part, did, (draft) => draft.change('segments', placeIn(part, 'segments', id), fields));
}

/** Says what a segment is for, or nothing. */
export const setSegmentRole = (part: Part, id: string, role: string | null): Transaction =>
  setSegment(part, id, { role: role ?? undefined }, `Segment ${id} is ${role ?? 'plain'}`);

/** Says what runs on a segment, or nothing. */
export const setMate = (part: Part, id: string, mate: Mate | null): Transaction =>
  setSegment(part, id, { mate: mate ?? undefined }, `Mate of ${id} ${mate ? 'changed' : 'taken away'}`);

/** Types another thread for a threaded segment. */
export function setThread(part: Part, id: string, thread: string): Transaction {
  const segment = part.segments[placeIn(part, 'segments', id)];
  if (segment?.form !== 'thread') return { edits: [], did: '' };
  return setSegment(part, id, { thread }, `Thread of ${id} to ${thread}`);
}

const FORM_FIELDS = {
  diameter: undefined,
  thread: undefined,
  start: undefined,
  end: undefined,
  half_angle: undefined,
  included_angle: undefined,
  ratio: undefined,
  per_foot: undefined,
  large: undefined,
};

function sizeOf(segment: Segment): SizeText {
  if (segment.form === 'cylinder') return segment.diameter;
  return segment.form === 'taper' ? (segment.start ?? segment.end ?? '') : '';
}

/**
 * Makes a segment a cylinder, a taper or a thread. Its diameter goes along where the new form has one; what the new
 * form needs besides is left empty to be typed. Name, role, mate and unknown fields stay.
 */
export function setForm(part: Part, id: string, form: Segment['form']): Transaction {
  const segment = part.segments[placeIn(part, 'segments', id)];
  if (!segment || segment.form === form) return { edits: [], did: '' };
  const own =
    form === 'cylinder'
      ? { diameter: sizeOf(segment) }
      : form === 'taper'
        ? { start: sizeOf(segment), end: '' }
        : { thread: '' };
  return setSegment(part, id, { ...FORM_FIELDS, form, ...own }, `Segment ${id} made a ${form}`);
}

/** Points that are sketched between two places. */
const pointsWithin = (part: Part, low: number, high: number): readonly string[] =>
  part.points.filter(({ sketched }) => sketched > low && sketched < high).map(({ id }) => id);

/** Edges that cut the segment between two faces. */
function dropEdgesOf(draft: Draft, left: string, right: string): void {
  draft.dropWhere(
    'edges',
    ({ face, side }) => (face === left && side === 'right') || (face === right && side === 'left'),
  );
}

function unmatch(draft: Draft, id: string): void {
  const matched = draft.part.matched;
  if (!matched.some((group) => group.includes(id))) return;
  const kept = matched.map((group) => group.filter((one) => one !== id)).filter((group) => group.length > 1);
  draft.set('matched', kept);
}

/** Holes of an end whose face goes begin at the face that is the end from then on. */
function rehang(draft: Draft, gone: string, end: string): void {
  draft.part.holes.forEach(({ from }, at) => {
    if (from === gone) draft.change('holes', at, { from: end });
  });
}

/**
 * Takes a segment away with one of its faces: the left one at the left end of the part, else the right one, so that
 * its neighbour reaches on over the gap. With them goes what hangs on that face (lengths, requirements, edges,
 * crossings), the segment's edges, the points sketched on it with what hangs on them, and its place in a matched
 * group. Holes of an end move to the new end. One transaction, undone exactly.
 */
export function dropSegment(part: Part, id: string): Transaction {
  const at = placeIn(part, 'segments', id);
  const [left, right] = [part.faces[at], part.faces[at + 1]];
  if (!left || !right) return { edits: [], did: '' };
  const [gone, stays] = at === 0 ? [left, right] : [right, left];
  return transaction(part, `Segment ${id} deleted`, (draft) => {
    for (const point of pointsWithin(part, left.sketched, right.sketched)) {
      dropHanging(draft, point);
      draft.drop('points', placeIn(draft.part, 'points', point));
    }
    dropEdgesOf(draft, left.id, right.id);
    dropHanging(draft, gone.id);
    unmatch(draft, id);
    rehang(draft, gone.id, stays.id);
    draft.dropSegment(at, gone === left ? at : at + 1);
  });
}
