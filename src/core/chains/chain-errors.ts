import { nearest } from '../lengths/length.ts';
import { writeShort } from '../lengths/write.ts';
import type { Problem } from '../problem.ts';
import { farthest } from './forest.ts';
import type { Tie } from './graph.ts';
import type { Loop } from './loops.ts';
import type { Proof } from './proof.ts';
import type { Change } from './misread-sets.ts';
import { inStyleOf } from './misread.ts';
import type { Situation } from './situation.ts';
import type { Suspicion } from './suspects.ts';
import type { ChainsReport } from './types.ts';

type Findings = {
  readonly missing: ChainsReport['missing'];
  readonly suspicions: readonly Suspicion[];
  /** A smallest set that closes all loops, where no single length does. */
  readonly several: readonly Change[] | null;
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

function clash({ graph, part }: Situation, loop: Loop, { suspicions, several }: Findings): Problem {
  const ids = loop.ties.map((t) => (graph.ties[t] as Tie).id);
  const gap = writeShort(nearest(Math.abs(loop.gap)), part.unit);
  const first = suspicions[0];
  const likely = first ? (first.hint ? ` ${first.hint}` : '') : severalWrong(several);
  const anyway = loop.shortBy <= 0 ? ' Their limits could just take that up.' : '';
  const say = `${ids.join(', ')} do not agree: they miss one another by ${gap}.${anyway}${likely}`;
  const where =
    first?.length.id ?? several?.find(({ length }) => ids.includes(length.id))?.length.id ?? ids[0] ?? '';
  return { code: 'clashing', where, say, facts: { lengths: ids } };
}

function severalWrong(several: readonly Change[] | null): string {
  if (!several) return ' No single size closes all loops: read the plan again from the start.';
  const all = several.map(
    ({ length, value }) => `${length.id} ${inStyleOf(length.size, value)} for ${length.size.text}`,
  );
  return ` No single size closes all loops: at least ${several.length} are wrong, perhaps ${all.join(', ')}.`;
}

function impossible({ part }: Situation, { entry }: Proof): Problem {
  const short = writeShort(nearest(entry.short_by_mm * 1e9), part.unit);
  const say = `No part can keep the limits of ${entry.lengths.join(', ')} at once: they are ${short} short.`;
  return { code: 'impossible', where: entry.lengths[0] ?? '', say, facts: { lengths: entry.lengths } };
}
