import type { Placed } from '../core/actuals/step-name.ts';
import { findStep } from '../core/actuals/step-name.ts';
import type { StepName } from '../core/part/types.ts';

/**
 * The page that was open when the work stopped: by the name of its step, so that it is found in a changed plan too, and
 * by its number where that plan has no such step. What was ticked and measured is in the part itself.
 */
export type Progress = {
  readonly at: number;
  readonly step: StepName | null;
  /** Pecks, or things one after another, that are done at this step. */
  readonly pecks: number;
};

/** A page and nothing done on it; the page after the last step is the record. */
export const progressAt = (steps: readonly Placed[], at: number): Progress => {
  const page = Math.max(0, Math.min(at, steps.length));
  return { at: page, step: steps[page]?.name ?? null, pecks: 0 };
};

/** The page to open: where the work stopped, else the first step that has no tick. */
export function pageOf(progress: Progress | null, steps: readonly Placed[], done: readonly number[]): number {
  if (!progress) {
    const open = steps.findIndex(({ cut }) => !done.includes(cut.n));
    return open < 0 ? steps.length : open;
  }
  const step = findStep(steps, progress.step ?? undefined);
  return step ? steps.indexOf(step) : Math.max(0, Math.min(progress.at, steps.length));
}

/** What a store of the browser gave back, where it is the page of a bench. */
export function readProgress(kept: unknown): Progress | null {
  if (typeof kept !== 'object' || kept === null) return null;
  const { at, step, pecks } = kept as Record<string, unknown>;
  if (typeof at !== 'number') return null;
  return { at, step: isStepName(step) ? step : null, pecks: typeof pecks === 'number' ? pecks : 0 };
}

function isStepName(step: unknown): step is StepName {
  if (typeof step !== 'object' || step === null) return false;
  const { of, kind, pass } = step as Record<string, unknown>;
  return typeof of === 'string' && typeof kind === 'string' && typeof pass === 'number';
}
