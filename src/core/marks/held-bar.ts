import { toMm } from '../lengths/length.ts';
import type { Piece, Radial } from '../outline/radial.ts';
import { afterCut, bodyAt, startBar } from '../plan/bar.ts';
import type { Bar } from '../plan/bar.ts';
import { diameterOn } from '../plan/profile.ts';
import type { Profile } from '../plan/profile.ts';
import type { Cut, Holding, Plan, Support } from '../plan/types.ts';

/** The bar in one holding: as it stands before a step, after it, and when the holding is done. */
export type HeldBar = {
  readonly before: Bar;
  readonly after: Bar;
  readonly end: Bar;
  /** The bar as the holding begins. */
  readonly start: Bar;
  readonly cut: Cut | null;
};

/**
 * The bar of one holding. `cutNumber` is a cut's `n`; null, or a number that is not of this holding, gives the bar as
 * the holding begins. Null where the plan has no such holding.
 */
export function heldBar(plan: Plan, holdingIndex: number, cutNumber: number | null): HeldBar | null {
  const holding = plan.holdings[holdingIndex];
  if (!holding) return null;
  const start = plan.holdings
    .slice(0, holdingIndex)
    .reduce(
      (bar, { cuts, headstock }) => freeBody(cuts.reduce(afterCut, bar), headstock),
      startBar(plan.stock),
    );
  const at = holding.cuts.findIndex(({ n }) => n === cutNumber);
  const before = holding.cuts.slice(0, Math.max(at, 0)).reduce(afterCut, start);
  const cut = holding.cuts[at] ?? null;
  const after = cut ? afterCut(before, cut) : before;
  const end = holding.cuts.slice(Math.max(at, 0)).reduce(afterCut, before);
  return { before, after, end, start, cut };
}

/** What goes on to the next holding: the body away from the headstock, where a part-off left two. */
const freeBody = (bar: Bar, headstock: Holding['headstock']): Bar =>
  bodyAt(bar, headstock === 'right' ? 'left' : 'right');

/** The support in place at a step; without one, every support that the holding ever uses. */
export function supportAt(
  holding: Holding,
  cutNumber: number | null,
): { kind: Support; at_mm: number | null }[] {
  const found = new Map<Support, number | null>(
    holding.support.map((kind) => [kind, kind === 'steady' ? holding.steady_at_mm : null]),
  );
  for (const cut of holding.cuts) {
    if (cutNumber !== null && cut.n >= cutNumber) break;
    if (cut.kind !== 'support' || cut.support === null) continue;
    if (cutNumber !== null)
      for (const kind of [...found.keys()]) if (!cut.support.includes(kind)) found.delete(kind);
    for (const kind of cut.support)
      if (!found.has(kind)) found.set(kind, kind === 'steady' ? cut.z0_mm : null);
  }
  return [...found].map(([kind, at_mm]) => ({ kind, at_mm }));
}

/** +1 where the drawn left is toward the headstock. Pictures are as the operator sees them: headstock at the left. */
export const signOf = (holding: Holding): 1 | -1 => (holding.headstock === 'left' ? 1 : -1);

const ARC_STEPS = 8;

/** A profile of the bar as a drawn radius, in mm, as the operator sees it. */
export function radialOf(profile: Profile, sign: 1 | -1): Radial {
  const pieces = profile.flatMap((piece): Piece[] => {
    const steps = piece.shape === 'arc' ? ARC_STEPS : 1;
    return Array.from({ length: steps }, (_, i) => {
      const at = (k: number): { x: number; r: number } => {
        const z = (piece.z0 + ((piece.z1 - piece.z0) * k) / steps) as typeof piece.z0;
        const d = k === 0 ? piece.d0 : k === steps ? piece.d1 : diameterOn(piece.whole, z);
        return { x: toMm(z), r: toMm(d) / 2 };
      };
      const [a, b] = [at(i), at(i + 1)];
      return { x0: a.x, x1: b.x, r0: a.r, r1: b.r };
    });
  });
  if (sign > 0) return pieces;
  return pieces.map(({ x0, x1, r0, r1 }) => ({ x0: -x1, x1: -x0, r0: r1, r1: r0 })).reverse();
}
