import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { barOf, type Case, type Land, landsOf, largestBar, mm, sizeOf } from './refusal-drawing.ts';

/** A groove whose walls stand higher on both sides, with its depth under the lower of them. */
export function grooveOf(part: Part, id: string): { width: number; depth: number } | null {
  const lands = landsOf(part);
  const i = lands.findIndex((l) => l.id === id);
  const [before, land, after] = [lands[i - 1], lands[i], lands[i + 1]];
  if (!before || !land || !after) return null;
  return { width: land.l, depth: (Math.min(before.d, after.d) - land.d) / 2 };
}

/**
 * A cone that is refused has a wall at its small end, for else the tool that climbs it cuts it whole; and it is too steep
 * for one that goes down it, or has a wall at its large end too and is too short for two tools to meet on it.
 */
export function coneOutOfReach(of: Case, id = ''): boolean {
  const lands = landsOf(of.part);
  const i = lands.findIndex((l) => l.id === id);
  const cone = lands[i];
  if (cone?.form !== 'taper') return false;
  // Over an end of the part the bar may stand; turned from both ends, beyond the thickest land as well.
  const bothEnds = !of.way.startsWith('out of') || of.way === largestBar(of.lathe);
  const thickest = Math.max(...lands.map((l) => l.d));
  const byBar = i === 0 || i === lands.length - 1 || (bothEnds && cone.d === thickest);
  const sides = [lands.slice(0, i), lands.slice(i + 1)].map((side) =>
    Math.max(byBar ? barOf(of) : 0, ...side.map((l) => l.d)),
  );
  const drawn = of.part.segments[i];
  if (drawn?.form !== 'taper') return false;
  const [atStart = 0, atEnd = 0] = sides;
  const smallAtStart = mm(sizeOf(drawn.start), 'mm') < mm(sizeOf(drawn.end), 'mm');
  const [bySmall, byLarge] = smallAtStart ? [atStart, atEnd] : [atEnd, atStart];
  const steep = (cone.d - cone.low) / cone.l >= edgeOf(of.lathe);
  return bySmall > cone.low && (steep || (byLarge > cone.d && !twoToolsMeet(of, cone)));
}

/**
 * Whether two tools meet on a cone even between walls as high as the bar right at its ends. The edge of one rises behind
 * its point by 2 tan t on the diameter for each millimetre, the cone by s = (D - d) / l: the tool that goes down it
 * clears a wall W at the large end from (W - D) / (2 tan t - s) on, the one that goes up it a wall at the small end
 * from (W - d) / (2 tan t + s) on. What a wall stands over by no more than the allowance does no harm.
 */
function twoToolsMeet(of: Case, { d, low, l }: Land): boolean {
  const { unit, cut } = of.lathe;
  const edge = edgeOf(of.lathe);
  const slope = (d - low) / l;
  const wall = barOf(of) - mm(cut.allowance_on_diameter, unit);
  return (
    slope < edge && Math.max(0, wall - d) / (edge - slope) + Math.max(0, wall - low) / (edge + slope) < l
  );
}

/** What the edges of a lathe's turning tools rise by on the diameter for each millimetre, the flattest; 0 without both hands. */
function edgeOf({ tools }: Lathe): number {
  const trailing = tools.flatMap((t) =>
    t.kind === 'turn' && t.hand !== 'neutral' ? [{ hand: t.hand, deg: parseFloat(t.trailing ?? '30') }] : [],
  );
  if (new Set(trailing.map((t) => t.hand)).size < 2) return 0;
  return 2 * Math.tan((Math.min(...trailing.map((t) => t.deg)) * Math.PI) / 180);
}

/**
 * Work stands out with nothing to hold it up: what lies between a cut and the grip is at least as thick as its lands are, and
 * no longer than they are with the waste at both ends, the room for the tools and the jaws' distance.
 */
export function standsOut(of: Case, diameters = '', without = ''): boolean {
  const lands = landsOf(of.part);
  const hasCentre = of.lathe.support.includes('centre');
  if (diameters === '6' ? !hasCentre || !/^no centre/.test(without) : !/^neither/.test(without)) return false;
  return lands.some((_, i) =>
    lands.slice(i).some((__, k) => {
      const stretch = lands.slice(i, i + k + 1);
      const long = stretch.reduce((sum, l) => sum + l.l, 0) + 20 + barOf(of);
      return long > Number(diameters) * Math.max(...stretch.map((l) => l.low));
    }),
  );
}
