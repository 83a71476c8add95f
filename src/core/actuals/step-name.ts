import type { StepName } from '../part/types.ts';
import type { Cut, Holding, Plan } from '../plan/types.ts';

/** A cut with where it is made; holding null off the lathe. */
export type Placed = { readonly cut: Cut; readonly holding: Holding | null; readonly name: StepName };

/** What a step works on: its segment, what it makes, the face it makes, its tool; a support has none of them. */
function subject(cut: Cut): string {
  const station = cut.readings.find(({ station }) => typeof station === 'string')?.station;
  if (cut.kind === 'touch') return cut.tool ?? '';
  return cut.segment ?? cut.makes ?? station ?? cut.tool ?? '';
}

/**
 * All steps of a plan in order, each with a name that outlives the plan: what it works on, its kind, and which of that
 * kind it is, from 1. Worked out anew for another lathe or after a change elsewhere on the drawing, a plan still has
 * `{ of: 's1', kind: 'measure', pass: 2 }`, whatever its number is then.
 */
export function placedSteps(plan: Plan): readonly Placed[] {
  const counts = new Map<string, number>();
  const named = (cut: Cut, holding: Holding | null): Placed => {
    const of = subject(cut);
    const key = JSON.stringify([of, cut.kind]);
    const pass = (counts.get(key) ?? 0) + 1;
    counts.set(key, pass);
    return { cut, holding, name: { of, kind: cut.kind, pass } };
  };
  const held = plan.holdings.flatMap((holding) => holding.cuts.map((cut) => named(cut, holding)));
  return [...held, ...plan.off_lathe.map((cut) => named(cut, null))];
}

export const sameStep = (a: StepName, b: StepName): boolean =>
  a.of === b.of && a.kind === b.kind && a.pass === b.pass;

/** The step of this plan that bears a name; null where the plan has none such. */
export const findStep = (steps: readonly Placed[], name: StepName | undefined): Placed | null =>
  (name && steps.find((step) => sameStep(step.name, name))) ?? null;
