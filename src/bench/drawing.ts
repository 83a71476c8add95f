import type { Part } from '../core/part/types.ts';

/**
 * The part as it is planned, without what was ticked and measured: the very same object as long as nothing of the
 * drawing changes, so that a tick at the lathe never has the plan worked out anew.
 *
 * @param last - What this function gave before.
 */
export function drawingOf(part: Part, last: Part | null): Part {
  if (last && sameButForLog(part, last)) return last;
  if (part.actuals === undefined) return part;
  return Object.fromEntries(Object.entries(part).filter(([key]) => key !== 'actuals')) as unknown as Part;
}

function sameButForLog(a: Part, b: Part): boolean {
  const fields = (part: Part) => new Map(Object.entries(part).filter(([key]) => key !== 'actuals'));
  const [of, against] = [fields(a), fields(b)];
  return (
    of.size === against.size &&
    [...of].every(([key, value]) => against.has(key) && against.get(key) === value)
  );
}
