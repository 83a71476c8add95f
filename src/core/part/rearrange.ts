import { dropHanging } from './commands.ts';
import { placeIn, transaction, withFields, type Draft } from './draft.ts';
import type { Transaction } from './edit.ts';
import { freshFaceId, freshId } from './fresh-ids.ts';
import { mirrorPart } from './mirror.ts';
import { insertPiece, pieceOf, stretchOf, type Piece } from './piece.ts';
import { turnInto } from './rebuild.ts';
import type { Part, Segment } from './types.ts';

const nothing: Transaction = { edits: [], did: '' };

/** Turns the whole part round: first face last, tapers and edges turned with it. */
export function mirror(part: Part): Transaction {
  if (part.segments.length === 0) return nothing;
  return turnInto(part, mirrorPart(part), 'Part turned round');
}

const isBlank = (segment: Segment): boolean => segment.form === 'cylinder' && segment.diameter === '';

/**
 * Makes a segment and its right neighbour one: the face between them goes with all that hangs on it. The one that stays
 * keeps its form and size; where it has none yet it takes the other's. Nothing where there is no right neighbour.
 */
export function joinRight(part: Part, id: string): Transaction {
  const at = placeIn(part, 'segments', id);
  const [left, right, face] = [part.segments[at], part.segments[at + 1], part.faces[at + 1]];
  if (!left || !right || !face) return nothing;
  return transaction(part, `${left.id} and ${right.id} joined`, (draft) => {
    dropHanging(draft, face.id);
    const kept = part.matched.map((group) => group.filter((one) => one !== right.id));
    draft.set(
      'matched',
      kept.filter((group) => group.length > 1),
    );
    draft.dropSegment(at + 1, at + 1);
    if (isBlank(left)) draft.change('segments', at, { diameter: undefined, ...right, id: left.id });
  });
}

type Station = string;
/** How stations of the two that change places are called after it: the faces between move, the outer two stay. */
type Moves = ReadonlyMap<Station, Station>;

/**
 * Lets a segment and its right neighbour change places. What belongs to each goes with it: its own length, its edges,
 * its points and what hangs on them. Lengths from elsewhere to the face between stay at that face.
 */
export function swapRight(part: Part, id: string): Transaction {
  const at = placeIn(part, 'segments', id);
  const [one, other] = [part.segments[at], part.segments[at + 1]];
  const [a, b, c] = [part.faces[at], part.faces[at + 1], part.faces[at + 2]];
  if (!one || !other || !a || !b || !c) return nothing;
  const within = (low: number, high: number) =>
    new Set(part.points.filter((p) => p.sketched > low && p.sketched < high).map((p) => p.id));
  const [ofOne, ofOther] = [within(a.sketched, b.sketched), within(b.sketched, c.sketched)];
  const moves: readonly { moves: Moves; points: ReadonlySet<string>; sides: ReadonlySet<string> }[] = [
    {
      moves: new Map([[a.id, b.id], [b.id, c.id]]), // prettier-ignore
      points: ofOne,
      sides: new Set([`${a.id} right`, `${b.id} left`]),
    },
    {
      moves: new Map([[b.id, a.id], [c.id, b.id]]), // prettier-ignore
      points: ofOther,
      sides: new Set([`${b.id} right`, `${c.id} left`]),
    },
  ];
  const carried = <T extends { from: string; to: string }>(item: T): T => {
    const home = moves.find(({ moves: m, points }) =>
      [item.from, item.to].every((end) => m.has(end) || points.has(end)),
    );
    if (!home) return item;
    const name = (end: string) => home.moves.get(end) ?? end;
    return { ...item, from: name(item.from), to: name(item.to) };
  };
  const shift = (sketched: number, point: string) =>
    sketched +
    (ofOne.has(point) ? c.sketched - b.sketched : ofOther.has(point) ? a.sketched - b.sketched : 0);
  const target: Part = {
    ...part,
    segments: part.segments.map((s, k) => (k === at ? other : k === at + 1 ? one : s)),
    faces: part.faces.map((f) => (f === b ? { ...b, sketched: a.sketched + c.sketched - b.sketched } : f)),
    points: part.points.map((p) => ({ ...p, sketched: shift(p.sketched, p.id) })),
    lengths: part.lengths.map(carried),
    requirements: part.requirements.map(carried),
    edges: part.edges.map((edge) => {
      const home = moves.find(({ sides }) => sides.has(`${edge.face} ${edge.side}`));
      return home ? { ...edge, face: home.moves.get(edge.face) ?? edge.face } : edge;
    }),
  };
  return turnInto(part, target, `${one.id} and ${other.id} swapped`);
}

/** Most repeats at one go: more are surely a slip of the finger. */
export const MOST_REPEATS = 50;

/**
 * Repeats a stretch of segments to the right until it stands there `count` times, each copy with the lengths, edges
 * and crossings that lie within. With a pitch each copy begins that far from the one before, by a length of its own;
 * a single segment then gets a land as high as its neighbour between the copies.
 * @param pitch - As the plan says it; empty: the copies touch, and only the stretch's own lengths place them.
 */
export function repeat(part: Part, ids: readonly string[], count: number, pitch: string): Transaction {
  const stretch = stretchOf(part, ids);
  const piece = unnamed(pieceOf(part, ids));
  if (!stretch || !piece || count < 2 || count > MOST_REPEATS) return nothing;
  const single = pitch !== '' && piece.segments.length === 1;
  const many = piece.segments.length === 1 ? piece.segments[0]?.id : `${piece.segments.length} segments`;
  const did = count === 2 && pitch === '' ? `${many} duplicated` : `${many} repeated ${count} times`;
  return transaction(part, did, (draft) => {
    let begin = stretch.first;
    let end = stretch.last + 1;
    for (let i = 1; i < count; i += 1) {
      if (single) end += insertPiece(draft, end, spacer(part, stretch.last, piece)).length;
      const from = draft.part.faces[begin]?.id ?? '';
      begin = end;
      end += insertPiece(draft, end, piece).length;
      const to = draft.part.faces[begin]?.id ?? '';
      if (pitch !== '') draft.add('lengths', { id: freshId(draft.part, 'L'), from, to, size: pitch });
    }
  });
}

/** A name is for one face only. */
const unnamed = (piece: Piece | null): Piece | null =>
  piece && { ...piece, faces: piece.faces.map((face) => withFields(face, { name: undefined })) };

/** The land between two copies: as long as the copy on the sketch, with its neighbour's diameter. */
function spacer(part: Part, last: number, { unit, faces }: Piece): Piece {
  const near = [part.segments[last + 1], part.segments[last - 1]].find((s) => s?.form === 'cylinder');
  const segment: Segment = {
    id: 'between',
    form: 'cylinder',
    diameter: near?.form === 'cylinder' ? near.diameter : '',
  };
  const [left, right] = [faces[0], faces.at(-1)];
  const blank = { points: [], lengths: [], edges: [], crossings: [] };
  const ends = [left, right].flatMap((face, i) => (face ? [{ ...face, id: `end ${i}` }] : []));
  return {
    shaftwright_piece: 1,
    unit,
    faces: ends,
    segments: [segment],
    ...blank,
  };
}

/**
 * Turns a groove into a land: two new faces at sketched places inside it, and between them a cylinder without a size
 * yet. `tall` is its rough diameter for the sketch. Nothing where the places are not inside the segment.
 */
export function addGroove(part: Part, id: string, from: number, to: number, tall: number): Transaction {
  const at = placeIn(part, 'segments', id);
  const segment = part.segments[at];
  const [left, right] = [part.faces[at], part.faces[at + 1]];
  const [a, b] = [Math.min(from, to), Math.max(from, to)];
  if (!segment || segment.form === 'taper' || !left || !right) return nothing;
  if (!(a > left.sketched && b > a && b < right.sketched)) return nothing;
  return transaction(part, `Groove on ${id}`, (draft) => {
    const next = (made: Omit<Segment, 'id'>, step: number, sketched: number) =>
      addAfter(draft, at + step, { ...made, id: freshId(draft.part, 's') } as Segment, sketched);
    next({ form: 'cylinder', diameter: '', sketched: tall } as Omit<Segment, 'id'>, 0, a);
    const same =
      segment.form === 'thread'
        ? { form: 'thread', thread: segment.thread }
        : { form: 'cylinder', diameter: segment.diameter };
    next(same as Omit<Segment, 'id'>, 1, b);
  });
}

/** A segment right of the one at `at`, with its left face at a sketched place. */
function addAfter(draft: Draft, at: number, segment: Segment, sketched: number): void {
  draft.addSegment(at + 1, segment, at + 1, { id: freshFaceId(draft.part), sketched });
}
