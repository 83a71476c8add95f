import { keptExperiment, keptPieces, type KeptTrial } from '../../core/stacks/kept-pieces.ts';
import type { DistributionKind } from '../../core/stacks/distribution.ts';
import { resolvePart } from '../../core/part/resolve.ts';
import type { Part } from '../../core/part/types.ts';

/** What is to be tried between two stations; figures in pm. */
export type TrialOrder = {
  readonly part: Part;
  readonly from: string;
  readonly to: string;
  readonly kinds: readonly (readonly [string, DistributionKind])[];
  readonly gate: readonly [min: number, max: number] | null;
  readonly range: readonly [low: number, high: number];
  readonly bins: number;
  readonly samples: number;
  readonly seed: number;
};
export type TrialAnswer = { readonly trial: KeptTrial } | { readonly failed: string };

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = ({ data }: MessageEvent<TrialOrder>) => {
  const answer = (message: TrialAnswer) => scope.postMessage(message);
  const experiment = keptExperiment(resolvePart(data.part), data.from, data.to);
  if (!experiment) return answer({ failed: 'Nothing ties these stations.' });
  const [min, max] = data.gate ?? data.range;
  for (const trial of keptPieces(experiment, { ...data, kinds: new Map(data.kinds), min, max })) {
    answer({ trial });
  }
};
