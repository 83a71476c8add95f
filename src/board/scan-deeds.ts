import { PM_PER, type Unit } from '../core/lengths/length.ts';
import { readSize } from '../core/lengths/read-size.ts';
import type { Part } from '../core/part/types.ts';
import { begunAt, onDrawing, placed, quarterTurned, straightened } from '../core/tracing/place.ts';
import type { Pixel, Scan } from '../core/tracing/scan.ts';
import { withHole, withOutline, withTrace } from '../core/tracing/trace.ts';
import { kindsOf, type Choice } from './choice.ts';
import type { Markable, ScanTask } from './scan-desk.svelte.ts';
import { traced } from './traced.ts';

const asks: Readonly<Record<Exclude<ScanTask, 'mark'>, readonly string[]>> = {
  place: [
    'Pick one end of a size you know in the picture; best is the left end of the part, on its centre line.',
    'Pick the other end: best is the right end of the part, on its centre line.',
    'Type the size between the two picks, as the plan has it.',
  ],
  straighten: [
    'Pick a place on the centre line in the picture, far to one side.',
    'Pick the centre line again, far to the other side.',
  ],
  begin: ['Pick where the left end of the part crosses the centre line in the picture.'],
};

/** What of a choice can be marked: a face or point, a segment, a hole that is drilled or bored; else null. */
function markable(part: Part, chosen: Choice | null): Markable | null {
  if (chosen?.kind === 'station' || chosen?.kind === 'segment') return { kind: chosen.kind, id: chosen.id };
  const hole = chosen?.kind === 'hole' ? part.holes.find(({ id }) => id === chosen.id) : undefined;
  return hole?.form === 'drill' || hole?.form === 'bore' ? { kind: 'hole', id: hole.id } : null;
}

function asksToMark({ kind, id }: Markable): readonly string[] {
  if (kind === 'station') return [`Pick where ${id} stands in the picture.`];
  if (kind === 'hole')
    return [
      `Pick the wall of ${id} in the picture where the hole begins.`,
      `Pick the wall of ${id} where it ends, before any point of the drill.`,
    ];
  return [
    `Pick the outline of ${id} in the picture at its left end.`,
    `Pick the outline of ${id} at its right end.`,
  ];
}

/** What a task asks for, pick after pick. */
const asksFor = (task: ScanTask, target: Markable | null): readonly string[] =>
  task !== 'mark' ? asks[task] : target ? asksToMark(target) : [];

/** What picks have come to: the picture as it lies or is marked then, and what was done. */
type Done = { readonly scan: Scan; readonly did: string };

/** The picture brought to scale by two picks and the size between them; else why not. */
function toScale(
  scan: Scan,
  picks: readonly [Pixel, Pixel],
  within: number,
  size: string,
  unit: Unit,
): Done | string {
  const read = readSize(size, unit);
  if (!read.ok) return read.problem.say;
  const [from, to] = picks;
  const now = placed(scan, { from, to, size, within }, read.value.nominal / PM_PER.mm);
  return now
    ? { scan: now, did: `Picture to scale by ${size}` }
    : 'Both picks are at one place, or the size is nothing.';
}

/** What all the picks of a task have come to; null where they are at one place and tell nothing. */
function done(
  scan: Scan,
  part: Part,
  task: ScanTask,
  target: Markable | null,
  picks: readonly Pixel[],
  within: number,
): Done | null {
  const [from, to] = picks;
  if (!from) return null;
  if (task === 'begin') return { scan: begunAt(scan, from), did: 'Left end of the picture placed' };
  if (task === 'straighten') {
    const straight = to ? straightened(scan, from, to) : null;
    return straight && { scan: straight, did: 'Picture straightened' };
  }
  const marked = target && markedAt(scan, part, target, from, to, within);
  return marked && { scan: marked, did: `${target.id} marked in the picture` };
}

function markedAt(
  scan: Scan,
  part: Part,
  { kind, id }: Markable,
  from: Pixel,
  to: Pixel | undefined,
  within: number,
): Scan | null {
  // What has gone meanwhile leaves nothing to mark.
  if (kindsOf(part).get(id) !== kind) return scan;
  if (kind === 'station') {
    const station = [...part.faces, ...part.points].find((one) => one.id === id);
    return station ? withTrace(scan, id, onDrawing(scan, from).x, station.sketched, within) : scan;
  }
  if (!to) return null;
  return kind === 'hole'
    ? withHole(scan, id, [from, to], within)
    : withOutline(scan, part, id, [from, to], within);
}

/** All that is done with a picture under the drawing. Few parts have one, so it is fetched with the first. */
export const scanDeeds = { asksFor, markable, toScale, done, quarterTurned, traced };
