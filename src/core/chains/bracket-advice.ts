import type { ResolvedLength, ResolvedPart } from '../part/resolved.ts';
import { chainGraph, type Tie } from './graph.ts';
import { findLoops } from './loops.ts';
import { takeStock, type Situation } from './situation.ts';
import { tightest } from './spans.ts';

/** Which length of a doubled loop to bracket as a reference. `bracket` is null where each of them is leant on. */
export type BracketAdvice = {
  readonly loop: readonly string[];
  readonly bracket: string | null;
  readonly why: string;
};

/**
 * For each doubled loop, in the order reported, the length that is best bracketed, so that all advice taken together leaves the part
 * closed. Never one that a requirement or a mate leans on: none that runs between the stations of a requirement, that spans a
 * segment with a mate, or without which a requirement is no longer met by all lengths at their limits. Of the others the one with the widest
 * limits goes, as it says least; among equals the longest, then the last in the file.
 *
 * @param most - So many loops at the most; each of them costs as much as finding all loops anew.
 */
export function bracketAdvice(part: ResolvedPart, most = Infinity): BracketAdvice[] {
  const advice: BracketAdvice[] = [];
  let current = part;
  for (;;) {
    const { loops, graph } = current === part ? takeStock(part) : loopsOf(current);
    const loop = loops.find(({ closes }, i) => closes && i >= skipped(advice));
    if (!loop || advice.length >= most) return advice;
    const ids = loop.ties.map((t) => (graph.ties[t] as Tie).id);
    const lengths = loop.ties.flatMap((t) => current.lengths[graph.ties[t]?.length ?? -1] ?? []);
    const best = lengths.sort(saysLess).find((length) => isFree(current, length));
    advice.push({ loop: ids, bracket: best?.id ?? null, why: reason(best) });
    if (best) current = without(current, best);
  }
}

/** Only what the search needs: nobody else looks at a part that is bracketed for a trial. */
function loopsOf(part: ResolvedPart): Pick<Situation, 'loops' | 'graph'> {
  const graph = chainGraph(part);
  return { graph, loops: findLoops(graph).loops };
}

/** Loops that no advice could break stay at the head of the list. */
const skipped = (advice: readonly BracketAdvice[]): number =>
  advice.filter(({ bracket }) => bracket === null).length;

function reason(best: ResolvedLength | undefined): string {
  if (!best) return 'A requirement or a mate leans on each of these lengths; tighten or drop one by hand.';
  return `${best.id} follows from the others and has the widest limits of those that nothing leans on.`;
}

const width = ({ size }: ResolvedLength) => size.max - size.min;

const saysLess = (a: ResolvedLength, b: ResolvedLength): number =>
  width(b) - width(a) || b.size.nominal - a.size.nominal || b.index - a.index;

const without = (part: ResolvedPart, { index }: ResolvedLength): ResolvedPart => ({
  ...part,
  lengths: part.lengths.map((l) => (l.index === index ? { ...l, size: { ...l.size, reference: true } } : l)),
});

function isFree(part: ResolvedPart, length: ResolvedLength): boolean {
  const runs = (from: string, to: string) => length.from === from && length.to === to;
  if (part.requirements.some(({ from, to }) => runs(from, to))) return false;
  if (part.segments.some(({ mate, left, right }) => mate && runs(left, right))) return false;
  const bracketed = without(part, length);
  return part.requirements.every((one) => !isMet(part, one) || isMet(bracketed, one));
}

function isMet(part: ResolvedPart, { from, to, min, max }: ResolvedPart['requirements'][number]): boolean {
  const situation = takeStock(part);
  const [a, b] = [situation.graph.numberOf.get(from), situation.graph.numberOf.get(to)];
  const span = a === undefined || b === undefined ? null : tightest(situation, a, b);
  return span !== null && span.min >= min && span.max <= max;
}
