import { sameStep, type Placed } from '../core/actuals/step-name.ts';
import type { Part, StepName } from '../core/part/types.ts';

/** Whether a step bears a tick; known from the part alone. */
export const isTicked = (part: Part, name: StepName): boolean =>
  (part.actuals ?? []).some((actual) => actual.what === 'done' && sameStep(actual.step, name));

/** How many ticks belong to steps that the plan no longer has. */
export const strayTicks = (part: Part, steps: readonly Placed[]): number =>
  (part.actuals ?? []).filter(
    (actual) => actual.what === 'done' && !steps.some(({ name }) => sameStep(name, actual.step)),
  ).length;
