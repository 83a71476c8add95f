import type { Part } from '../core/part/types.ts';

const BESIDE: ReadonlySet<string> = new Set(['actuals', 'scan']);

/**
 * The part as it is planned, without what was ticked and measured and without the picture it was traced from: the very
 * same object as long as nothing of the drawing changes, so that neither a tick at the lathe nor a picture that is
 * faded has the plan worked out anew.
 *
 * @param last - What this function gave before.
 */
export function drawingOf(part: Part, last: Part | null): Part {
  if (last && sameButForLog(part, last)) return last;
  if (part.actuals === undefined && !part.scan) return part;
  const drawn = Object.entries(part).filter(([key]) => key !== 'actuals');
  return { ...Object.fromEntries(drawn), scan: null } as unknown as Part;
}

function sameButForLog(a: Part, b: Part): boolean {
  const fields = (part: Part) => new Map(Object.entries(part).filter(([key]) => !BESIDE.has(key)));
  const [of, against] = [fields(a), fields(b)];
  return (
    of.size === against.size &&
    [...of].every(([key, value]) => against.has(key) && against.get(key) === value)
  );
}
