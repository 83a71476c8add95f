import { solveChains } from '../../../src/core/chains/solve.ts';
import { pm } from '../../../src/core/lengths/length.ts';
import type { Resolved } from '../../../src/core/actuals/resolve-faces.ts';
import type { Places } from '../../../src/core/actuals/types.ts';
import type { ResolvedLength, ResolvedPart } from '../../../src/core/part/resolved.ts';

/** The drawing with its standing faces dimensioned exactly where they stand, from the first of them, and nothing else between them. */
function fullySolved(part: ResolvedPart, standing: Places): ResolvedPart {
  const faces = part.faces.filter((id) => standing.has(id));
  const pattern = part.lengths[0];
  const exact = faces.slice(1).flatMap((to, i): ResolvedLength[] => {
    const from = faces[i] ?? '';
    if (!pattern) return [];
    const size = pm((standing.get(to) ?? 0) - (standing.get(from) ?? 0));
    const limits = { nominal: size, min: size, max: size };
    return [{ ...pattern, id: `stands ${to}`, from, to, size: { ...pattern.size, ...limits } }];
  });
  const open = part.lengths.filter(({ from, to }) => !standing.has(from) || !standing.has(to));
  return { ...part, lengths: [...exact, ...open] };
}

/** What is wrong with an answer of the re-solver, by means that share nothing with it but the reading of the part. */
export function flawsOf(part: ResolvedPart, standing: Places, answer: Resolved): string[] {
  const flaws: string[] = [];
  const place = (id: string) => answer.places.get(id) ?? Number.NaN;
  for (const [id, stood] of standing) if (place(id) !== stood) flaws.push(`moved ${id}`);
  part.faces.forEach((id, i) => {
    const before = part.faces[i - 1];
    if (before !== undefined && !(place(before) <= place(id))) flaws.push(`order ${before} ${id}`);
  });
  const over = new Map<string, number>();
  for (const { id, from, to, size } of part.lengths) {
    const now = place(to) - place(from);
    const by = now > size.max ? now - size.max : now < size.min ? now - size.min : 0;
    if (by !== 0) over.set(id, by);
  }
  const said = new Map([...answer.lost, ...answer.given].map(({ length, by }) => [length, by]));
  for (const [id, by] of over) if (said.get(id) !== by) flaws.push(`unsaid ${id}`);
  for (const id of said.keys()) if (!over.has(id)) flaws.push(`not so ${id}`);
  const fromScratch = solveChains(fullySolved(part, standing));
  const possible = fromScratch.report.impossible === null;
  if (possible && answer.given.length > 0) flaws.push('gave up what can be kept');
  if (!possible && answer.given.length === 0 && !answer.contradiction) flaws.push('kept what cannot be');
  if (possible)
    for (const a of part.faces)
      for (const b of part.faces) {
        const span = fromScratch.span(a, b);
        const apart = place(b) - place(a);
        if (span && (apart < span.min || apart > span.max)) flaws.push(`span ${a} ${b}`);
      }
  return flaws;
}

/** Least sum of what is exceeded, in mm, found by trying every place on a grid of .1 mm within 2 mm of the aims. */
export function leastByTrying(part: ResolvedPart, aims: Places, standing: Places): number {
  const free = part.faces.filter((id) => !standing.has(id));
  const places = new Map<string, number>(standing);
  let least = Infinity;
  const tryFrom = (i: number): void => {
    const id = free[i];
    if (id === undefined) {
      const zs = part.faces.map((face) => places.get(face) ?? 0);
      if (zs.some((z, k) => k > 0 && z < (zs[k - 1] ?? 0))) return;
      const sum = part.lengths
        .filter(({ from, to }) => !standing.has(from) || !standing.has(to))
        .reduce((all, { from, to, size }) => {
          const now = (places.get(to) ?? 0) - (places.get(from) ?? 0);
          return all + Math.max(0, now - size.max, size.min - now);
        }, 0);
      least = Math.min(least, sum);
      return;
    }
    for (let tenths = -20; tenths <= 20; tenths++) {
      places.set(id, (aims.get(id) ?? 0) + tenths * 1e8);
      tryFrom(i + 1);
    }
    places.delete(id);
  };
  tryFrom(0);
  return least / 1e9;
}
