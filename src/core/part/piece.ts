import type { Unit } from '../lengths/length.ts';
import { transaction, type Draft } from './draft.ts';
import type { Transaction } from './edit.ts';
import { inUnit } from './piece-unit.ts';
import { freshFaceId, freshId } from './fresh-ids.ts';
import { partFrom } from './read-part.ts';
import type { Crossing, Edge, Face, Part, PartLength, Point, Segment } from './types.ts';

/** Some neighbouring segments with all that hangs on them, cut out of a part: what is copied and pasted. */
export type Piece = {
  readonly shaftwright_piece: 1;
  readonly unit: Unit;
  /** One more than segments, left to right. */
  readonly faces: readonly Face[];
  readonly segments: readonly Segment[];
  readonly points: readonly Point[];
  readonly lengths: readonly PartLength[];
  readonly edges: readonly Edge[];
  readonly crossings: readonly Crossing[];
};

/** The stretch of neighbours that some segments span: from the first to the last of them; null where none is there. */
export function stretchOf(part: Part, ids: readonly string[]): { first: number; last: number } | null {
  const at = part.segments.flatMap(({ id }, k) => (ids.includes(id) ? [k] : []));
  const [first, last] = [at[0], at.at(-1)];
  return first === undefined || last === undefined ? null : { first, last };
}

/** Cuts a piece out of a part, from the first to the last of the named segments. Null where none of them is there. */
export function pieceOf(part: Part, ids: readonly string[]): Piece | null {
  const stretch = stretchOf(part, ids);
  if (!stretch) return null;
  const faces = part.faces.slice(stretch.first, stretch.last + 2);
  const [left, right] = [faces[0], faces.at(-1)];
  if (!left || !right) return null;
  const points = part.points.filter((p) => p.sketched > left.sketched && p.sketched < right.sketched);
  const inside = new Set([...faces, ...points].map(({ id }) => id));
  const has = (id: string) => inside.has(id);
  return {
    shaftwright_piece: 1,
    unit: part.unit,
    faces,
    segments: part.segments.slice(stretch.first, stretch.last + 1),
    points,
    lengths: part.lengths.filter(({ from, to }) => has(from) && has(to)),
    edges: part.edges.filter(
      ({ face, side }) => has(face) && face !== (side === 'right' ? right.id : left.id),
    ),
    crossings: part.crossings.filter((x) => has(x.at) && (!('to' in x) || has(x.to))),
  };
}

/** What stands at the face where a piece goes in, and right of it, hangs on the piece's right end from then on. */
function rehangRight(draft: Draft, was: string, now: string, wasLast: boolean): void {
  const { faces, points } = draft.part;
  const place = new Map(faces.map(({ id }, i) => [id, i]));
  const from = place.get(now) ?? 0;
  const end = faces[from]?.sketched ?? 0;
  const beyond = (id: string) => {
    const at = place.get(id);
    return at === undefined ? (points.find((p) => p.id === id)?.sketched ?? 0) > end : at > from;
  };
  draft.part.lengths.forEach((length, i) => {
    if (length.from === was && beyond(length.to)) draft.change('lengths', i, { from: now });
    if (length.to === was && beyond(length.from)) draft.change('lengths', i, { to: now });
  });
  draft.part.edges.forEach((edge, i) => {
    if (edge.face === was && edge.side === 'right') draft.change('edges', i, { face: now });
  });
  draft.part.holes.forEach((hole, i) => {
    if (wasLast && hole.from === was) draft.change('holes', i, { from: now });
  });
}

/** Shifts everything sketched right of a place, so that what goes in has room. */
function makeRoom(draft: Draft, after: number, by: number): void {
  const right = draft.part.faces[after]?.sketched ?? 0;
  draft.part.faces.forEach(({ sketched }, i) => {
    if (i > after) draft.change('faces', i, { sketched: sketched + by });
  });
  draft.part.points.forEach(({ sketched }, i) => {
    if (sketched > right) draft.change('points', i, { sketched: sketched + by });
  });
}

/**
 * Puts a piece into a draft at a face, under fresh ids: what lay right of that face then lies right of the piece.
 * @param at - Place of the face in the draft. @returns The ids of the new segments.
 */
export function insertPiece(draft: Draft, at: number, piece: Piece): string[] {
  const here = draft.part.faces[at];
  const [left, right] = [piece.faces[0], piece.faces.at(-1)];
  if (!here || !left || !right || piece.segments.length === 0) return [];
  const wasLast = at > 0 && at === draft.part.faces.length - 1;
  const shift = here.sketched - left.sketched;
  makeRoom(draft, at, right.sketched - left.sketched);
  const named = new Map([[left.id, here.id]]);
  const name = (id: string) => named.get(id) ?? id;
  const made = piece.segments.map((segment, k) => {
    const face = piece.faces[k + 1];
    const id = freshId(draft.part, 's');
    if (!face) return id;
    const next = { ...face, id: freshFaceId(draft.part), sketched: face.sketched + shift };
    named.set(face.id, next.id);
    draft.addSegment(at + k, { ...segment, id }, at + k + 1, next);
    return id;
  });
  rehangRight(draft, here.id, name(right.id), wasLast);
  hang(draft, piece, named, shift);
  return made;
}

function hang(draft: Draft, piece: Piece, named: Map<string, string>, shift: number): void {
  const name = (id: string) => named.get(id) ?? id;
  for (const point of piece.points) {
    const id = freshId(draft.part, 'P');
    named.set(point.id, id);
    draft.add('points', { ...point, id, sketched: point.sketched + shift });
  }
  for (const one of piece.lengths)
    draft.add('lengths', {
      ...one,
      id: freshId(draft.part, 'L'),
      from: name(one.from),
      to: name(one.to),
    });
  for (const one of piece.edges)
    draft.add('edges', { ...one, id: freshId(draft.part, 'e'), face: name(one.face) });
  for (const one of piece.crossings) {
    const to = 'to' in one ? { to: name(one.to) } : {};
    draft.add('crossings', { ...one, id: freshId(draft.part, 'x'), at: name(one.at), ...to } as Crossing);
  }
}

/**
 * Pastes a piece right of a segment, or at the right end where none is named. Sizes of a piece from a part in the
 * other unit carry their unit from then on, so that they mean what they meant.
 */
export function pastePiece(part: Part, piece: Piece, after: string | null): Transaction {
  const k = part.segments.findIndex(({ id }) => id === after);
  const at = k < 0 ? part.segments.length : k + 1;
  const many = piece.segments.length;
  const did = many === 1 ? 'Segment pasted' : `${many} segments pasted`;
  return transaction(part, did, (draft) => void insertPiece(draft, at, inUnit(piece, part.unit)));
}

/** A piece from pasted text, checked as a part file is; null where the text is none. */
export function readPiece(text: string): Piece | null {
  const read = parsed(text);
  if (typeof read !== 'object' || read === null || !('shaftwright_piece' in read)) return null;
  if (read.shaftwright_piece !== 1) return null;
  const part = partFrom({ ...read, shaftwright: 1 }, 'the piece');
  if (!part.ok) return null;
  return pieceOf(
    part.value,
    part.value.segments.map(({ id }) => id),
  );
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
