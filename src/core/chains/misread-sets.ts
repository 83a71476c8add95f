import { nearest } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { ResolvedLength } from '../part/resolved.ts';
import { layOut, pathInForest } from './forest.ts';
import type { Forest } from './forest.ts';
import type { Tie } from './graph.ts';
import { explainMisread, isNatural } from './misread.ts';
import type { Situation } from './situation.ts';

/** A length that would have to change together with others, the size that it would need, and why it may have been misread. */
export type Change = {
  readonly length: ResolvedLength;
  readonly value: Length;
  readonly hint: string | null;
};

/** More misreads than this in one tangle are not searched for: the plan should be read again from the start. */
const MOST = 3;
/** As many sets are compared; a tangle that offers more is no clearer for it. */
const MOST_SETS = 200;
/** Stations and ties looked at in one tangle before the search is given up; a tenth of a second or so. */
const MOST_STEPS = 2e6;

type Hunt = {
  readonly situation: Situation;
  readonly tangle: ReadonlySet<number>;
  readonly found: Map<string, { changes: Change[]; odds: number }>;
  steps: number;
};

/**
 * A smallest set of lengths whose change to positive sizes closes all loops, likeliest of its size; ties of one tangle (block) are searched apart
 * from those of another, so that the set grows by what each needs. Null where nothing clashes, where more than `MOST` in one tangle
 * would have to change, or where a tangle is too large to search. Tapers are never in it.
 */
export function smallestMisreads(situation: Situation): Change[] | null {
  const { blocks, clashing } = situation;
  const tangles = blocks.blocks.filter((block) => block.some((t) => clashing[t] === 1));
  if (tangles.length === 0) return null;
  const changes = tangles.map((tangle) => untangle(situation, tangle));
  return changes.some((set) => set === null) ? null : changes.flatMap((set) => set ?? []);
}

function untangle(situation: Situation, tangle: readonly number[]): Change[] | null {
  const hunt: Hunt = { situation, tangle: new Set(tangle), found: new Map(), steps: 0 };
  for (let size = 1; size <= MOST; size++) {
    search(hunt, [], size);
    if (hunt.steps > MOST_STEPS) return null;
    const sets = [...hunt.found.values()].sort((a, b) => b.odds - a.odds);
    if (sets[0]) return sets[0].changes;
  }
  return null;
}

/** Any ring that does not close must lose one of its lengths: try each, to the given depth. */
function search(hunt: Hunt, out: readonly number[], depth: number): void {
  const { situation, tangle, found } = hunt;
  const { graph } = situation;
  hunt.steps += graph.stations.length + graph.ties.length;
  if (found.size >= MOST_SETS || hunt.steps > MOST_STEPS) return;
  const forest = layOut(graph, (t) => tangle.has(t) && !out.includes(t));
  const ring = openRing(situation, tangle, out, forest);
  if (!ring) {
    const key = [...out].sort((a, b) => a - b).join(' ');
    const set = found.has(key) ? null : changesOf(situation, out, forest);
    if (set) found.set(key, set);
    return;
  }
  if (depth === 0) return;
  for (const t of ring) if ((graph.ties[t] as Tie).length !== null) search(hunt, [...out, t], depth - 1);
}

function openRing(
  { graph }: Situation,
  tangle: ReadonlySet<number>,
  out: readonly number[],
  forest: Forest,
): number[] | null {
  for (const t of tangle) {
    const tie = graph.ties[t] as Tie;
    if (out.includes(t)) continue;
    const gap = (forest.nominal[tie.to] as number) - (forest.nominal[tie.from] as number) - tie.nominal;
    if (gap === 0) continue;
    const ring = [t, ...(pathInForest(graph, forest, tie.from, tie.to) ?? [])];
    const give = ring.reduce((sum, r) => sum + Math.max(...(graph.ties[r] as Tie).give.map(Math.abs)), 0);
    if (Math.abs(gap) > give) return ring;
  }
  return null;
}

function changesOf({ graph, part }: Situation, out: readonly number[], { tree, nominal }: Forest) {
  let odds = 0;
  const changes: Change[] = [];
  for (const t of [...out].sort((a, b) => a - b)) {
    const tie = graph.ties[t] as Tie;
    const length = part.lengths[tie.length ?? -1];
    const value = nearest((nominal[tie.to] as number) - (nominal[tie.from] as number));
    if (!length || tree[tie.from] !== tree[tie.to] || value <= 0) return null;
    const misread = explainMisread(length.size, value);
    odds += (misread?.odds ?? -9) + (isNatural(length.size, value) ? 0 : -3);
    changes.push({ length, value, hint: misread?.hint ?? null });
  }
  return { changes, odds };
}
