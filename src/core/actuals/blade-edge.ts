import type { Actual } from '../part/types.ts';
import type { Reading } from '../plan/types.ts';
import { findStep, type Placed } from './step-name.ts';

/** An edge of a blade as the operator sees it: `left` is toward the headstock. */
export type Edge = 'left' | 'right';

/**
 * A reading of a blade by the edge that it was touched off by: where that is not the planned one, the reading by the
 * other edge takes its place and the two change roles. Any other reading comes back as it is.
 */
export function byEdge(reading: Reading, edge: Edge | undefined): Reading {
  const { other, edge: planned, value_mm, text } = reading;
  if (!edge || !planned || !other || edge === planned) return reading;
  return { ...reading, ...other, other: { edge: planned, value_mm, text } };
}

/** Blades whose edge was said, by the number of the cut from which on it holds; what was said last counts. */
export function edgesSaid(
  log: readonly Actual[],
  steps: readonly Placed[],
): ReadonlyMap<number, ReadonlyMap<string, Edge>> {
  const said = new Map<number, Map<string, Edge>>();
  for (const actual of log) {
    if (actual.what !== 'touch' || !actual.edge) continue;
    const step = findStep(steps, actual.step);
    if (!step) continue;
    const blades = said.get(step.cut.n) ?? new Map<string, Edge>();
    said.set(step.cut.n, blades.set(actual.of, actual.edge));
  }
  return said;
}
