import { expect } from 'vitest';
import type { Outline } from '../../../src/core/outline/types.ts';
import type { ResolvedLathe } from '../../../src/core/part/resolved.ts';
import { replay } from '../../../src/core/plan/virtual-lathe.ts';
import type { Cut, CutKind, Holding, Plan, Reading } from '../../../src/core/plan/types.ts';

/** What a plan is made for. */
export type Bench = { readonly plan: Plan; readonly outline: Outline; readonly lathe: ResolvedLathe };

/** One way of spoiling it: changes the plan, or gives back another outline or lathe to hold it against. */
export type Spoil = (plan: Plan) => Partial<Pick<Bench, 'outline' | 'lathe'>> | undefined;

/** Codes that a spoilt plan was caught for, each once, in order of the alphabet. */
export function caught(bench: Bench, spoil: Spoil): string[] {
  const plan = structuredClone(bench.plan);
  const against = spoil(plan) ?? {};
  const problems = replay(plan, against.outline ?? bench.outline, against.lathe ?? bench.lathe);
  for (const { say, where } of problems)
    expect([say, where]).toEqual([expect.stringMatching(/\.$/), expect.stringMatching(/./)]);
  return [...new Set(problems.map((p) => p.code))].sort();
}

const missing = (what: string): never => {
  throw new Error(`the plan to be spoilt has no ${what}`);
};

export const holding = (plan: Plan, id: string): Holding =>
  plan.holdings.find((h) => h.id === id) ?? missing(`holding ${id}`);

const all = (plan: Plan): Cut[] => plan.holdings.flatMap((h) => h.cuts);

export const numbered = (plan: Plan, n: number): Cut =>
  all(plan).find((c) => c.n === n) ?? missing(`cut ${n}`);

/** The cuts of a kind, on a segment where one is named, in order. */
export const cuts = (plan: Plan, kind: CutKind, segment?: string): Cut[] =>
  all(plan).filter((c) => c.kind === kind && (segment === undefined || c.segment === segment));

export const nth = (plan: Plan, kind: CutKind, segment?: string, i = 0): Cut =>
  cuts(plan, kind, segment).at(i) ?? missing(`${kind} ${segment ?? ''}`);

export const reading = (cut: Cut, axis: Reading['axis'], i = 0): Reading =>
  cut.readings.filter((r) => r.axis === axis)[i] ?? missing(`reading on ${axis}`);

export function without(plan: Plan, ...gone: Cut[]): undefined {
  for (const h of plan.holdings) h.cuts = h.cuts.filter((c) => !gone.includes(c));
  return undefined;
}

/** Puts a cut of its own numbers in front of another, between whole numbers. */
export function ahead(plan: Plan, of: Cut, ...fresh: Cut[]): undefined {
  for (const h of plan.holdings) {
    const i = h.cuts.indexOf(of);
    if (i >= 0)
      h.cuts.splice(i, 0, ...fresh.map((c, k) => ({ ...c, n: of.n - 1 + (k + 1) / (fresh.length + 1) })));
  }
  return undefined;
}
