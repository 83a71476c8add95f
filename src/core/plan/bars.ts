import type { Length } from '../lengths/length.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';

export type Bar = { readonly text: string; readonly diameter: Length };

/**
 * The bars worth trying, thinnest first: one whose own size lies within the limits of the largest land (its skin stays,
 * unless that land is a journal or a seat), and the smallest that cleans up the largest diameter with a roughing
 * allowance to spare.
 */
export function barsFor(part: ResolvedPart, lathe: ResolvedLathe, largest: Length): Bar[] {
  const sorted = [...lathe.bars.diameters].sort((a, b) => a.diameter - b.diameter);
  const stub = Math.max(0, ...part.stubs.map(({ diameter }) => diameter?.aim ?? 0));
  const keepsSkin = (bar: Bar): boolean => bar.diameter >= stub && keepsAllLargest(part, bar.diameter);
  const pinned = sorted.find((bar) => bar.text === part.pins.bar);
  // A bar whose skin stays may be a little thinner than what is drawn.
  if (pinned) return pinned.diameter >= largest || keepsSkin(pinned) ? [pinned] : [];
  const skin = sorted.find(keepsSkin);
  const cleans = sorted.find((bar) => bar.diameter >= largest + lathe.cut.allowance);
  const found = [skin, cleans].filter((bar) => bar !== undefined);
  return found.filter((bar, i) => found.findIndex((b) => b.diameter === bar.diameter) === i);
}

/** Every cylinder as thick as this bar keeps its skin, at least one does, and nothing is thicker. */
function keepsAllLargest(part: ResolvedPart, bar: Length): boolean {
  let kept = false;
  for (const segment of part.segments) {
    const most = largestOf(segment);
    if (
      segment.form === 'cylinder' &&
      segment.diameter &&
      bar >= segment.diameter.min &&
      bar <= segment.diameter.max
    ) {
      if (segment.role === 'journal' || segment.role === 'seat') return false;
      kept = true;
    } else if (most === null || most > bar) return false;
  }
  return kept;
}

function largestOf(segment: ResolvedPart['segments'][number]): number | null {
  if (segment.form === 'cylinder') return segment.diameter?.max ?? null;
  if (segment.form === 'thread') return segment.thread?.blank ?? null;
  const ends = [segment.start?.max, segment.end?.max].filter((d) => d !== undefined);
  return ends.length ? Math.max(...ends) : null;
}
