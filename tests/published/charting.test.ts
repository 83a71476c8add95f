import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type Link, resultant } from '../../src/core/plan/error-tree.ts';

// C01: lecture note on tolerances (block with a slot, three process plans), published verdicts.
// C05: university examination in functional dimensioning, published solution.
// K1 to K5: a stepped shaft worked by hand for this project; arithmetic only.
type Case = {
  id: string;
  title: string;
  stock: { from: string; to: string; mean: number; tol: number }[];
  operations: { op: number; datum: string; cut: string; mean: number; tol: number; sign?: number }[];
  blueprint: { from: string; to: string; tol: number | null }[];
  recomputed: {
    resultants: { dim: string; mean: number; worst_case: number; meets_worst_case: boolean | null }[];
    stock_removal?: { op: number; surface: string; mean: number; worst_case: number; min: number }[];
  };
};
const data = new URL('data/charting.json', import.meta.url);
const { cases } = JSON.parse(readFileSync(data, 'utf8')) as { cases: Case[] };

/** Each cut makes a new state of its surface; states are named "A@0" as sawn, "A@1" after the first cut, … */
function charted(one: Case): { links: Link[]; states: Map<string, string[]> } {
  const states = new Map<string, string[]>();
  const now = (surface: string): string => states.get(surface)?.at(-1) ?? `${surface}@0`;
  const links: Link[] = one.stock.map((s) => {
    states.set(s.from, [`${s.from}@0`]).set(s.to, [`${s.to}@0`]);
    return { a: `${s.from}@0`, b: `${s.to}@0`, distance: s.mean, error: s.tol };
  });
  for (const op of one.operations) {
    const made = states.get(op.cut) ?? [];
    const state = `${op.cut}@op${op.op}`;
    links.push({ a: now(op.datum), b: state, distance: op.mean * (op.sign ?? 1), error: op.tol });
    states.set(op.cut, [...made, state]);
  }
  return { links, states };
}

describe.each(cases.map((c) => [`${c.id} ${c.title}`, c] as const))('%s', (_name, one) => {
  const { links, states } = charted(one);
  const last = (surface: string): string => states.get(surface)?.at(-1) ?? surface;

  test.each(one.recomputed.resultants)('$dim', ({ dim, mean, worst_case, meets_worst_case }) => {
    const [from = '', to = ''] = dim.split('-');
    const found = resultant(links, last(from), last(to));
    expect(Math.abs(found?.distance ?? NaN)).toBeCloseTo(mean, 6);
    expect(found?.error).toBeCloseTo(worst_case, 6);
    const allowed = one.blueprint.find((b) => b.from === from && b.to === to)?.tol ?? null;
    if (allowed !== null && meets_worst_case !== null)
      expect((found?.error ?? Infinity) <= allowed + 1e-9).toBe(meets_worst_case);
  });

  test.each(one.recomputed.stock_removal ?? [])(
    'metal taken by op $op',
    ({ op, surface, mean, worst_case }) => {
      const made = states.get(surface) ?? [];
      const at = made.indexOf(`${surface}@op${op}`);
      const found = resultant(links, made[at - 1] ?? `${surface}@0`, made[at] ?? '');
      expect(Math.abs(found?.distance ?? NaN)).toBeCloseTo(Math.abs(mean), 6);
      expect(found?.error).toBeCloseTo(worst_case, 6);
    },
  );
});
