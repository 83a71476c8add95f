import { nearest } from '../lengths/length.ts';
import { writeShort } from '../lengths/write.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import type { Tie } from './graph.ts';
import type { Loop } from './loops.ts';
import type { Proof } from './proof.ts';
import type { Situation } from './situation.ts';
import type { Suspicion } from './suspects.ts';
import type { ChainsReport } from './types.ts';

type Findings = {
  readonly missing: ChainsReport['missing'];
  readonly suspicions: readonly Suspicion[];
  readonly proof: Proof | null;
};

/** Sums of places must stay whole numbers even when halved: 2^51 pm is 2.2 km. */
const LONGEST_SUM = 2 ** 51;

/** Why lengths that add up to kilometres are not solved; null for every part that could be turned. */
export function tooLong(part: ResolvedPart): Problem | null {
  const sum = part.lengths.reduce((total, { size }) => total + size.max, 0);
  if (sum < LONGEST_SUM) return null;
  const where = part.lengths[0]?.id ?? '';
  return {
    code: 'too-long',
    where,
    say: 'The lengths add up to more than two kilometres; they are not solved.',
  };
}

/** Errors for open and clashing chains and for limits that contradict themselves. */
export function chainErrors(situation: Situation, { missing, suspicions, proof }: Findings): Problem[] {
  return [
    ...missing.map(({ between: [left, right], why }): Problem => ({
      code: 'open',
      where: left,
      say: why,
      facts: { left, right },
    })),
    ...situation.loops.filter(({ closes }) => !closes).map((loop) => clash(situation, loop, suspicions)),
    ...(proof && !proof.byOrder ? [impossible(situation, proof)] : []),
  ];
}

function clash({ graph, part }: Situation, loop: Loop, suspicions: readonly Suspicion[]): Problem {
  const ids = loop.ties.map((t) => (graph.ties[t] as Tie).id);
  const gap = writeShort(nearest(Math.abs(loop.gap)), part.unit);
  const first = suspicions[0];
  const likely = first?.hint ? ` ${first.hint}` : '';
  const anyway = loop.shortBy <= 0 ? ' Their limits could just take that up.' : '';
  const say = `${ids.join(', ')} do not agree: they miss one another by ${gap}.${anyway}${likely}`;
  return { code: 'clashing', where: first?.length.id ?? ids[0] ?? '', say, facts: { lengths: ids } };
}

function impossible({ part }: Situation, { entry }: Proof): Problem {
  const short = writeShort(nearest(entry.short_by_mm * 1e9), part.unit);
  const say = `No part can keep the limits of ${entry.lengths.join(', ')} at once: they are ${short} short.`;
  return { code: 'impossible', where: entry.lengths[0] ?? '', say, facts: { lengths: entry.lengths } };
}
