import type { Holding, Support } from '../../core/plan/types.ts';
import type { TimeEstimate } from '../../core/plan/time-estimate.ts';

const names: Readonly<Record<Support, string>> = {
  centre: 'live centre',
  steady: 'steady',
  'travelling-steady': 'travelling steady',
};

/**
 * Everything that ever holds the work up in a holding: from the beginning, or brought up at a cut.
 *
 * @param placed - Where a steady stands, in words, from its place in mm.
 */
export function supportWords(holding: Holding, placed: (mm: number) => string): string {
  const at = holding.steady_at_mm;
  const words = holding.support.map((kind) =>
    kind === 'steady' && at !== null ? `steady, ${placed(at)}` : names[kind],
  );
  const seen = new Set<Support>(holding.support);
  for (const { n, kind, support } of holding.cuts) {
    if (kind !== 'support' || !support) continue;
    for (const each of support) {
      if (!seen.has(each)) words.push(`${names[each]}, brought up at cut ${n}`);
      seen.add(each);
    }
    if (support.length === 0 && seen.size > 0) words.push(`backed off at cut ${n}`);
  }
  return words.length === 0 ? 'none' : words.join('; ');
}

/** "about 2 h 10 min": to five minutes, as nothing finer is known. */
export function roughly(minutes: number): string {
  const fives = Math.max(5, Math.round(minutes / 5) * 5);
  const [hours, rest] = [Math.floor(fives / 60), fives % 60];
  if (hours === 0) return `about ${rest} min`;
  return rest === 0 ? `about ${hours} h` : `about ${hours} h ${rest} min`;
}

export function holdingTime(time: TimeEstimate, id: string): string {
  const row = time.holdings.find(({ holding }) => holding === id);
  if (!row) return '–';
  const inMetal = Math.round(row.cutting_min);
  return `${roughly(row.cutting_min + row.handling_min)}, ${inMetal < 1 ? 'under a minute' : `${inMetal} min`} of it in the metal`;
}
