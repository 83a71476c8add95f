import { nearest, PM_PER } from '../lengths/length.ts';
import { writeDecimal, writeShort } from '../lengths/write.ts';
import type { ResolvedLength } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import type { Situation } from './situation.ts';

/**
 * Reference sizes that differ from what the binding lengths make of them by more than half a unit of their last decimal; one
 * written as a fraction must agree exactly. They bind nothing, so this is a warning.
 */
export function referenceWarnings(situation: Situation): Problem[] {
  const { part, graph, sound } = situation;
  return part.lengths.flatMap((length): Problem[] => {
    const from = graph.numberOf.get(length.from);
    const to = graph.numberOf.get(length.to);
    if (!length.size.reference || from === undefined || to === undefined) return [];
    if (sound.tree[from] !== sound.tree[to]) return [];
    const computed = nearest((sound.nominal[to] as number) - (sound.nominal[from] as number));
    const { size, id } = length;
    if (agrees(length, computed)) return [];
    const text =
      size.decimals === null
        ? writeShort(nearest(Math.abs(computed)), size.unit)
        : writeDecimal(computed, size.unit, size.decimals + 1);
    const say = `Reference ${id} stands as ${size.text}, but the lengths make it ${computed < 0 && size.decimals === null ? '-' : ''}${text}.`;
    return [{ code: 'reference-differs', where: id, say, facts: { written: size.text, computed: text } }];
  });
}

/** Compared without rounding: twice the difference in units of the last decimal is at most one. */
function agrees({ size }: ResolvedLength, computed: number): boolean {
  const difference = BigInt(Math.abs(computed - size.nominal));
  if (size.decimals === null || size.fraction) return difference === 0n;
  return 2n * difference * 10n ** BigInt(size.decimals) <= BigInt(PM_PER[size.unit]);
}
