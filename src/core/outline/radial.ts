/**
 * A radius that changes along the axis, for drawing: straight pieces in order, mm. Steps lie between pieces; where no
 * piece stands the radius is nothing.
 */
export type Piece = { readonly x0: number; readonly x1: number; readonly r0: number; readonly r1: number };
export type Radial = readonly Piece[];

const SLACK = 1e-9;

/** Pieces through the given corners; a step (two corners at one place) makes no piece. */
export function through(corners: readonly (readonly [number, number])[]): Piece[] {
  const pieces: Piece[] = [];
  corners.forEach(([x1, r1], i) => {
    const before = corners[i - 1];
    if (before && x1 - before[0] > SLACK) pieces.push({ x0: before[0], x1, r0: before[1], r1 });
  });
  return pieces;
}

/**
 * The larger (or smaller) radius of two, piece by piece, with a break where they cross.
 * @param beyond - What `b` counts as where it has no piece: 0 for metal and holes, Infinity for what only cuts in places.
 */
export function combine(a: Radial, b: Radial, pick: 'larger' | 'smaller', beyond = 0): Piece[] {
  const breaks = [...new Set([...a, ...b].flatMap((p) => [p.x0, p.x1]))].sort((x, y) => x - y);
  const pieces: Piece[] = [];
  breaks.forEach((x1, i) => {
    const x0 = breaks[i - 1];
    if (x0 === undefined || x1 - x0 < SLACK) return;
    const [p, q] = [within(a, x0, x1, 0), within(b, x0, x1, beyond)];
    pieces.push(...pickIn(p, q, pick));
  });
  return pieces;
}

/** The part of a radial between two places. */
export const clipTo = (radial: Radial, x0: number, x1: number): Piece[] =>
  radial
    .map((p) => within([p], Math.max(p.x0, x0), Math.min(p.x1, x1), 0))
    .filter((p) => p.x1 - p.x0 > SLACK);

/** The largest radius at a place, either side of a step. */
export const radiusAt = (radial: Radial, x: number): number =>
  Math.max(
    0,
    ...radial.filter((p) => p.x0 - SLACK <= x && x <= p.x1 + SLACK).map((p) => within([p], x, x, 0).r0),
  );

/** Runs of neighbouring pieces as flat point lists (x, ±r, x, ±r …), steps included. */
export function runs(radial: Radial, side: 1 | -1): number[][] {
  const found: number[][] = [];
  let end = NaN;
  for (const { x0, x1, r0, r1 } of radial) {
    if (!(Math.abs(x0 - end) < SLACK)) found.push([x0, side * r0]);
    else if (Math.abs((found.at(-1)?.at(-1) ?? 0) - side * r0) > SLACK) found.at(-1)?.push(x0, side * r0);
    found.at(-1)?.push(x1, side * r1);
    end = x1;
  }
  return found;
}

/** Closed point lists of the metal between an outer and an inner radius. */
export function between(outer: Radial, inner: Radial, side: 1 | -1): number[][] {
  const metal = combine(outer, inner, 'larger')
    .map((p) => ({ out: within(outer, p.x0, p.x1, 0), inn: within(inner, p.x0, p.x1, 0) }))
    .filter(({ out, inn }) => out.r0 + out.r1 - inn.r0 - inn.r1 > SLACK);
  const areas: { out: Piece[]; inn: Piece[] }[] = [];
  for (const { out, inn } of metal) {
    const last = areas.at(-1);
    if (last && Math.abs((last.out.at(-1)?.x1 ?? NaN) - out.x0) < SLACK) {
      last.out.push(out);
      last.inn.push(inn);
    } else areas.push({ out: [out], inn: [inn] });
  }
  return areas.map(({ out, inn }) => [...(runs(out, side)[0] ?? []), ...backward(runs(inn, side)[0] ?? [])]);
}

function backward(points: readonly number[]): number[] {
  const turned: number[] = [];
  for (let i = points.length - 2; i >= 0; i -= 2) turned.push(points[i] ?? 0, points[i + 1] ?? 0);
  return turned;
}

function within(radial: Radial, x0: number, x1: number, beyond: number): Piece {
  const mid = (x0 + x1) / 2;
  const piece = radial.find((p) => p.x0 - SLACK <= mid && mid <= p.x1 + SLACK);
  if (!piece) return { x0, x1, r0: beyond, r1: beyond };
  const slope = (piece.r1 - piece.r0) / (piece.x1 - piece.x0);
  const at = (x: number) => piece.r0 + (x - piece.x0) * slope;
  return { x0, x1, r0: at(x0), r1: at(x1) };
}

function pickIn(p: Piece, q: Piece, pick: 'larger' | 'smaller'): Piece[] {
  const best = pick === 'larger' ? Math.max : Math.min;
  const [d0, d1] = [p.r0 - q.r0, p.r1 - q.r1];
  const ends = (a: Piece, b: Piece): Piece => ({ ...a, r0: best(a.r0, b.r0), r1: best(a.r1, b.r1) });
  if (!Number.isFinite(d0) || !Number.isFinite(d1) || d0 * d1 >= 0) return [ends(p, q)];
  const x = p.x0 + ((p.x1 - p.x0) * d0) / (d0 - d1);
  const halves = [
    [p.x0, x],
    [x, p.x1],
  ] as const;
  return halves.map(([a, b]) => ends(within([p], a, b, 0), within([q], a, b, 0)));
}
