import type { Holding, Mark } from '../plan/types.ts';

/** Where metal goes, as the operator sees it. */
export type WasteSide = 'headstock' | 'tailstock' | 'none';

export type StripTick = {
  readonly station: string;
  readonly z_mm: number;
  /** From the strip's zero, always positive: the distance that a rule would show. */
  readonly at_mm: number;
  readonly text: string;
  readonly rule_text: string | null;
  /** The cut ahead of which the line is scribed. */
  readonly before: readonly number[];
  readonly waste: WasteSide;
};

/**
 * A strip to lay along the bar: it starts at what a rule can stand against, and carries a tick for each scribed line.
 * `way` is the direction in which it runs from its zero, as the operator sees it.
 */
export type Strip = {
  readonly holding: string;
  readonly from: string;
  readonly way: 'headstock' | 'tailstock';
  /** From zero to the last tick, mm. */
  readonly length_mm: number;
  readonly ticks: readonly StripTick[];
};

/** The drawn part's left and right as the operator sees them. */
export function wasteSide(waste: Mark['waste'], headstock: Holding['headstock']): WasteSide {
  if (waste === 'none') return 'none';
  return waste === headstock ? 'headstock' : 'tailstock';
}

/**
 * The strips of a holding: one for each thing that its lines are measured from, and for each way from it. Ticks are in order from
 * the zero; two marks at one place for one station are one tick.
 *
 * @param places - Aim places of the stations, mm in part coordinates. Where `from` is not among them, the holding's Z
 *   zero stands in.
 */
export function stripsOf(holding: Holding, places: ReadonlyMap<string, number>): Strip[] {
  const strips = new Map<string, { from: string; way: Strip['way']; marks: { mark: Mark; at: number }[] }>();
  for (const mark of holding.marks) {
    const offset = mark.z_mm - (places.get(mark.from) ?? holding.zero_z_mm);
    const towardRight = offset > 0;
    const way = towardRight === (holding.headstock === 'right') ? 'headstock' : 'tailstock';
    const key = `${way} ${mark.from}`;
    const strip = strips.get(key) ?? { from: mark.from, way, marks: [] };
    strip.marks.push({ mark, at: Math.abs(offset) });
    strips.set(key, strip);
  }
  return [...strips.values()].map(({ from, way, marks }) => {
    const ticks = merged(marks, holding.headstock);
    return { holding: holding.id, from, way, length_mm: ticks.at(-1)?.at_mm ?? 0, ticks };
  });
}

function merged(marks: readonly { mark: Mark; at: number }[], headstock: Holding['headstock']): StripTick[] {
  const ticks: StripTick[] = [];
  for (const { mark, at } of [...marks].sort((a, b) => a.at - b.at)) {
    const last = ticks.at(-1);
    const waste = wasteSide(mark.waste, headstock);
    if (last && last.station === mark.station && last.z_mm === mark.z_mm && last.waste === waste) {
      ticks[ticks.length - 1] = { ...last, before: [...last.before, mark.before] };
      continue;
    }
    const { station, z_mm, text, rule_text, before } = mark;
    ticks.push({ station, z_mm, at_mm: at, text, rule_text, before: [before], waste });
  }
  return ticks;
}

/** A piece of a strip that one page takes: places in mm from the strip's zero. */
export type StripPiece = {
  readonly from_mm: number;
  readonly to_mm: number;
  /** Register lines: where this piece and its neighbour are laid over one another. */
  readonly registers: readonly number[];
};

/**
 * A strip cut into pieces that fit a page. Neighbours overlap by `overlap` with one register line in the middle of the
 * overlap, which both carry. `room` must be more than `overlap`, else RangeError: the caller's bug.
 */
export function stripPieces(length_mm: number, room: number, overlap: number): StripPiece[] {
  if (!(room > overlap)) throw new RangeError(`stripPieces: room ${room} must exceed the overlap ${overlap}`);
  const step = room - overlap;
  const count = Math.max(1, Math.ceil((length_mm - overlap) / step));
  return Array.from({ length: count }, (_, i) => ({
    from_mm: i * step,
    to_mm: i === count - 1 ? length_mm : i * step + room,
    registers: [
      ...(i > 0 ? [i * step + overlap / 2] : []),
      ...(i < count - 1 ? [(i + 1) * step + overlap / 2] : []),
    ],
  }));
}
