import { nearest } from '../lengths/length.ts';
import { writeShort } from '../lengths/write.ts';
import type { Problem } from '../problem.ts';
import { farthest } from './forest.ts';
import type { Detection } from './detect.ts';
import type { Tie } from './graph.ts';
import type { Loop } from './loops.ts';
import type { Proof } from './proof.ts';
import type { Situation } from './situation.ts';
import type { ChainsReport } from './types.ts';

type Findings = {
  readonly missing: ChainsReport['missing'];
  /** What was likely misread; null where nobody looked. */
  readonly detection: Detection | null;
  readonly proof: Proof | null;
};

/** Sums must stay whole numbers even when halved and added: 2^50 pm is 1.1 km. */
const LONGEST = 2 ** 50;

/** Why lengths that reach for kilometres are not solved; null for every part that could be turned. */
export function tooLong({ graph, all, loops }: Situation): Problem | null {
  const far = farthest(graph, all).findIndex((reach) => reach > LONGEST);
  const wide = loops.some(({ gap, shortBy }) => Math.abs(gap) > LONGEST || shortBy > LONGEST);
  if (far < 0 && !wide) return null;
  const where = graph.stations[Math.max(far, 0)] ?? '';
  return { code: 'too-long', where, say: 'The lengths reach further than a kilometre; they are not solved.' };
}

/** Errors for open and clashing chains and for limits that contradict themselves. */
export function chainErrors(situation: Situation, findings: Findings): Problem[] {
  const { missing, proof } = findings;
  return [
    ...missing.map(({ between: [left, right], why }): Problem => ({
      code: 'open',
      where: left,
      say: why,
      facts: { left, right },
    })),
    ...situation.loops.filter(({ closes }) => !closes).map((loop) => clash(situation, loop, findings)),
    ...(proof && !proof.byOrder ? [impossible(situation, proof)] : []),
  ];
}

function clash({ graph, part }: Situation, loop: Loop, { detection }: Findings): Problem {
  const ids = loop.ties.map((t) => (graph.ties[t] as Tie).id);
  const gap = writeShort(nearest(Math.abs(loop.gap)), part.unit);
  const anyway = loop.shortBy <= 0 ? ' Their limits could just take that up.' : '';
  const say = `${ids.join(', ')} do not agree: they miss one another by ${gap}.${anyway}${detection?.likely ?? ''}`;
  const where = detection?.wrongIn(ids) ?? ids[0] ?? '';
  return { code: 'clashing', where, say, facts: { lengths: ids } };
}

function impossible({ part }: Situation, { entry }: Proof): Problem {
  const short = writeShort(nearest(entry.short_by_mm * 1e9), part.unit);
  const say = `No part can keep the limits of ${entry.lengths.join(', ')} at once: they are ${short} short.`;
  return { code: 'impossible', where: entry.lengths[0] ?? '', say, facts: { lengths: entry.lengths } };
}
