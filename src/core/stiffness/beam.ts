/** A stretch of the bar, z counted from the edge of the grip outward (or from the headstock centre). Plain millimetres. */
export type BeamPiece = {
  readonly z0_mm: number;
  readonly z1_mm: number;
  readonly d_mm: number;
  readonly bore_mm: number;
};

/** What holds the bar besides the grip. */
export type BeamSupport = {
  /** A centre pins the far end. */
  readonly centre: boolean;
  /** A steady pins the bar here, counted as the pieces are. */
  readonly steadyAt_mm: number | null;
  /** A travelling steady bears on the work just behind the tool, wherever the tool is: so far behind it, in mm. */
  readonly travellingBehind_mm?: number | null;
  /** How the near end is held: clamped by a collet or chuck (as is understood), or resting on a centre. */
  readonly start?: 'grip' | 'centre';
};

/** A bar made ready for many loads: sums along its steps, and the supports solved once. */
export type Beam = {
  readonly length_mm: number;
  readonly steps: readonly Step[];
  readonly pins: readonly number[];
  /** Inverse of the support equations: forces in the pins, then the tilt of a start that rests on a centre. */
  readonly inverse: readonly (readonly number[])[];
  readonly tilts: boolean;
};

/** Up to z0: sums of 1/EI, s/EI and s²/EI, s counted from the start. */
type Step = {
  readonly z0: number;
  readonly z1: number;
  readonly flex: number;
  readonly a0: number;
  readonly a1: number;
  readonly a2: number;
};

/** Second moment of area of a round bar with a round hole, mm⁴: π (D⁴ − d⁴) / 64. */
export const secondMoment = (d_mm: number, bore_mm: number): number =>
  (Math.PI * (d_mm ** 4 - bore_mm ** 4)) / 64;

/**
 * Makes a stepped bar ready: Euler–Bernoulli bending by moment areas, one pass over the steps. Rigid grip, centre and
 * steady; no shear (see `shearShare`).
 *
 * @param pieces - Side by side from the grip's edge (z 0) to the free end. A stretch without metal bends without limit.
 * @param youngs_MPa - Young's modulus, N/mm².
 *
 * Source: moment-area theorems and the force method for the supports; standard texts on strength of materials.
 */
export function beamOf(pieces: readonly BeamPiece[], support: BeamSupport, youngs_MPa: number): Beam {
  const steps = summed(pieces, youngs_MPa);
  const length_mm = steps.at(-1)?.z1 ?? 0;
  const tilts = support.start === 'centre';
  const end = support.centre || tilts ? [length_mm] : [];
  // A steady is some millimetres wide: hard beside another support it is no support of its own.
  const apart = (z: number): boolean => [0, ...end].every((other) => Math.abs(z - other) > length_mm / 1000);
  const steady = support.steadyAt_mm;
  const pins = [...(steady !== null && steady < length_mm && apart(steady) ? [steady] : []), ...end];
  return { length_mm, steps, pins, inverse: inverted(supportMatrix(steps, pins, tilts)), tilts };
}

/** The same bar with its steady elsewhere; what was summed along its steps serves again. */
export function withSteady(beam: Beam, centred: boolean, at_mm: number): Beam {
  const pins = [at_mm, ...(centred || beam.tilts ? [beam.length_mm] : [])];
  return { ...beam, pins, inverse: inverted(supportMatrix(beam.steps, pins, beam.tilts)) };
}

function summed(pieces: readonly BeamPiece[], youngs: number): readonly Step[] {
  let [a0, a1, a2] = [0, 0, 0];
  return pieces
    .filter((p) => p.z1_mm > p.z0_mm)
    .map(({ z0_mm: z0, z1_mm: z1, d_mm, bore_mm }) => {
      const flex = 1 / (youngs * Math.max(0, secondMoment(d_mm, bore_mm)));
      const step = { z0, z1, flex, a0, a1, a2 };
      a0 += flex * (z1 - z0);
      a1 += (flex * (z1 ** 2 - z0 ** 2)) / 2;
      a2 += (flex * (z1 ** 3 - z0 ** 3)) / 3;
      return step;
    });
}

/**
 * Deflection at one place under a unit load at another, mm/N, in the direction of the load. A place beyond the bar
 * counts as its end. Infinite where no metal is left to carry the load.
 */
export function deflection(beam: Beam, load_mm: number, query_mm: number): number {
  const load = within(beam, load_mm);
  const query = within(beam, query_mm);
  let out = free(beam.steps, query, load);
  if (beam.inverse.length > 0) {
    const forces = pinForces(beam, load);
    for (let i = 0; i < beam.pins.length; i++)
      out -= free(beam.steps, query, beam.pins[i] ?? 0) * (forces[i] ?? 0);
    if (beam.tilts) out += (forces[beam.pins.length] ?? 0) * query;
  }
  return Number.isNaN(out) ? Infinity : out;
}

/**
 * What the work gives where it is pushed, mm/N: `deflection` with load and query at one place, to the last bit, but
 * quicker, as it is asked some fifty times along every finishing pass of every way: sums up to the place serve for the
 * place itself and for every support beyond it, and a support gives there what the place gives at the support.
 */
export function yieldAt(beam: Beam, place_mm: number): number {
  const { steps, pins, inverse, tilts } = beam;
  const z = within(beam, place_mm);
  const { a0, a1, a2 } = sumsTo(steps, z);
  let out = freely(z, z, a0, a1, a2);
  const sides: number[] = [];
  for (const pin of pins) sides.push(pin < z ? free(steps, pin, z) : freely(pin, z, a0, a1, a2));
  if (tilts) sides.push(z);
  for (let i = 0; i < inverse.length; i++) {
    const force = dot(inverse[i] ?? [], sides);
    if (i < pins.length) out -= (sides[i] ?? 0) * force;
    else out += force * z;
  }
  return Number.isNaN(out) ? Infinity : out;
}

/** Forces in the steady and in the centre (in order along the bar) under a unit load; then, on a centre, the tilt at the start. */
export function pinForces(beam: Beam, load_mm: number): readonly number[] {
  const { steps, pins, tilts, inverse } = beam;
  const load = within(beam, load_mm);
  const sides: number[] = [];
  for (let i = 0; i < pins.length; i++) sides.push(free(steps, pins[i] ?? 0, load));
  if (tilts) sides.push(load);
  const forces: number[] = [];
  for (let i = 0; i < inverse.length; i++) forces.push(dot(inverse[i] ?? [], sides));
  return forces;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}

const within = (beam: Beam, z: number): number => Math.min(Math.max(z, 0), beam.length_mm);

/** Clamped at z 0 and otherwise free: ∫ (a − s)(x − s) / EI ds from 0 to the nearer of load and query. */
function free(steps: readonly Step[], x: number, a: number): number {
  const { a0, a1, a2 } = sumsTo(steps, Math.min(x, a));
  return freely(x, a, a0, a1, a2);
}

/** The same integral from its three sums. */
const freely = (x: number, a: number, a0: number, a1: number, a2: number): number =>
  a * x * a0 - (a + x) * a1 + a2;

type Sums = Pick<Step, 'a0' | 'a1' | 'a2'>;
const NOTHING: Sums = { a0: 0, a1: 0, a2: 0 };

/** Sums of 1/EI, s/EI and s²/EI from 0 to m. */
function sumsTo(steps: readonly Step[], m: number): Sums {
  // The first step that reaches to m.
  let i = 0;
  let last = steps.length - 1;
  while (i < last) {
    const middle = (i + last) >> 1;
    if ((steps[middle]?.z1 ?? m) < m) i = middle + 1;
    else last = middle;
  }
  const step = steps[i];
  if (!step || m <= 0) return NOTHING;
  const { z0, flex } = step;
  return {
    a0: step.a0 + flex * (m - z0),
    a1: step.a1 + (flex * (m * m - z0 * z0)) / 2,
    a2: step.a2 + (flex * (m * m * m - z0 * z0 * z0)) / 3,
  };
}

/** Every pin stands still: Σ F R − tilt · z = free deflection there; and a start on a centre carries no moment. */
function supportMatrix(steps: readonly Step[], pins: readonly number[], tilts: boolean): number[][] {
  const rows: number[][] = [];
  for (const p of pins) {
    const row: number[] = [];
    for (const q of pins) row.push(free(steps, p, q));
    if (tilts) row.push(-p);
    rows.push(row);
  }
  if (tilts) rows.push([...pins, 0]);
  return rows;
}

/** The inverse of the support equations: one pin and two, which a travelling steady wants at every place, by formula. */
function inverted(rows: number[][]): readonly (readonly number[])[] {
  const [a, b, c, d] = [entry(rows, 0, 0), entry(rows, 0, 1), entry(rows, 1, 0), entry(rows, 1, 1)];
  if (rows.length === 1) return [[1 / a]];
  if (rows.length !== 2) return eliminated(rows);
  const det = a * d - b * c;
  return [
    [d / det, -b / det],
    [-c / det, a / det],
  ];
}

/** Gauss–Jordan with the largest pivot; three rows at most. */
function eliminated(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...Array.from({ length: n }, (_, j) => (i === j ? 1 : 0))]);
  for (let c = 0; c < n; c++) {
    const rest = rows.slice(c);
    const best = rest.reduce(
      (top, row) => (Math.abs(row[c] ?? 0) > Math.abs(top[c] ?? 0) ? row : top),
      rest[0] ?? [],
    );
    rows[rows.indexOf(best)] = rows[c] ?? [];
    const lead = best[c] ?? 0;
    rows[c] = best.map((x) => x / lead);
    const pivot = rows[c] ?? [];
    rows.forEach((row, i) => {
      const factor = row[c] ?? 0;
      if (i !== c) rows[i] = row.map((x, j) => x - factor * (pivot[j] ?? 0));
    });
  }
  return rows.map((row) => row.slice(n));
}

const entry = (matrix: readonly (readonly number[])[], i: number, j: number): number => matrix[i]?.[j] ?? 0;

/**
 * How much of the bending a stub's shear adds, which this model leaves out: (10/9) F L/(G A) over F L³/(3 E I) for a
 * round bar, ν = 0.29. 0.54 at one diameter of stick-out, 0.06 at three, 0.02 at five.
 *
 * Source: Timoshenko's shear coefficient 0.9 for a solid circle; from memory.
 */
export function shearShare(stickOut_mm: number, d_mm: number): number {
  const poisson = 0.29;
  return ((10 / 9) * 2 * (1 + poisson) * 3 * d_mm ** 2) / (16 * stickOut_mm ** 2);
}
