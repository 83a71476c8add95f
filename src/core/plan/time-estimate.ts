import { afterCut, type Bar, bodyAt, startBar } from './bar.ts';
import type { Cut, CutKind, Holding, Plan } from './types.ts';

export type HoldingTime = {
  readonly holding: string;
  /** The tool in the metal. */
  readonly cutting_min: number;
  /** Holding the work, setting tools, measuring, winding back. */
  readonly handling_min: number;
};

export type TimeEstimate = {
  readonly holdings: readonly HoldingTime[];
  readonly offLathe_min: number;
  readonly total_min: number;
};

/** Feeds by hand, mm a turn: along the work, a blade plunging, a drill. Common practice, no source. */
const HAND = { along: 0.05, blade: 0.03, drill: 0.05 };

/** Minutes to hold the work and make ready. Common practice, no source. */
const HOLD: Readonly<Record<Holding['device'], number>> = { collet: 8, chuck: 10, centres: 15 };

/** Minutes around a step besides the cut itself. Common practice, no source. */
const AROUND: Readonly<Record<CutKind, number>> = {
  face: 0.5,
  'centre-drill': 1.5,
  drill: 1.5,
  tap: 4,
  bore: 1,
  rough: 0.5,
  finish: 0.5,
  spring: 0.2,
  groove: 0.5,
  taper: 6,
  chamfer: 1,
  fillet: 1.5,
  undercut: 1.5,
  thread: 5,
  'part-off': 1,
  sever: 3,
  touch: 2,
  measure: 1.5,
  support: 2,
  prove: 5,
  cross: 25,
  deburr: 10,
};

/** Winding back and setting the next depth, minutes a pass; a drill out of its hole and in again, minutes a peck. */
const PASS = 0.3;
const PECK = 0.2;

/**
 * Roughly how long the work takes a practised hand, holding by holding, in minutes. Good to between half and twice at
 * best: the time in the metal is figured, the rest is common practice without a source.
 */
export function timeEstimate(plan: Plan): TimeEstimate {
  let bar = startBar(plan.stock);
  const holdings = plan.holdings.map((holding): HoldingTime => {
    let cutting_min = 0;
    let handling_min = HOLD[holding.device];
    for (const cut of holding.cuts) {
      cutting_min += cuttingMinutes(cut, bar);
      handling_min += AROUND[cut.kind] + backAndForth(cut);
      bar = afterCut(bar, cut);
    }
    bar = bodyAt(bar, holding.headstock === 'right' ? 'left' : 'right');
    return { holding: holding.id, cutting_min, handling_min };
  });
  const offLathe_min = plan.off_lathe.reduce((sum, cut) => sum + AROUND[cut.kind], 0);
  const held = holdings.reduce((sum, h) => sum + h.cutting_min + h.handling_min, 0);
  return { holdings, offLathe_min, total_min: held + offLathe_min };
}

const backAndForth = ({ kind, passes }: Cut): number =>
  kind === 'drill' ? passes * PECK : Math.max(0, passes - 1) * PASS;

/**
 * Minutes that the tool is in the metal: travel × passes / (feed × turns a minute), the usual formula for machining
 * time. 0 where nothing turns under power.
 *
 * @param bar - As it stands before the cut; a face and a blade travel from its skin.
 */
export function cuttingMinutes(cut: Cut, bar: Bar): number {
  if (cut.rpm === null || cut.rpm <= 0 || cut.hand_turned) return 0;
  const { travel, feed } = travelOf(cut, bar);
  return (travel * (cut.kind === 'drill' ? 1 : cut.passes)) / (feed * cut.rpm);
}

function travelOf(cut: Cut, bar: Bar): { travel: number; feed: number } {
  const along = Math.abs(cut.z1_mm - cut.z0_mm);
  const inward = Math.max(0, (standing(bar, cut) - Math.min(cut.d0_mm ?? 0, cut.d1_mm ?? 0)) / 2);
  if (cut.kind === 'face') return { travel: inward, feed: cut.feed_mm ?? HAND.along };
  if (cut.kind === 'drill' || cut.kind === 'centre-drill') return { travel: along, feed: HAND.drill };
  if (cut.kind === 'thread') return { travel: along, feed: cut.setting?.pitch_mm ?? 1 };
  // A cut without a power feed that goes deeper than wide, or any groove, is a blade plunging.
  const plunges = ['groove', 'part-off', 'undercut', 'chamfer'].includes(cut.kind);
  if (plunges || (cut.kind === 'rough' && cut.feed_mm === null)) return { travel: inward, feed: HAND.blade };
  return { travel: along, feed: cut.feed_mm ?? HAND.along };
}

/** The largest diameter that stands between a cut's two places, mm. */
function standing(bar: Bar, cut: Cut): number {
  const z0 = Math.min(cut.z0_mm, cut.z1_mm) * 1e9;
  const z1 = Math.max(cut.z0_mm, cut.z1_mm) * 1e9;
  const met = bar.outside.filter((p) => p.z0 < z1 && p.z1 > z0);
  return met.reduce((most, p) => Math.max(most, p.d0, p.d1), 0) / 1e9;
}
