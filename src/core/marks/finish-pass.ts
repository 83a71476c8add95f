import type { BeamPiece } from '../stiffness/beam.ts';
import type { Pass } from '../stiffness/error.ts';
import type { Bar } from '../plan/bar.ts';
import type { Cut, Holding, Plan, StiffnessRow } from '../plan/types.ts';
import { heldBar, supportAt } from './held-bar.ts';

/** The last finishing pass over a segment as a loaded bar, with what the plan says of it. */
export type FinishPass = {
  readonly pass: Pass;
  readonly row: StiffnessRow;
  /** Grip to free end, mm, as the bar stands at that cut. */
  readonly standsOut_mm: number;
};

/**
 * The bar as it stands, is held and is pushed at the last finishing pass of the segment that a cut works on, counted
 * from the edge of the grip outward. Null where the plan has no stiffness figure for it (no cutting force known for
 * the metal, no limits, not a finishing cut).
 *
 * @param youngs_MPa - Young's modulus of the work, N/mm².
 */
export function finishPass(
  plan: Plan,
  holdingIndex: number,
  cut: Cut,
  youngs_MPa: number,
): FinishPass | null {
  const holding = plan.holdings[holdingIndex];
  if (!holding || !['finish', 'spring', 'groove', 'measure'].includes(cut.kind)) return null;
  const row = plan.stiffness.find((r) => r.holding === holding.id && r.segment === cut.segment);
  const last = holding.cuts.findLast(
    (c) => c.segment === cut.segment && (c.kind === 'finish' || c.kind === 'groove') && !c.inside,
  );
  const held = last && heldBar(plan, holdingIndex, last.n);
  if (!row || !last || !held) return null;
  const away = awayFrom(holding, held.before);
  const pieces = beamPieces(held.before, away);
  const support = supportAt(holding, last.n);
  const centres = holding.device === 'centres';
  const steady = support.find(({ kind }) => kind === 'steady')?.at_mm ?? null;
  const ends = [away(last.z0_mm), away(last.z1_mm)];
  return {
    row,
    standsOut_mm: pieces.at(-1)?.z1_mm ?? 0,
    pass: {
      pieces,
      support: {
        centre: centres || support.some(({ kind }) => kind === 'centre'),
        steadyAt_mm: steady === null ? null : away(steady),
        travellingBehind_mm: support.some(({ kind }) => kind === 'travelling-steady') ? 8 : null,
        start: centres ? 'centre' : 'grip',
      },
      from_mm: Math.min(...ends),
      to_mm: Math.max(...ends),
      radialForce_N: row.force_n,
      youngs_MPa,
    },
  };
}

/** How far a place stands out from the grip's edge toward the free end; between centres, from the headstock end. */
function awayFrom({ device, grips, headstock }: Holding, bar: Bar): (z_mm: number) => number {
  const held = device === 'centres' ? null : grips;
  if (headstock === 'right') {
    const edge = held?.z0_mm ?? bar.z1 / 1e9;
    return (z) => edge - z;
  }
  const edge = held?.z1_mm ?? bar.z0 / 1e9;
  return (z) => z - edge;
}

/** The bar outside the grip in level stretches, a cone counted as its larger end. */
function beamPieces(bar: Bar, away: (z_mm: number) => number): BeamPiece[] {
  const marks = [...bar.outside, ...bar.inside].flatMap((p) => [p.z0 / 1e9, p.z1 / 1e9]);
  const places = [...new Set([0, ...marks.map(away).filter((z) => z > 0)])].sort((a, b) => a - b);
  return places.slice(1).map((z1_mm, i) => {
    const z0_mm = places[i] ?? 0;
    const middle = (z0_mm + z1_mm) / 2;
    const at = (profile: Bar['outside']): number => {
      const piece = profile.find((p) => {
        const ends = [away(p.z0 / 1e9), away(p.z1 / 1e9)];
        return Math.min(...ends) <= middle && Math.max(...ends) >= middle;
      });
      return piece ? Math.max(piece.d0, piece.d1) / 1e9 : 0;
    };
    return { z0_mm, z1_mm, d_mm: at(bar.outside), bore_mm: at(bar.inside) };
  });
}
