import { toMm, type Unit } from '../lengths/length.ts';
import type { Hole, Part } from '../part/types.ts';
import { readCentreDrill } from '../standards/centre-drills.ts';
import { readThread } from '../standards/threads.ts';
import { drawnSize } from './profile.ts';
import { combine, through, type Piece } from './radial.ts';

/** A hole along the axis as drawn, mm. */
export type DrawnHole = {
  readonly id: string;
  readonly inside: readonly Piece[];
  /** A tapped hole's nominal radius over the depth of its thread; null for the others. */
  readonly thread: readonly Piece[] | null;
};
type Corner = readonly [number, number];

// Half the usual 118° point of a twist drill; half the 60° of a centre.
const POINT = Math.tan((59 * Math.PI) / 180);
const CENTRE = Math.tan((30 * Math.PI) / 180);

/** Holes along the axis; one whose sizes cannot be read is left out. `extent`: length of the drawn part, mm. */
export function drawnHoles(part: Part, extent: number): DrawnHole[] {
  return part.holes.flatMap((hole) => {
    const made = corners(hole, part.unit, extent);
    if (!made) return [];
    const fromRight = hole.from === part.faces.at(-1)?.id;
    const lay = (list: readonly Corner[]) => {
      const kept = list.map(([x, r]): Corner => [Math.min(x, extent), r]);
      return through(fromRight ? kept.map(([x, r]): Corner => [extent - x, r]).reverse() : kept);
    };
    return [{ id: hole.id, inside: lay(made.inside), thread: made.thread && lay(made.thread) }];
  });
}

/** All holes as one inside. */
export const insideOf = (holes: readonly DrawnHole[]): Piece[] =>
  holes.reduce<Piece[]>((all, hole) => combine(all, hole.inside, 'larger'), []);

function corners(
  hole: Hole,
  unit: Unit,
  extent: number,
): { inside: Corner[]; thread: Corner[] | null } | null {
  if (hole.form === 'centre') return centre(hole.size);
  if (hole.form === 'tap') return tapped(hole, unit);
  const d = drawnSize(hole.diameter, unit);
  const depth = hole.through ? extent : drawnSize(hole.depth, unit);
  if (!d || !depth) return null;
  const tip = hole.form === 'drill' && !hole.through ? d / 2 / POINT : 0;
  return { inside: blind(d / 2, depth, tip), thread: null };
}

function blind(r: number, depth: number, tip: number): Corner[] {
  return tip > 0
    ? [
        [0, r],
        [depth, r],
        [depth + tip, 0],
      ]
    : [
        [0, r],
        [depth, r],
      ];
}

function tapped(hole: Hole & { form: 'tap' }, unit: Unit): { inside: Corner[]; thread: Corner[] } | null {
  const thread = readThread(hole.thread);
  const depth = drawnSize(hole.depth, unit);
  if (!thread.ok || !depth) return null;
  const nominal = toMm(thread.value.nominal);
  const drill = thread.value.tapDrill ? toMm(thread.value.tapDrill.diameter) : toMm(thread.value.minor);
  const drilled = drawnSize(hole.drill_depth, unit) ?? depth;
  return {
    inside: blind(drill / 2, Math.max(drilled, depth), drill / 2 / POINT),
    thread: blind(nominal / 2, depth, 0),
  };
}

function centre(size: string): { inside: Corner[]; thread: null } | null {
  const read = readCentreDrill(size);
  if (!read.ok) return null;
  const [pilot, mouth] = [toMm(read.value.pilot) / 2, toMm(read.value.mouth) / 2];
  const cone = (mouth - pilot) / CENTRE;
  return {
    inside: [
      [0, mouth],
      [cone, pilot],
      [cone + 2 * pilot, pilot],
      [cone + 2 * pilot + pilot / POINT, 0],
    ],
    thread: null,
  };
}
