import { minus, plus, pm, PM_PER, ZERO } from '../../../src/core/lengths/length.ts';
import type { Length, Unit } from '../../../src/core/lengths/length.ts';
import { readSize } from '../../../src/core/lengths/read-size.ts';
import { readTolerance } from '../../../src/core/lengths/read-tolerance.ts';
import type {
  ResolvedLength,
  ResolvedPart,
  ResolvedSegment,
  ResolvedSize,
} from '../../../src/core/part/resolved.ts';

/** A size as a test writes it, `.365 ±.005`; exact where no tolerance stands. */
export function sizeOf(text: string, unit: Unit, reference = false): ResolvedSize {
  const read = readSize(text, unit);
  if (!read.ok) throw new Error(read.problem.say);
  const { nominal, limits, decimals, fraction } = read.value;
  const { min, max } = limits ?? { min: nominal, max: nominal };
  const limitsFrom = limits ? 'written' : 'none';
  return { nominal, min, max, text, unit: read.value.unit, decimals, fraction, reference, limitsFrom };
}

/** A length as one line: `A-B 1/2 ±1/64`, the tolerance apart where the size is a fraction; `(A-D 75)` is a reference. */
function lengthOf(line: string, index: number, unit: Unit): ResolvedLength {
  const match = /^(\(?)(\S+)-(\S+) (.*?)( [-+±].*)?\)?$/.exec(line);
  if (!match) throw new Error(`not a length: ${line}`);
  const [, bracket, from = '', to = '', written = '', tolerance] = match;
  const size = sizeOf(written, unit, bracket === '(');
  const read = tolerance ? readTolerance(tolerance.trim(), unit) : null;
  if (read && !(read.ok && read.value.kind === 'deviations')) throw new Error(`not a tolerance: ${line}`);
  const off = read?.ok && read.value.kind === 'deviations' ? read.value : { lower: ZERO, upper: ZERO };
  const limits = { min: plus(size.nominal, off.lower), max: plus(size.nominal, off.upper) };
  return { id: `L${index + 1}`, index, from, to, size: tolerance ? { ...size, ...limits } : size };
}

export type Sketch = {
  unit?: Unit;
  points?: string;
  segments?: ResolvedSegment[];
  sketched?: Record<string, number>;
};

/** A part of faces `A B C …`, lengths as lines (ids L1, L2, …), and cylinders s1, s2, … between the faces. */
export function drawing(faces: string, lines: readonly string[], sketch: Sketch = {}): ResolvedPart {
  const unit = sketch.unit ?? 'mm';
  const lengths = lines.map((line, i) => lengthOf(line, i, unit));
  const places = Object.entries(sketch.sketched ?? {}).map(
    ([id, z]) => [id, pm(Math.round(z * PM_PER[unit]))] as const,
  );
  return partOf(faces.split(' '), lengths, { ...sketch, unit, places });
}

export function cylinder(
  index: number,
  left: string,
  right: string,
  size: ResolvedSize | null = null,
): ResolvedSegment {
  return {
    id: `s${index + 1}`,
    index,
    form: 'cylinder',
    left,
    right,
    role: null,
    mate: null,
    diameter: size,
  };
}

type Rest = {
  unit?: Unit;
  points?: string;
  segments?: ResolvedSegment[];
  places?: (readonly [string, Length])[];
};

/** A resolved part of faces, lengths and cylinders; nothing else on it. */
export function partOf(
  faces: readonly string[],
  lengths: readonly ResolvedLength[],
  rest: Rest = {},
): ResolvedPart {
  const cylinders = faces.slice(1).map((right, i) => cylinder(i, faces[i] ?? '', right));
  return {
    unit: rest.unit ?? 'mm',
    title: '',
    material: '',
    faces,
    points: rest.points ? rest.points.split(' ') : [],
    sketched: new Map(rest.places ?? []),
    names: new Map(),
    segments: rest.segments ?? cylinders,
    lengths,
    edges: [],
    holes: [],
    crossings: [],
    requirements: [],
    matched: [],
    errors: [],
    warnings: [],
    stubs: [],
    pins: {},
    trials: [],
    indexLine: null,
  };
}

/** A length by figures in pm, exact or with ± limits. */
export function lengthBy(index: number, from: string, to: string, nominal: number, tol = 0): ResolvedLength {
  const size = pm(nominal);
  const limits = { min: minus(size, pm(tol)), max: plus(size, pm(tol)) };
  const text = String(nominal / PM_PER.mm);
  const written = {
    text,
    unit: 'mm',
    decimals: null,
    fraction: false,
    reference: false,
    limitsFrom: 'written',
  } as const;
  return { id: `L${index + 1}`, index, from, to, size: { nominal: size, ...limits, ...written } };
}

/** A requirement in pm, id R1, R2, … */
export const requirement = (index: number, from: string, to: string, min: number, max: number) => ({
  id: `R${index + 1}`,
  index,
  from,
  to,
  min: pm(min),
  max: pm(max),
  why: '',
});
