import type { Transaction } from './edit.ts';
import { placeIn, transaction, type Draft } from './draft.ts';
import { freshFaceId, freshId } from './fresh-ids.ts';
import { inDrawnOrder } from './resolve-lengths.ts';
import type { Falls, Part, PartLength, Segment, SizeText } from './types.ts';

/** The text of a size, wherever it stands. */
export const sizeText = (size: SizeText): string => (typeof size === 'string' ? size : size.size);

/** A size with another text; its tolerance and role stay. */
export const withText = (size: SizeText | undefined, text: string): SizeText =>
  typeof size === 'object' ? { ...size, size: text } : text;

const ends = ({ from, to }: { from: string; to: string }): string => `${from}–${to}`;

function onLength(
  part: Part,
  id: string,
  did: (length: PartLength) => string,
  fields: (length: PartLength) => object,
): Transaction {
  const at = placeIn(part, 'lengths', id);
  const length = part.lengths[at];
  if (!length) return { edits: [], did: '' };
  return transaction(part, did(length), (draft) => draft.change('lengths', at, fields(length)));
}

/** Types another size for a length, as it stands on the plan. */
export const setLengthSize = (part: Part, id: string, text: string): Transaction =>
  onLength(
    part,
    id,
    (length) => `Length ${ends(length)} to ${text}`,
    (length) => ({ size: withText(length.size, text) }),
  );

/** Types another tolerance for a length; an empty text takes it away. It goes where the tolerance stands now. */
export function setLengthTol(part: Part, id: string, text: string): Transaction {
  const tol = text.trim() === '' ? undefined : text;
  return onLength(
    part,
    id,
    (length) => `Tolerance of ${ends(length)} to ${tol ?? 'none of its own'}`,
    ({ size }) =>
      typeof size === 'object' && size.tol !== undefined ? { size: plainSize({ ...size, tol }) } : { tol },
  );
}

/** A size record without its undefined fields; a bare text where only that is left. */
function plainSize(record: { size: string; tol?: string | undefined; role?: string | undefined }): SizeText {
  const kept = Object.entries(record).filter(([, value]) => value !== undefined);
  return kept.length === 1 ? record.size : (Object.fromEntries(kept) as { size: string });
}

/** Brackets a length as a reference that binds nothing, or takes the brackets away. */
export const setLengthReference = (part: Part, id: string, reference: boolean): Transaction =>
  onLength(
    part,
    id,
    (length) => (reference ? `Length ${ends(length)} bracketed` : `Length ${ends(length)} binds again`),
    ({ size }) => ({
      role: reference ? 'reference' : undefined,
      size: typeof size === 'object' ? plainSize({ ...size, role: undefined }) : size,
    }),
  );

/** Draws a length in a lane of a person's choosing, 0 nearest to the part; null: where it packs itself. */
export const setLengthLane = (part: Part, id: string, lane: number | null): Transaction =>
  onLength(
    part,
    id,
    (length) => `Length ${ends(length)} ${lane === null ? 'packed by itself' : `put in lane ${lane + 1}`}`,
    () => ({ lane: lane ?? undefined }),
  );

/** Says how lengths, or diameters of segments, fall within their limits over many parts; `normal` is what is not said. */
export function setFalls(part: Part, ids: readonly string[], falls: Falls): Transaction {
  const fields = { falls: falls === 'normal' ? undefined : falls };
  return transaction(part, `How ${ids.join(', ')} falls`, (draft) => {
    for (const list of ['lengths', 'segments'] as const) {
      for (const id of ids) draft.change(list, placeIn(part, list, id), fields);
    }
  });
}

/** Aims the diameter of a cylinder at the metal side of its limits, or at their middle again. */
export function setAim(part: Part, segmentId: string, metalSide: boolean): Transaction {
  const at = placeIn(part, 'segments', segmentId);
  if (part.segments[at]?.form !== 'cylinder') return { edits: [], did: '' };
  const fields = { aim: metalSide ? 'metal' : undefined };
  return transaction(part, `Aim of ${segmentId}`, (draft) => draft.change('segments', at, fields));
}

/** Draws a length between two other stations. */
export const setLengthEnds = (part: Part, id: string, from: string, to: string): Transaction =>
  onLength(
    part,
    id,
    (length) => `Length ${ends(length)} drawn from ${from} to ${to}`,
    () => inOrder(part, from, to),
  );

/** Ends turned to drawn order: faces by their order, a point by where it is sketched. */
function inOrder(part: Part, from: string, to: string): { from: string; to: string } {
  const faces = new Map(part.faces.map((face, i) => [face.id, i]));
  if (faces.has(from) && faces.has(to)) return inDrawnOrder(faces, { from, to });
  const places = new Map([...part.faces, ...part.points].map(({ id, sketched }) => [id, sketched]));
  const turned = (places.get(from) ?? 0) > (places.get(to) ?? 0);
  return turned ? { from: to, to: from } : { from, to };
}

const isStation = (part: Part, id: string): boolean =>
  placeIn(part, 'faces', id) >= 0 || placeIn(part, 'points', id) >= 0;

/** Adds a length between two stations. Nothing where one is unknown or both are the same. */
export function addLength(part: Part, from: string, to: string, size: string): Transaction {
  if (from === to || !isStation(part, from) || !isStation(part, to)) return { edits: [], did: '' };
  const length = { id: freshId(part, 'L'), ...inOrder(part, from, to), size };
  return transaction(
    part,
    size === '' ? `Length ${ends(length)} added` : `Length ${ends(length)} to ${size}`,
    (draft) => draft.add('lengths', length),
  );
}

/** Takes a length off the drawing. */
export function dropLength(part: Part, id: string): Transaction {
  const at = placeIn(part, 'lengths', id);
  const length = part.lengths[at];
  const did = length ? `Length ${ends(length)} deleted` : '';
  return transaction(part, did, (draft) => draft.drop('lengths', at));
}

/**
 * Types a diameter: of a cylinder, or of one end of a taper (the left one unless `end` says otherwise). Nothing for
 * a thread, whose diameter is in its name.
 */
export function setDiameter(
  part: Part,
  segmentId: string,
  text: string,
  end: 'start' | 'end' = 'start',
): Transaction {
  const at = placeIn(part, 'segments', segmentId);
  const segment = part.segments[at];
  if (!segment || segment.form === 'thread') return { edits: [], did: '' };
  const fields =
    segment.form === 'cylinder'
      ? { diameter: withText(segment.diameter, text) }
      : { [end]: withText(segment[end], text) };
  return transaction(part, `Diameter of ${segmentId} to ${text}`, (draft) =>
    draft.change('segments', at, fields),
  );
}

/** Moves a face or a point on the sketch. A face stays between its neighbours, a point on the part. */
export function moveFace(part: Part, id: string, sketched: number): Transaction {
  const list = placeIn(part, 'faces', id) >= 0 ? 'faces' : 'points';
  const at = placeIn(part, list, id);
  const [low, high] =
    list === 'faces' ? [part.faces[at - 1], part.faces[at + 1]] : [part.faces[0], part.faces.at(-1)];
  // A file knows no negative zero: a move from 0 to it would be a step that does nothing.
  const place = Math.min(Math.max(sketched, low?.sketched ?? -Infinity), high?.sketched ?? Infinity) + 0;
  const did = list === 'faces' ? `Face ${id} moved` : `Point ${id} moved`;
  return transaction(
    part,
    did,
    (draft) => Number.isFinite(place) && draft.change(list, at, { sketched: place }),
  );
}

/** What a segment is like to the right of a new face inside it: the same, or a cylinder on from a taper's end. */
function rightHalf(segment: Segment, id: string): Segment {
  if (segment.form === 'thread') return { id, form: 'thread', thread: segment.thread };
  if (segment.form === 'cylinder') return { id, form: 'cylinder', diameter: segment.diameter };
  return { id, form: 'cylinder', diameter: segment.end ?? segment.start ?? '' };
}

/**
 * Splits a segment by a new face at a sketched place inside it. The left piece stays what it was; the right one is
 * a new segment of the same size, without role and mate. Nothing where the place is not inside the segment.
 */
export function splitSegment(part: Part, segmentId: string, atSketched: number): Transaction {
  const at = placeIn(part, 'segments', segmentId);
  const segment = part.segments[at];
  const [left, right] = [part.faces[at], part.faces[at + 1]];
  if (!segment || !left || !right) return { edits: [], did: '' };
  if (!(atSketched > left.sketched && atSketched < right.sketched)) return { edits: [], did: '' };
  const face = { id: freshFaceId(part), sketched: atSketched };
  return transaction(part, `Segment ${segmentId} split at ${face.id}`, (draft) =>
    draft.addSegment(at + 1, rightHalf(segment, freshId(part, 's')), at + 1, face),
  );
}

/** Adds a cylinder with its new face at the left or right end. `length` places that face, in the part's unit. */
export function appendSegment(
  part: Part,
  side: 'left' | 'right',
  length: number,
  diameterText: string,
): Transaction {
  const segment: Segment = { id: freshId(part, 's'), form: 'cylinder', diameter: diameterText };
  const count = part.segments.length;
  const [at, faceAt, beside, sign] =
    side === 'left' ? [0, 0, part.faces[0], -1] : [count, count + 1, part.faces.at(-1), 1];
  const face = { id: freshFaceId(part), sketched: (beside?.sketched ?? 0) + sign * length };
  return transaction(part, `Segment ${segment.id} added`, (draft) =>
    draft.addSegment(at, segment, faceAt, face),
  );
}

/** Drops all that hangs on a station: lengths, requirements, edges, crossings. */
export function dropHanging(draft: Draft, id: string): void {
  draft.dropWhere('lengths', ({ from, to }) => from === id || to === id);
  draft.dropWhere('requirements', ({ from, to }) => from === id || to === id);
  draft.dropWhere('edges', ({ face }) => face === id);
  draft.dropWhere('crossings', (crossing) => crossing.at === id || ('to' in crossing && crossing.to === id));
}
