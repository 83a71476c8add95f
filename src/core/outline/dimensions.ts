import type { ChainsReport } from '../chains/types.ts';
import { fromMm, type Length, type Unit } from '../lengths/length.ts';
import { writeGap, writeShort } from '../lengths/write.ts';
import { edgeIds } from '../part/resolve-edges.ts';
import type { Crossing, Edge, Hole, Part, PartLength, Segment, SizeText } from '../part/types.ts';
import { isReference, sizeTextOf } from './drawing-places.ts';

/** How a dimension line is drawn. A station that nothing places is told at its extension line, not here. */
export type DimensionShape = 'plain' | 'twice' | 'zigzag';
export type Dimension = {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** As it stands on the plan, a reference in brackets. */
  readonly text: string;
  readonly shape: DimensionShape;
  /** Words that go with the shape, null for a plain one or where another line of the same loop carries them. */
  readonly note: string | null;
  /** The lane that a person put it in; null where it packs itself. */
  readonly lane: number | null;
  /** False for one that is worked out for a way of presenting and stands in no part file. */
  readonly given: boolean;
};
/** A note on a leader: a diameter, a thread, a hole, an edge. */
export type Callout = {
  readonly id: string;
  readonly kind: 'segment' | 'hole' | 'crossing' | 'edge';
  readonly text: string;
};

/** A size with its tolerance as written; an empty or missing size asks for one with a question mark. */
export function writtenText(size: SizeText | undefined, tol?: string): string {
  const text = size === undefined ? '' : sizeTextOf(size).trim();
  const tolerance = tol ?? (typeof size === 'object' ? size.tol : undefined);
  return [text || '?', tolerance].filter(Boolean).join(' ');
}

/** Every length of the part as a dimension, with the state of its chain told by shape and words. */
export function dimensionsOf(part: Part, chains: ChainsReport, unit: Unit): Dimension[] {
  const clashing = new Map<string, number>();
  for (const clash of chains.clashes)
    for (const id of clash.lengths) clashing.set(id, Math.min(clash.gap_mm, clashing.get(id) ?? Infinity));
  const twice = new Set(chains.doubled.flatMap((loop) => loop.lengths));
  const order = part.lengths.map((l) => l.id);
  const lastOfLoop = new Set(
    chains.doubled.map((loop) => order.findLast((id) => loop.lengths.includes(id) && !clashing.has(id))),
  );
  return part.lengths.map((length) => {
    const gap = clashing.get(length.id);
    const shape = gap !== undefined ? 'zigzag' : twice.has(length.id) ? 'twice' : 'plain';
    const said = lastOfLoop.has(length.id) ? 'said twice' : null;
    const note = gap === undefined ? said : `off by ${gapText(fromMm(gap), unit)}`;
    return {
      id: length.id,
      from: length.from,
      to: length.to,
      text: lengthText(length),
      shape,
      note,
      lane: length.lane ?? null,
      given: true,
    };
  });
}

function lengthText(length: PartLength): string {
  const text = writtenText(length.size, length.tol);
  return isReference(length) ? `(${text})` : text;
}

/** What stands on a leader for each segment, hole, crossing and edge. */
export function calloutsOf(part: Part): Callout[] {
  const edges = edgeIds(part);
  return [
    ...part.segments.map((s): Callout => ({ id: s.id, kind: 'segment', text: segmentText(s) })),
    ...part.holes.map((h): Callout => ({ id: h.id, kind: 'hole', text: holeText(h) })),
    ...part.crossings.map((c): Callout => ({ id: c.id, kind: 'crossing', text: crossingText(c) })),
    ...part.edges.map((e, i): Callout => ({ id: edges[i] ?? '', kind: 'edge', text: edgeText(e) })),
  ];
}

/** A diameter sign before a size that does not bring its own. */
export const withDiameter = (text: string): string => (/^[Ø⌀∅]/.test(text) ? text : `Ø${text}`);

/** What a segment is, in a few characters: "Ø.500 to Ø.400, 1/2 per foot". */
export function segmentText(segment: Segment): string {
  if (segment.form === 'cylinder') return withDiameter(writtenText(segment.diameter));
  if (segment.form === 'thread') return segment.thread.trim() || '?';
  const { half_angle, included_angle, ratio, per_foot } = segment;
  const angle =
    (half_angle && `${half_angle} half angle`) ||
    (included_angle && `${included_angle} included`) ||
    ratio ||
    (per_foot && `${per_foot} per foot`);
  // An end that follows from the other and an angle need not be written.
  const ends = [segment.start, segment.end].filter(
    (d) => d !== undefined && !(angle && sizeTextOf(d).trim() === ''),
  );
  return [ends.map((d) => withDiameter(writtenText(d))).join(' to ') || 'Ø?', angle]
    .filter(Boolean)
    .join(', ');
}

function holeText(hole: Hole): string {
  if (hole.form === 'centre') return `centre hole ${hole.size}`;
  if (hole.form === 'tap') return `${hole.thread}, ${writtenText(hole.depth)} deep`;
  const depth = hole.through ? 'through' : `${writtenText(hole.depth)} deep`;
  return `${hole.form} ${withDiameter(writtenText(hole.diameter))}, ${depth}`;
}

function crossingText(crossing: Crossing): string {
  if (crossing.form === 'keyseat')
    return `keyseat ${writtenText(crossing.width)} × ${writtenText(crossing.depth)} deep`;
  if (crossing.form === 'flat')
    return crossing.across
      ? `flat, ${writtenText(crossing.across)} across`
      : `flat, ${writtenText(crossing.depth)} deep`;
  const named =
    crossing.reaches === 'axis' ? 'to the axis' : crossing.reaches === 'through' ? 'through' : null;
  return `${withDiameter(writtenText(crossing.diameter))} ${named ?? `${writtenText(crossing.reaches)} deep`}`;
}

function edgeText(edge: Edge): string {
  if (edge.form === 'fillet') return `R ${writtenText(edge.radius)}`;
  if (edge.form === 'chamfer') return `${writtenText(edge.size)} × ${edge.angle ?? '45°'}`;
  return `undercut ${writtenText(edge.width)} × ${writtenText(edge.depth)}`;
}

/** As short as it can be written; where its unit has no end for it, as it is read elsewhere. */
function gapText(gap: Length, unit: Unit): string {
  const short = writeShort(gap, unit);
  return unit === 'in' && short.endsWith('mm') ? writeGap(gap, unit) : short;
}
