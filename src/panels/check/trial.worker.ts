import { followingMaker, matchedMaker } from '../../core/stacks/diameter-pieces.ts';
import { keptExperiment, keptMaker, measuredMaker } from '../../core/stacks/kept-pieces.ts';
import { makePieces, type PieceMaker, type PieceTrial } from '../../core/stacks/pieces.ts';
import { resolvePart } from '../../core/part/resolve.ts';
import type { ResolvedPart } from '../../core/part/resolved.ts';
import type { Part } from '../../core/part/types.ts';

/** What is made; figures in pm. `hold`: how near to its aim the work comes out. */
export type TrialOf =
  | { readonly what: 'stack'; readonly from: string; readonly to: string }
  | {
      readonly what: 'measured';
      readonly from: string;
      readonly to: string;
      readonly goal: number;
      readonly hold: number;
    }
  | { readonly what: 'following'; readonly segment: string }
  | { readonly what: 'matched'; readonly group: readonly string[]; readonly hold: number };

export type TrialOrder = {
  readonly part: Part;
  readonly of: TrialOf;
  readonly gate: readonly [min: number, max: number] | null;
  readonly range: readonly [low: number, high: number];
  readonly bins: number;
  readonly samples: number;
  readonly seed: number;
};
export type TrialAnswer = { readonly trial: PieceTrial } | { readonly failed: string };

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

function makerFor(part: ResolvedPart, of: TrialOf): PieceMaker | null {
  if (of.what === 'matched') return matchedMaker(part, of.group, of.hold);
  if (of.what === 'following') {
    const segment = part.segments.find(({ id }) => id === of.segment);
    return segment?.form === 'taper' ? followingMaker(part, segment) : null;
  }
  const experiment = keptExperiment(part, of.from, of.to);
  if (!experiment) return null;
  return of.what === 'stack' ? keptMaker(part, experiment) : measuredMaker(part, experiment, of);
}

scope.onmessage = ({ data }: MessageEvent<TrialOrder>) => {
  const answer = (message: TrialAnswer) => scope.postMessage(message);
  const make = makerFor(resolvePart(data.part), data.of);
  if (!make) return answer({ failed: 'Nothing ties these together.' });
  const [min, max] = data.gate ?? data.range;
  for (const trial of makePieces(make, { ...data, min, max })) answer({ trial });
};
