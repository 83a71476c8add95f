import { PM_PER } from '../core/lengths/length.ts';
import type { ChainsReport } from '../core/chains/types.ts';
import { drawingPlaces } from '../core/outline/drawing-places.ts';
import { applyAll, type Edit, type Transaction } from '../core/part/edit.ts';
import { setScan } from '../core/part/part-commands.ts';
import type { Part } from '../core/part/types.ts';
import { readScan, type Scan } from '../core/tracing/scan.ts';
import { pickError, sketchedTall, withTall, withTrace } from '../core/tracing/trace.ts';

/**
 * What a pointer did on the board, with the mark that it makes in the picture under it: a face or point that was put or
 * moved where the picture shows it counts as traced. Nothing is added where no picture is shown that is to scale, or
 * where more than one station moved, as only one was pointed at.
 *
 * @param zoom - Pixels of the screen to a millimetre: seen from afar one points less well.
 */
export function traced(part: Part, chains: ChainsReport, change: Transaction, zoom: number): Transaction {
  const read = readScan(part.scan);
  const [only, ...others] = stationsIn(change.edits);
  if (!read?.ok || read.value.hidden || !read.value.known || !only || others.length > 0) return change;
  const next = applyAll(part, change);
  const station = [...next.faces, ...next.points].find(({ id }) => id === only);
  const mm = drawingPlaces(next, chains).at.get(only);
  if (!station || mm === undefined) return change;
  const within = pickError(read.value, zoom);
  const marked = withTrace(read.value, only, mm, station.sketched, within);
  const scan = withLand(marked, next, change.edits, { mm, within });
  return { ...change, edits: [...change.edits, ...setScan(next, scan).edits] };
}

/** The picture with the land marked that was added with its right end, as tall as it was pointed to. */
function withLand(scan: Scan, part: Part, edits: readonly Edit[], at: { mm: number; within: number }): Scan {
  const added = edits.flatMap((edit) => (edit.kind === 'add-segment' ? [edit.segment.id] : []));
  const land = part.segments.find(({ id }) => added.includes(id));
  const sketched = land ? sketchedTall(land) : null;
  if (!land || sketched === null) return scan;
  const radius = (sketched * PM_PER[part.unit]) / PM_PER.mm / 2;
  return withTall(scan, land.id, { ...at, radius, sketched });
}

/** The faces and points that edits put on the part or move on the sketch. */
function stationsIn(edits: readonly Edit[]): readonly string[] {
  const ids = edits.flatMap((edit) => {
    if (edit.kind === 'add-segment') return [edit.face.id];
    if (edit.kind === 'add' && edit.list === 'points') return [edit.item.id];
    const moved = edit.kind === 'change' && (edit.list === 'faces' || edit.list === 'points');
    return moved && edit.was.sketched !== edit.now.sketched ? [edit.now.id] : [];
  });
  return [...new Set(ids)];
}
