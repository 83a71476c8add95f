import { solve } from 'yalps';
import type { Elastic } from './elastic.ts';

/** Micrometres: deviations of a shaft lie near 1, far from what the solver rounds away. */
const UNIT = 1_000_000;

/**
 * By how much each limit is to be exceeded where not all can be kept, so that the sum of what is exceeded is least; of
 * equal sums the one whose wider limits give way. A linear programme in the deviations from the aims; its vertices are
 * whole picometres, as the matrix of difference constraints is totally unimodular.
 *
 * @param keep - Those, by id, that are not to be exceeded.
 * @param order - Pairs of stations that stand in this order.
 * @returns Excess in pm for each elastic, 0 for most; null where no places whatever keep the order.
 */
export function leastExcess(
  elastics: readonly Elastic[],
  order: readonly (readonly [left: number, right: number])[],
  fixed: ReadonlyMap<number, number>,
  aims: Float64Array,
  keep: ReadonlySet<string>,
): number[] | null {
  const constraints = new Map<string, { min?: number; max?: number }>();
  const variables = new Map<string, Map<string, number>>();
  const add = (variable: string, row: string, factor: number) => {
    const rows = variables.get(variable) ?? new Map<string, number>();
    variables.set(variable, rows.set(row, factor));
  };
  const aim = (s: number) => aims[s] ?? 0;
  /** Puts `z_to - z_from` into a row, and returns what the fixed stations already give. */
  const difference = (row: string, from: number, to: number): number => {
    let known = 0;
    for (const [s, sign] of [
      [to, 1],
      [from, -1],
    ] as const) {
      const place = fixed.get(s);
      known += sign * (place ?? aim(s));
      if (place !== undefined) continue;
      add(`+${s}`, row, sign);
      add(`-${s}`, row, -sign);
    }
    return known;
  };
  const widths = elastics.map(({ min, max }) => max - min);
  const byWidth = [...widths].sort((a, b) => b - a);
  elastics.forEach(({ id, from, to, min, max }, e) => {
    const known = difference(`max${e}`, from, to);
    difference(`min${e}`, from, to);
    constraints.set(`max${e}`, { max: (max - known) / UNIT });
    constraints.set(`min${e}`, { min: (min - known) / UNIT });
    if (keep.has(id)) return;
    add(`e${e}`, `max${e}`, -1);
    add(`e${e}`, `min${e}`, 1);
    add(`e${e}`, 'total', 1 + (1e-4 * byWidth.indexOf(widths[e] ?? 0)) / elastics.length);
  });
  order.forEach(([left, right], i) => {
    const known = difference(`order${i}`, left, right);
    constraints.set(`order${i}`, { min: -known / UNIT });
  });
  const { status, variables: found } = solve(
    { direction: 'minimize', objective: 'total', constraints, variables },
    { checkCycles: true },
  );
  if (status !== 'optimal') return null;
  const values = new Map(found);
  return elastics.map((_, e) => Math.round((values.get(`e${e}`) ?? 0) * UNIT));
}
