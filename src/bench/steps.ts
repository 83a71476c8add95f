import { placedSteps, type Placed } from '../core/actuals/step-name.ts';
import { CUT_NAMES } from '../core/plan/cut-names.ts';
import type { ResolvedLathe } from '../core/part/resolved.ts';
import type { Cut, Holding, Plan, Reading } from '../core/plan/types.ts';

type Readout = Pick<ResolvedLathe['readout'], 'x' | 'zPositive'>;

/** One page of the work: a cut, the holding it is made in (null off the lathe), and a name that outlives the plan. */
export type Step = Placed;

/** All cuts of a plan in the order they are made, what is done off the lathe last. */
export const stepsOf = (plan: Plan | null): readonly Step[] => (plan ? placedSteps(plan) : []);

/** Whether another holding (or the work off the lathe) begins with this page. */
export const startsHolding = (steps: readonly Step[], i: number): boolean =>
  i === 0 || steps[i - 1]?.holding?.id !== steps[i]?.holding?.id;

/** What a step is called on a list and over its readings. */
export const stepName = (cut: Cut): string => CUT_NAMES[cut.kind];

const devices = { collet: 'in the collet', chuck: 'in the chuck', centres: 'between centres' } as const;

/** "Holding H1, in the collet", or where work off the lathe is done. */
export function placeOfStep({ holding }: Step): string {
  return holding ? `Holding ${holding.id}, ${devices[holding.device]}` : 'Off the lathe';
}

export const deviceWords = (holding: Holding): string => devices[holding.device];

/** Which way a drawn end points while the work is held so. */
export const headstockWords = (holding: Holding): string =>
  `drawn ${holding.headstock} end toward the headstock`;

/** The edge of a blade as the operator sees it: its left is the headstock side. */
export const edgeWords = (edge: 'left' | 'right'): string =>
  edge === 'left' ? 'headstock side' : 'tailstock side';

/**
 * Which way a reading lies, as the operator sees it: from Z 0 toward the headstock or the tailstock, whichever way the
 * readout counts; on X inward, or outward in a bore, and whether X shows the diameter or the radius. Empty at Z 0.
 */
export function wayOf(
  { axis, value_mm }: Pick<Reading, 'axis' | 'value_mm'>,
  cut: Cut,
  readout: Readout,
): string {
  if (axis === 'quill') return 'into the work';
  if (axis === 'X')
    return `${readout.x}, ${cut.kind === 'touch' ? 'touching' : cut.inside ? 'outward' : 'inward'}`;
  if (Math.abs(value_mm) < 1e-9) return '';
  return value_mm > 0 === (readout.zPositive === 'tailstock')
    ? 'toward the tailstock →'
    : '← toward the headstock';
}
