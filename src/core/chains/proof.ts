import { nearest, toMm } from '../lengths/length.ts';
import type { Tie } from './graph.ts';
import type { Constraints } from './limits.ts';
import { walkedStations } from './loops.ts';
import type { Loop } from './loops.ts';
import type { Situation } from './situation.ts';
import type { ChainsReport } from './types.ts';

/** Why no part whatever can keep all limits. `byOrder`: the order of the faces is part of the proof. */
export type Proof = { readonly entry: NonNullable<ChainsReport['impossible']>; readonly byOrder: boolean };

/**
 * The proof that the limits cannot all be kept, or null. A loop of lengths that contradict themselves is the plainest proof, so the
 * shortest such loop is shown; else the negative cycle that Bellman-Ford found, which then leans on the order of the faces.
 */
export function findProof(situation: Situation): Proof | null {
  const { graph, loops, constraints, feasibility } = situation;
  const loop = loops.find(({ shortBy }) => shortBy > 0);
  if (loop) return { entry: loopProof(situation, loop), byOrder: false };
  if (feasibility.possible) return null;
  const { cycle } = feasibility;
  const ties = [...new Set(cycle.map((arc) => constraints.tie[arc] as number))].filter((t) => t >= 0);
  return {
    entry: {
      lengths: ties.map((t) => (graph.ties[t] as Tie).id),
      faces: cycle.map((arc) => graph.stations[constraints.from[arc] as number] as string),
      short_by_mm: toMm(nearest(-weightOf(constraints, cycle))),
    },
    byOrder: cycle.some((arc) => constraints.tie[arc] === -1),
  };
}

function loopProof({ graph }: Situation, loop: Loop): Proof['entry'] {
  return {
    lengths: loop.ties.map((t) => (graph.ties[t] as Tie).id),
    faces: walkedStations(graph, loop.ties).map((s) => graph.stations[s] as string),
    short_by_mm: toMm(nearest(loop.shortBy)),
  };
}

const weightOf = (constraints: Constraints, cycle: readonly number[]): number =>
  cycle.reduce((sum, arc) => sum + (constraints.weight[arc] as number), 0);
