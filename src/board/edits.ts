import { PM_PER } from '../core/lengths/length.ts';
import { readSize } from '../core/lengths/read-size.ts';
import type { DrawingPlaces } from '../core/outline/drawing-places.ts';
import { addLength, appendSegment, dropLength, moveFace, setDiameter } from '../core/part/commands.ts';
import { setLengthSize, setLengthTol, splitSegment } from '../core/part/commands.ts';
import { applyAll, type Edit, type Transaction } from '../core/part/edit.ts';
import { dropItem, setItem } from '../core/part/feature-commands.ts';
import { edgeIds } from '../core/part/resolve-edges.ts';
import { dropSegment, setSegment, setThread } from '../core/part/segment-commands.ts';
import { setFeatureSize } from './feature-size.ts';
import type { Part, Segment } from '../core/part/types.ts';
import type { Choice } from './choice.ts';
import { slopeOf, type SizeTarget } from './size-target.ts';

/** A step that does nothing. */
export const nothing: Transaction = { edits: [], did: '' };

/** A rough place as it goes into the file: hundredths of a millimetre, thousandths of an inch. */
export const rough = (part: Part, place: number): number => Number(place.toFixed(part.unit === 'in' ? 3 : 2));

/** Several commands as one step, each made for the part as the ones before leave it. */
export function inTurn(
  part: Part,
  did: string,
  commands: readonly ((part: Part) => Transaction)[],
): Transaction {
  const edits: Edit[] = [];
  let now = part;
  for (const command of commands) {
    const made = command(now);
    edits.push(...made.edits);
    now = applyAll(now, made);
  }
  return { edits, did };
}

/**
 * Moves a loose station on the sketch, and with it all that sizes tie to it, so that what is known stays as it is.
 * @param by - Millimetres to the drawn right. Nothing where the station is not loose.
 */
export function moveLoose(part: Part, places: DrawingPlaces, id: string, by: number): Transaction {
  if (!places.loose.has(id) || by === 0) return nothing;
  const tied = places.tied(id).filter((one) => places.loose.has(one));
  // The foremost goes first, so that none is held up by its neighbour.
  const order = by > 0 ? [...tied].reverse() : tied;
  const what = part.points.some((p) => p.id === id) ? 'Point' : 'Face';
  const did = tied.length > 1 ? `${what} ${id} moved, and what is tied to it` : `${what} ${id} moved`;
  return inTurn(
    part,
    did,
    order.map(
      (one) => (now) => moveFace(now, one, rough(part, places.toSketched((places.at.get(one) ?? 0) + by))),
    ),
  );
}

/** A land by a click: right of the part it is added there, inside a segment it splits that. Millimetres on the drawing. */
export function addLand(part: Part, places: DrawingPlaces, mm: number, radius: number): Transaction {
  const sketched = rough(part, places.toSketched(mm));
  const inUnit = (length: number) => (length * PM_PER.mm) / PM_PER[part.unit];
  const tall = rough(part, inUnit(2 * Math.abs(radius)));
  if (mm > places.extent || part.segments.length === 0) {
    const length = sketched - (part.faces.at(-1)?.sketched ?? 0);
    const added = appendSegment(part, 'right', Math.max(length, inUnit(0.1)), '');
    const id = applyAll(part, added).segments.at(-1)?.id ?? '';
    return inTurn(part, added.did, [() => added, (now) => setSegment(now, id, { sketched: tall })]);
  }
  const k = part.faces.findLastIndex((face) => (places.at.get(face.id) ?? 0) <= mm);
  const [left, right] = [part.faces[k], part.faces[k + 1]];
  const segment = part.segments[k];
  if (!left || !right || !segment) return nothing;
  const [a, b] = [places.at.get(left.id) ?? 0, places.at.get(right.id) ?? 0];
  // Sketched places may run otherwise than drawn ones where sizes moved the neighbours: split in proportion.
  const share = (mm - a) / (b - a);
  return splitSegment(
    part,
    segment.id,
    rough(part, left.sketched + share * (right.sketched - left.sketched)),
  );
}

/** Deletes what is chosen; a face goes only with its segment, so nothing for a face. */
export function drop(part: Part, choice: Choice): Transaction {
  const at = (list: readonly { id?: string }[]) => list.findIndex((item) => item.id === choice.id);
  switch (choice.kind) {
    case 'length':
      return dropLength(part, choice.id);
    case 'segment':
      return dropSegment(part, choice.id);
    case 'hole':
      return dropItem(part, 'holes', at(part.holes));
    case 'crossing':
      return dropItem(part, 'crossings', at(part.crossings));
    case 'edge':
      return dropItem(part, 'edges', edgeIds(part).indexOf(choice.id));
    case 'station':
      return at(part.points) < 0 ? nothing : dropItem(part, 'points', at(part.points));
  }
}

/** Deletes all that is chosen, as one step. */
export function dropAll(part: Part, choices: readonly Choice[]): Transaction {
  const [only] = choices;
  if (!only || choices.length === 1) return only ? drop(part, only) : nothing;
  // Edges go by their place in the file, so the last goes first.
  const places = edgeIds(part);
  const order = [...choices].sort((a, b) => places.indexOf(b.id) - places.indexOf(a.id));
  const made = inTurn(
    part,
    `${choices.length} things deleted`,
    order.map((choice) => (now) => drop(now, choice)),
  );
  return made.edits.length > 0 ? made : nothing;
}

/** Puts a typed text where it belongs. A tolerance typed with the size takes the place of the one beside it. */
export function setSize(part: Part, target: SizeTarget, text: string): Transaction {
  if (target.kind === 'new-length') return addLength(part, target.from, target.to, text);
  if (target.kind === 'segment') return setSegmentSize(part, target.id, text, target.end);
  if (target.kind !== 'length') return setFeatureSize(part, target, text);
  const size = setLengthSize(part, target.id, text);
  const read = readSize(text, part.unit);
  const ownLimits = read.ok && (read.value.limits !== null || read.value.fit !== null);
  if (!ownLimits) return size;
  return inTurn(part, size.did, [() => size, (now) => setLengthTol(now, target.id, '')]);
}

function setSegmentSize(part: Part, id: string, text: string, end: 'start' | 'end' | 'angle'): Transaction {
  const at = part.segments.findIndex((s) => s.id === id);
  const segment = part.segments[at];
  if (!segment) return nothing;
  if (segment.form === 'taper' && end === 'angle')
    return setSegment(part, id, slopeFields(segment, text), `Taper of ${id} to ${text}`);
  if (end === 'angle') return nothing;
  if (segment.form === 'thread') return setThread(part, id, text);
  const size = setDiameter(part, id, text, end);
  const read = readSize(text, part.unit);
  if (!read.ok || (read.value.limits === null && read.value.fit === null)) return size;
  const field = segment.form === 'cylinder' ? 'diameter' : end;
  return inTurn(part, size.did, [() => size, (now) => setItem(now, 'segments', at, { [field]: text })]);
}

/** A slope takes the place of the way it was given before: a ratio, an angle, or so much a foot. */
function slopeFields(segment: Segment & { form: 'taper' }, text: string): object {
  const now = text.includes(':') ? 'ratio' : text.includes('°') ? 'half_angle' : slopeOf(segment);
  const way = now === 'ratio' && !text.includes(':') ? 'per_foot' : now;
  const kept = way === 'half_angle' && slopeOf(segment) === 'included_angle' ? 'included_angle' : way;
  const others = { ratio: undefined, per_foot: undefined, half_angle: undefined, included_angle: undefined };
  // An end that was left empty is given by the slope from now on.
  const open = segment.end === '' ? { end: undefined } : {};
  return { ...others, ...open, [kept]: text };
}
