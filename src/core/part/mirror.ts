import { readAngle } from '../lengths/read-angle.ts';
import { withFields } from './draft.ts';
import type { Crossing, Edge, Part, Segment } from './types.ts';

/** An angle counted the other way round; a text that is no angle stays. */
function turnedAngle(text: string): string {
  const read = readAngle(text);
  if (!read.ok) return text;
  const degrees = (360 - read.value) % 360;
  return `${Number(degrees.toFixed(9))}°`;
}

const OTHER_END = { start: 'end', end: 'start' } as const;
const OTHER_SIDE = { left: 'right', right: 'left' } as const;

function turnedSegment(segment: Segment): Segment {
  if (segment.form !== 'taper') return segment;
  const { start, end, large } = segment;
  return withFields(segment, { start: end, end: start, large: large && OTHER_END[large] });
}

/** A crossing begins at its left point, and its angle is seen from the other end. */
function turnedCrossing(crossing: Crossing): Crossing {
  const angle = crossing.angle === undefined ? {} : { angle: turnedAngle(crossing.angle) };
  return 'to' in crossing
    ? { ...crossing, ...angle, at: crossing.to, to: crossing.at }
    : { ...crossing, ...angle };
}

const turnedEdge = (edge: Edge): Edge => ({ ...edge, side: OTHER_SIDE[edge.side] });

/**
 * The same part drawn the other way round: first face last, tapers and edges turned, clocked angles seen from the
 * other end. Ids, sizes and texts stay. Two faces may be named in either order, so lengths between them stay as
 * they are; with a point the left end is named first, so those are turned. A traced picture is left out, as it would
 * lie the wrong way round. Turned twice, a part says what it said, but for the picture and how angles are written.
 */
export function mirrorPart(part: Part): Part {
  const places = part.faces.map(({ sketched }) => sketched);
  const sum = (places[0] ?? 0) + (places.at(-1) ?? 0);
  const turnedPlace = <T extends { sketched: number }>(item: T): T => ({
    ...item,
    sketched: sum - item.sketched,
  });
  const points = new Set(part.points.map(({ id }) => id));
  const turnedEnds = <T extends { from: string; to: string }>(item: T): T =>
    points.has(item.from) || points.has(item.to) ? { ...item, from: item.to, to: item.from } : item;
  return {
    ...part,
    faces: part.faces.map(turnedPlace).reverse(),
    segments: part.segments.map(turnedSegment).reverse(),
    points: part.points.map(turnedPlace).reverse(),
    lengths: part.lengths.map(turnedEnds),
    edges: part.edges.map(turnedEdge),
    crossings: part.crossings.map(turnedCrossing),
    requirements: part.requirements.map(turnedEnds),
    scan: null,
  };
}
