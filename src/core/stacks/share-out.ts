import { stackTerms } from '../chains/stack-terms.ts';
import type { Length } from '../lengths/length.ts';
import { pm } from '../lengths/length.ts';
import type { ResolvedLength, ResolvedPart } from '../part/resolved.ts';
import { evenSplit, widestScale } from './share-programme.ts';
import type { Need, Share } from './share-programme.ts';

/** Working limits of one length, about its written size. */
export type WorkingLimits = { readonly length: string; readonly min: Length; readonly max: Length };

export type Sharing = {
  /** How many times its floor the length with the narrowest share gets; below 1 the requirements ask for more than the work can hold. */
  readonly scale: number;
  readonly limits: readonly WorkingLimits[];
  /** The requirement that leaves least room, and the length in it that takes up most of it: the one worth measuring better. */
  readonly tightest: string | null;
  readonly worth: string | null;
  readonly say: string;
};

const MICRON = 1e6;

/**
 * Shares what the requirements allow out among the lengths, as wide as can be: all are widened alike, as multiples of their `floors` (what the
 * work can hold, half-widths in pm), until some requirement's worst case allows no more; those stay, the others are widened on. Limits hold
 * the written size, and are as even about it as the widths allow.
 * Lengths with a floor above 0 only; others keep their drawn limits and use up their part of the room, as do the diameters of tapers.
 * Where lengths are doubled, the way of fewest lengths is shared out among: the others only narrow it. Requirements with no way between
 * their stations, or one that clashes, are left out, see `leftOut`. Null where nothing can be shared out. Worked in microns, as the solver rounds to 1e-8.
 */
export function shareOut(part: ResolvedPart, floors: ReadonlyMap<string, Length>): Sharing | null {
  const lengths = new Map(part.lengths.map((length) => [length.id, length]));
  const needs = part.requirements.flatMap((one) => needOf(part, one, lengths, floors) ?? []);
  const shared = [...new Set(needs.flatMap(({ terms }) => [...terms.keys()]))];
  if (shared.length === 0) return null;
  const floorOf = (id: string) => (floors.get(id) ?? 0) / MICRON;
  const tightest = needs.reduce((a, b) => (scaleOf(b, floorOf) < scaleOf(a, floorOf) ? b : a));
  const worth = [...tightest.terms.keys()].reduce((a, b) => (floorOf(b) > floorOf(a) ? b : a));
  const names = { tightest: tightest.id, worth };
  const widths = fill(needs, shared, floorOf);
  const split = widths && evenSplit(needs, widths);
  if (!widths || !split) {
    const say = `${tightest.id} leaves no room at all: change a size before limits are shared out.`;
    return { scale: 0, limits: [], ...names, say };
  }
  const scale = Math.min(...shared.map((id) => (widths.get(id) ?? 0) / (2 * floorOf(id))));
  const limits = split.flatMap((share) => limitsOf(lengths.get(share.id), share));
  return { scale, limits, ...names, say: sentence(scale, names) };
}

/** Requirements that cannot be shared out yet: a length on the way is missing, or clashes with others. */
export const leftOut = (part: ResolvedPart): { requirement: string; why: 'missing' | 'clashing' }[] =>
  part.requirements.flatMap(({ id, from, to }) => {
    const stack = stackTerms(part, from, to);
    if (stack && !stack.clashing) return [];
    return [{ requirement: id, why: stack ? ('clashing' as const) : ('missing' as const) }];
  });

/** Widths in microns: all alike in multiples of their floors, then on for those that have room left. */
function fill(
  needs: readonly Need[],
  shared: readonly string[],
  floorOf: (id: string) => number,
): Map<string, number> | null {
  const settled = new Map<string, number>();
  while (settled.size < shared.length) {
    const open = shared.filter((id) => !settled.has(id));
    const scale = widestScale(needs, open, settled, floorOf);
    if (scale === null) return null;
    const reached = new Map([...settled, ...open.map((id) => [id, 2 * scale * floorOf(id)] as const)]);
    const stuck = stuckAt(needs, open, reached, { scale, floorOf });
    for (const id of stuck.length > 0 ? stuck : open) settled.set(id, 2 * scale * floorOf(id));
  }
  return settled;
}

/**
 * The open lengths that no way of splitting lets grow beyond what all have reached. Those in a requirement that is used
 * up whole cannot; where the others can all grow at once, each of them can. Only else is each tried alone, as that takes
 * a programme for every length.
 */
function stuckAt(
  needs: readonly Need[],
  open: readonly string[],
  reached: ReadonlyMap<string, number>,
  { scale, floorOf }: { readonly scale: number; readonly floorOf: (id: string) => number },
): readonly string[] {
  const used = new Set(
    needs.flatMap(({ above, below, terms }) => {
      const taken = [...terms.keys()].reduce((sum, id) => sum + (reached.get(id) ?? 0), 0);
      return taken >= (above + below) * (1 - 1e-9) - 1e-6 ? [...terms.keys()] : [];
    }),
  );
  const canGrow = (ids: readonly string[]): boolean => {
    const others = new Map([...reached].filter(([other]) => !ids.includes(other)));
    return (widestScale(needs, ids, others, floorOf) ?? scale) > scale * (1 + 1e-6) + 1e-9;
  };
  const rest = open.filter((id) => !used.has(id));
  const alone = rest.length === 0 || canGrow(rest) ? [] : rest.filter((id) => !canGrow([id]));
  return open.filter((id) => used.has(id) || alone.includes(id));
}

/** Room that a requirement leaves above and below the written sizes of its stack, and which shared lengths use it. */
function needOf(
  part: ResolvedPart,
  { id, from, to, min, max }: ResolvedPart['requirements'][number],
  lengths: ReadonlyMap<string, ResolvedLength>,
  floors: ReadonlyMap<string, Length>,
): Need | null {
  const stack = stackTerms(part, from, to);
  if (!stack || stack.clashing) return null;
  const terms = new Map<string, 1 | -1>();
  let [least, greatest] = [0, 0];
  for (const { id: term, sign, middle, half } of stack.terms) {
    const length = (floors.get(term) ?? 0) > 0 ? lengths.get(term) : undefined;
    if (length) terms.set(term, sign);
    const place = sign * (length ? length.size.nominal : middle);
    least += place - (length ? 0 : half);
    greatest += place + (length ? 0 : half);
  }
  const rooms = { above: (max - greatest) / MICRON, below: (least - min) / MICRON };
  return terms.size > 0 ? { id, ...rooms, terms } : null;
}

function scaleOf({ above, below, terms }: Need, floorOf: (id: string) => number): number {
  const floor = [...terms.keys()].reduce((sum, id) => sum + floorOf(id), 0);
  return Math.min(above, below) < 0 ? -1 : (above + below) / (2 * floor);
}

/** Rounded toward the written size, so that the requirements still hold. */
function limitsOf(length: ResolvedLength | undefined, { below, above }: Share): WorkingLimits[] {
  if (!length) return [];
  const { nominal } = length.size;
  const inward = (microns: number) => Math.max(0, Math.floor(microns * MICRON - 100));
  return [{ length: length.id, min: pm(nominal - inward(below)), max: pm(nominal + inward(above)) }];
}

function sentence(scale: number, { tightest, worth }: { tightest: string; worth: string }): string {
  if (scale >= 1) {
    return `All requirements can be held; ${tightest} leaves least room, and measuring ${worth} better gains most.`;
  }
  const percent = Math.floor(scale * 100);
  return `${tightest} leaves ${percent} % of what the work can hold: measure ${worth} better, or widen ${tightest}.`;
}
