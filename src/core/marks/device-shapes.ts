import type { AreaRole, LineRole, PictureItem } from '../outline/picture.ts';

/** Where a device grips, as the operator sees it: x grows from the headstock to the tailstock, mm. */
export type GripPlace = { readonly from: number; readonly to: number; readonly radius: number };

const poly = (points: readonly number[], role: AreaRole): PictureItem => ({ kind: 'area', points, role });
const ring = (points: readonly number[], role: LineRole): PictureItem => ({
  kind: 'line',
  points: [...points, points[0] ?? 0, points[1] ?? 0],
  role,
});
const solid = (points: readonly number[]): PictureItem[] => [poly(points, 'device'), ring(points, 'ghost')];
const mirrored = (points: readonly number[]): number[] => points.map((v, i) => (i % 2 === 1 ? -v : v));
const both = (points: readonly number[]): PictureItem[] => [...solid(points), ...solid(mirrored(points))];

/** A collet in its nose: one cone above and one below the bar. */
export function collet({ from, to, radius: r }: GripPlace): PictureItem[] {
  const thick = r * 0.9;
  return both([from, r, to, r, to, r + thick * 0.55, from + (to - from) * 0.35, r + thick, from, r + thick]);
}

/** Two stepped jaws of a chuck and a piece of its body behind them. */
export function jaws({ from, to, radius: r }: GripPlace): PictureItem[] {
  const long = to - from;
  const [low, high] = [r + r * 0.9, r + r * 1.7];
  const jaw = [from, r, to, r, to, low, from + long * 0.55, low, from + long * 0.55, high, from, high];
  const body = Math.max(long * 0.35, r * 0.5);
  return [
    ...both(jaw),
    ...both([from - body, r * 1.02, from, r * 1.02, from, high * 1.15, from - body, high * 1.15]),
  ];
}

/** A 60° centre with its point in the bar's end at x; `way` is where its body lies: -1 headstock, 1 tailstock. */
export function centre(x: number, radius: number, way: 1 | -1): PictureItem[] {
  const base = Math.max(radius * 0.9, 2);
  const mouth = Math.min(radius * 0.35, base * 0.4);
  const cone = (base - mouth) / Math.tan(Math.PI / 6);
  const [end, tail] = [x + way * cone, x + way * (cone + base * 1.4)];
  return solid([x, mouth, end, base, tail, base, tail, -base, end, -base, x, -mouth]);
}

/** A dog on the bar: a clamp all round with its driving tail toward the faceplate. */
export function dog({ from, to, radius: r }: GripPlace): PictureItem[] {
  const long = to - from;
  return [
    ...both([from, r, to, r, to, r * 1.6, from, r * 1.6]),
    ...solid([
      from,
      r * 1.6,
      from + long * 0.6,
      r * 1.6,
      from + long * 0.6,
      r * 2.3,
      from - long,
      r * 2.3,
      from - long,
      r * 1.9,
      from,
      r * 1.9,
    ]),
  ];
}

/** The jaws of a steady, above and below the bar at x. */
export function steadyJaws(x: number, radius: number): PictureItem[] {
  const half = Math.max(radius * 0.25, 1);
  return both([x - half, radius, x + half, radius, x + half, radius * 2.1, x - half, radius * 2.1]);
}
