/** Parallel lines: distance apart and thickness in mm, direction in degrees counter-clockwise from the level. */
export type Hatch = { readonly apart: number; readonly width: number; readonly degrees: readonly number[] };

type Box = { x0: number; y0: number; x1: number; y1: number };

/** The upright box round points x, y, x, y, …; null where they enclose nothing. */
export function boundsOf(points: readonly number[]): Box | null {
  if (points.length < 6) return null;
  const xs = points.filter((_, i) => i % 2 === 0);
  const ys = points.filter((_, i) => i % 2 === 1);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/** Lines over a box, `apart` from one another, on a grid of the whole page so that neighbours match. */
export function hatchLines({ x0, y0, x1, y1 }: Box, apart: number, degrees: number): number[][] {
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), -Math.sin(angle)];
  const across = (x: number, y: number): number => -x * s + y * c;
  const along = (x: number, y: number): number => x * c + y * s;
  const corners: [number, number][] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const offs = corners.map(([x, y]) => across(x, y));
  const runs = corners.map(([x, y]) => along(x, y));
  const [t0, t1] = [Math.min(...runs), Math.max(...runs)];
  const lines: number[][] = [];
  for (let i = Math.ceil(Math.min(...offs) / apart); i * apart <= Math.max(...offs); i++) {
    const o = i * apart;
    lines.push([t0 * c - o * s, t0 * s + o * c, t1 * c - o * s, t1 * s + o * c]);
  }
  return lines;
}
