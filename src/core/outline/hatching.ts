/**
 * Hatch lines inside a closed area at 45°, from one lattice over the whole drawing, so that neighbouring areas join.
 *
 * @param area - Flat list of corners (x, y, x, y …), mm. @param spacing - Between lines, square to them, mm.
 * @param slope - 1 rises to the right, -1 falls. @returns Flat two-point lists.
 */
export function hatchLines(area: readonly number[], spacing: number, slope: 1 | -1 = 1): number[][] {
  // On the line y = slope·x + c, c steps by spacing·√2.
  const step = spacing * Math.SQRT2;
  const corners = pairs(area);
  const cs = corners.map(([x, y]) => y - slope * x);
  const [least, most] = [Math.min(...cs), Math.max(...cs)];
  if (!(step > 0) || !Number.isFinite(most - least)) return [];
  const lines: number[][] = [];
  for (let k = Math.ceil(least / step); k * step <= most; k++) {
    const c = k * step;
    const crossings = xsOn(corners, slope, c);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const [a, b] = [crossings[i], crossings[i + 1]];
      if (a !== undefined && b !== undefined && b > a) lines.push([a, slope * a + c, b, slope * b + c]);
    }
  }
  return lines;
}

/** Where the border crosses the line, in order. A corner on the line counts with the border that lies above it. */
function xsOn(corners: readonly (readonly [number, number])[], slope: number, c: number): number[] {
  const xs: number[] = [];
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length] ?? p;
    const [dp, dq] = [p[1] - slope * p[0] - c, q[1] - slope * q[0] - c];
    if (dp >= 0 !== dq >= 0) xs.push(p[0] + ((q[0] - p[0]) * dp) / (dp - dq));
  });
  return xs.sort((a, b) => a - b);
}

const pairs = (flat: readonly number[]): [number, number][] =>
  flat.flatMap((x, i): [number, number][] => (i % 2 === 0 ? [[x, flat[i + 1] ?? 0]] : []));
