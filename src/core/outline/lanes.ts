/**
 * Where dimensions and notes go so that nothing overlaps. Plain intervals in the drawing's own unit (pixels on the
 * board, millimetres on paper), so that board and sheet lay out alike.
 */
export type LaneWish = {
  readonly id: string;
  /** The two places it measures between, x0 < x1. */
  readonly x0: number;
  readonly x1: number;
  /** Of its text with all that belongs to it. */
  readonly width: number;
  /** How far its line runs beyond both ends, as it does where the arrows stand outside; left out: not at all. */
  readonly outside?: number;
  /** The lane that a person put it in; left out or null: where it packs itself. */
  readonly lane?: number | null;
};
export type Lane = {
  readonly id: string;
  readonly x0: number;
  readonly x1: number;
  /** 0 is nearest to the part. */
  readonly lane: number;
  /** Where the text begins. */
  readonly textX: number;
  /** Which side the text stands on where it is wider than the dimension. */
  readonly beside: 'left' | 'right' | null;
};
type Span = { readonly from: number; readonly to: number };

/** Dimensions in a chain touch; anything more is an overlap. */
const overlap = (a: Span, b: Span) => a.from < b.to - 1e-9 && b.from < a.to - 1e-9;

/**
 * Packs dimensions into lanes: none overlaps another in its lane, and one that lies inside another stands nearer to the
 * part. One that a person put in a lane comes before all others: it stands there, or in the next farther lane where
 * others were put in the same. Text stands in the middle (moved aside where extension lines of farther lanes would run
 * through it), or beside the dimension where it is too wide.
 * @param gap - Kept free on both sides of a text that stands beside its dimension. Cost: O(n²).
 */
export function packLanes(wishes: readonly LaneWish[], gap: number): Lane[] {
  const taken: Span[][] = [];
  const packed: Lane[] = [];
  const put = (wish: LaneWish, least: number) => {
    for (let lane = least; ; lane++) {
      const spot = spotsOf(wish, gap).find(({ span }) => !taken[lane]?.some((t) => overlap(t, span)));
      if (!spot) continue;
      (taken[lane] ??= []).push(spot.span);
      packed.push({ id: wish.id, x0: wish.x0, x1: wish.x1, lane, textX: spot.textX, beside: spot.beside });
      return;
    }
  };
  const byLength = [...wishes].sort((a, b) => a.x1 - a.x0 - (b.x1 - b.x0));
  for (const wish of byLength) if (isPut(wish)) put(wish, wish.lane ?? 0);
  const byHand = new Set(packed.map(({ id }) => id));
  for (const wish of byLength) {
    if (byHand.has(wish.id)) continue;
    const inner = packed.filter((p) => !byHand.has(p.id) && p.x0 >= wish.x0 && p.x1 <= wish.x1);
    put(
      wish,
      inner.reduce((most, p) => Math.max(most, p.lane + 1), 0),
    );
  }
  const widths = new Map(wishes.map((w) => [w.id, w.width]));
  const laid = new Map(packed.map((p) => [p.id, slide(p, widths.get(p.id) ?? 0, packed)]));
  return wishes.flatMap(({ id }) => laid.get(id) ?? []);
}

const isPut = ({ lane }: LaneWish): boolean => lane !== null && lane !== undefined;

type Spot = { readonly span: Span; readonly textX: number; readonly beside: Lane['beside'] };

function spotsOf({ x0, x1, width, outside = 0 }: LaneWish, gap: number): Spot[] {
  const [from, to] = [x0 - outside, x1 + outside];
  if (width <= x1 - x0) return [{ span: { from, to }, textX: (x0 + x1 - width) / 2, beside: null }];
  const [right, left] = [x1 + gap, x0 - gap - width];
  return [
    { span: { from, to: Math.max(to, right + width + gap) }, textX: right, beside: 'right' },
    { span: { from: Math.min(from, left - gap), to }, textX: left, beside: 'left' },
  ];
}

/** Moves a text along its dimension to where the fewest extension lines of farther lanes cross it. */
function slide(lane: Lane, width: number, all: readonly Lane[]): Lane {
  if (lane.beside) return lane;
  const lines = all
    .filter((other) => other.lane > lane.lane)
    .flatMap((other) => [other.x0, other.x1])
    .filter((x) => x > lane.x0 && x < lane.x1);
  if (lines.length === 0) return lane;
  const crossed = (x: number) => lines.filter((l) => l > x - 1e-9 && l < x + width + 1e-9).length;
  const spare = lane.x1 - lane.x0 - width;
  const middle = lane.x0 + spare / 2;
  const edges = [lane.x0, ...lines, lane.x1].sort((a, b) => a - b);
  const centred = edges.slice(1).map((to, i) => ((edges[i] ?? to) + to - width) / 2);
  const spots = [middle, ...centred.map((x) => Math.min(Math.max(x, lane.x0), lane.x0 + spare))];
  const best = spots.reduce((a, b) => {
    const [ca, cb] = [crossed(a), crossed(b)];
    return cb < ca || (cb === ca && Math.abs(b - middle) < Math.abs(a - middle)) ? b : a;
  });
  return { ...lane, textX: best };
}

export type LeaderWish = { readonly id: string; readonly x: number; readonly width: number };
export type Leader = LeaderWish & { readonly row: number };

/**
 * Packs notes on upright leaders into rows: each text begins at its leader and runs to the right; no text overlaps
 * another, and no leader runs through a text. Row 0 is nearest to the part. Cost: O(n²).
 */
export function packLeaders(wishes: readonly LeaderWish[], gap: number): Leader[] {
  const fromRight = wishes.map((wish, i) => ({ wish, i })).sort((a, b) => b.wish.x - a.wish.x || b.i - a.i);
  const packed: Leader[] = [];
  for (const { wish } of fromRight) {
    const span = { from: wish.x, to: wish.x + wish.width + gap };
    const over = packed.filter((p) => p.x < span.to);
    let row = over.reduce((most, p) => Math.max(most, p.row + 1), 0);
    while (packed.some((p) => p.row === row && overlap(span, { from: p.x, to: p.x + p.width + gap }))) row++;
    packed.push({ ...wish, row });
  }
  const byId = new Map(packed.map((p) => [p.id, p]));
  return wishes.flatMap(({ id }) => byId.get(id) ?? []);
}
