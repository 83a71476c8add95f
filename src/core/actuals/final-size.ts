import type { CutKind } from '../plan/types.ts';
import type { Measured } from './read-actual.ts';
import { findStep, type Placed } from './step-name.ts';

/** Steps that change the diameter of the segment or hole they work. */
const SIZING: ReadonlySet<CutKind> = new Set<CutKind>([
  'rough',
  'finish',
  'spring',
  'groove',
  'taper',
  'drill',
  'bore',
]);

/**
 * Whether metal is still to be cut from a diameter after it was measured: then it is no size of the finished piece. What
 * was measured off the lathe, or at a step that the plan no longer has, is taken as it is.
 */
export function cutAfterwards(actual: Measured, steps: readonly Placed[]): boolean {
  if (actual.what !== 'diameter') return false;
  const step = findStep(steps, actual.step);
  if (!step) return false;
  return steps
    .slice(steps.indexOf(step) + 1)
    .some(({ cut }) => SIZING.has(cut.kind) && (cut.segment === actual.of || cut.makes === actual.of));
}
