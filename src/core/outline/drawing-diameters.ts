import { readSize } from '../lengths/read-size.ts';
import { PM_PER, toMm } from '../lengths/length.ts';
import type { Part, Segment, SizeText } from '../part/types.ts';
import type { DiameterRow } from '../report-types.ts';
import { readThread } from '../standards/threads.ts';
import { sizeTextOf } from './drawing-places.ts';

/** Diameters a drawing shows, mm: at the segment's left and right face, and a thread's root where the tables have it. */
export type DrawnDiameters = {
  readonly left: number;
  readonly right: number;
  readonly root: number | null;
  /** False where the part's texts give none and it was taken from the neighbours. */
  readonly known: boolean;
};
type Partly = { left: number | null; right: number | null; root: number | null };

/**
 * Diameters for drawing by segment id: from the report's rows, else from the text, else as sketched, else from the
 * neighbours, else an eighth of the part's length. Never fails.
 * @param extent - Length of the drawn part, mm.
 */
export function drawingDiameters(
  part: Part,
  rows: readonly DiameterRow[],
  extent: number,
): Map<string, DrawnDiameters> {
  const found = part.segments.map((segment) => diametersOf(segment, part, rows));
  const spare = Math.max(extent, 1e-3) / 8;
  return new Map(
    part.segments.map((segment, i): [string, DrawnDiameters] => {
      const own = found[i] ?? { left: null, right: null, root: null };
      const near = sketchedDiameter(segment, part) ?? neighbour(found, i) ?? spare;
      const [left, right] = [own.left ?? own.right ?? near, own.right ?? own.left ?? near];
      return [segment.id, { left, right, root: own.root, known: own.left !== null || own.right !== null }];
    }),
  );
}

function diametersOf(segment: Segment, part: Part, rows: readonly DiameterRow[]): Partly {
  const own = rows.filter((row) => row.segment === segment.id);
  const fromRow = (end: 'start' | 'end' | null) => rowDiameter(own.find((row) => row.end === end));
  const read = (size: SizeText | undefined) => {
    const outcome = size === undefined ? null : readSize(sizeTextOf(size), part.unit);
    return outcome?.ok ? toMm(outcome.value.nominal) : null;
  };
  if (segment.form === 'thread') {
    const thread = readThread(segment.thread);
    if (!thread.ok) return { left: fromRow(null), right: fromRow(null), root: null };
    const major = toMm(thread.value.nominal);
    return { left: major, right: major, root: toMm(thread.value.minor) };
  }
  if (segment.form === 'cylinder') {
    const d = fromRow(null) ?? read(segment.diameter);
    return { left: d, right: d, root: null };
  }
  return {
    left: fromRow('start') ?? read(segment.start),
    right: fromRow('end') ?? read(segment.end),
    root: null,
  };
}

function rowDiameter(row: DiameterRow | undefined): number | null {
  if (!row) return null;
  if (row.aim_mm !== null) return row.aim_mm;
  return row.min_mm !== null && row.max_mm !== null ? (row.min_mm + row.max_mm) / 2 : null;
}

/** The rough diameter a land was drawn with on the board, a field beside the known ones; never used as a size. */
function sketchedDiameter(segment: Segment & { sketched?: unknown }, part: Part): number | null {
  const { sketched } = segment;
  const readable = typeof sketched === 'number' && Number.isFinite(sketched) && sketched > 0;
  return readable ? (sketched * PM_PER[part.unit]) / PM_PER.mm : null;
}

/** Mean of the nearest known diameters to either side. */
function neighbour(found: readonly Partly[], i: number): number | null {
  const left = found.slice(0, i).findLast((p) => p.left !== null || p.right !== null);
  const right = found.slice(i + 1).find((p) => p.left !== null || p.right !== null);
  const near = [left && (left.right ?? left.left), right && (right.left ?? right.right)].filter(
    (d): d is number => typeof d === 'number',
  );
  return near.length > 0 ? near.reduce((a, b) => a + b) / near.length : null;
}
