import fc from 'fast-check';
import { partFrom } from '../../../src/core/part/read-part.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Crossing, Edge, Hole, Part, Segment } from '../../../src/core/part/types.ts';

/** A part from what a file would hold; a file that is refused is a mistake in the test. */
export function partOf(file: object): Part {
  const read = partFrom({ shaftwright: 1, unit: 'in', ...file }, 'test');
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

const LETTERS = 'ABCDEFGHJK';

/** A part of plain segments, one unit each, with faces A, B, C and so on. The rest as given. */
export function pin(segments: readonly (string | object)[], rest: object = {}): Part {
  return partOf({
    faces: Array.from({ length: segments.length + 1 }, (_, i) => ({ id: LETTERS[i], sketched: i })),
    segments: segments.map((segment, i) =>
      typeof segment === 'string'
        ? { id: `s${i + 1}`, form: 'cylinder', diameter: segment }
        : { id: `s${i + 1}`, ...segment },
    ),
    ...rest,
  });
}

/** Codes and places of what resolving finds wrong. */
export const faults = (part: Part): string[] =>
  resolvePart(part).errors.map(({ code, where }) => `${code} at ${where}`);

/** Sizes as people write them, and some that nobody can read. */
export const anySizeText = fc.constantFrom(
  ...[
    '1/2',
    '.500',
    '1 5/8',
    '12 mm',
    '.2500/.2495',
    'Ø12 k5',
    '.500 ±.002',
    '5 thou',
    '1',
    '0',
    '5/0',
    '',
    'two',
  ],
);
const anySize = fc.oneof(
  anySizeText,
  fc.record(
    {
      size: anySizeText,
      tol: fc.constantFrom('±.005', 'h6', '+.000/-.002', 'H7', '?'),
      role: fc.constant('reference'),
    },
    { requiredKeys: ['size'] },
  ),
);
const anyAngle = fc.constantFrom('45°', '2.5°', '90°', '0°', '270°', '1°25\'50"');

/** Ids that a careless program trips over, among plain ones. */
const STRANGE_IDS = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'edge A right',
  '0',
  ' ',
  'Ж',
  '"',
  'a.b',
];

const anySegment = (id: string): fc.Arbitrary<Segment> =>
  fc.oneof(
    fc.record({ id: fc.constant(id), form: fc.constant('cylinder' as const), diameter: anySize }),
    fc.record(
      {
        id: fc.constant(id),
        form: fc.constant('taper' as const),
        start: anySize,
        end: anySize,
        ratio: fc.constantFrom('1:10', '7:24', 'x'),
        half_angle: anyAngle,
        large: fc.constantFrom('start' as const, 'end' as const),
      },
      { requiredKeys: ['id', 'form'] },
    ),
    fc.record({
      id: fc.constant(id),
      form: fc.constant('thread' as const),
      thread: fc.constantFrom('M6', '5/16-24 UNF-2A', 'M8x1-6g', 'wood'),
    }),
  );

type Named = { readonly faces: readonly string[]; readonly points: readonly string[] };

const anyEdge = ({ faces }: Named, id: string): fc.Arbitrary<Edge> =>
  fc.record({
    id: fc.constant(id),
    face: fc.constantFrom(...faces),
    side: fc.constantFrom('left' as const, 'right' as const),
    form: fc.constant('chamfer' as const),
    size: anySize,
    angle: anyAngle,
  });

const anyHole = ({ faces }: Named, id: string): fc.Arbitrary<Hole> =>
  fc.record({
    id: fc.constant(id),
    from: fc.constantFrom(...faces),
    form: fc.constantFrom('drill' as const, 'bore' as const),
    diameter: anySize,
    depth: anySize,
  });

const anyCrossing = ({ faces, points }: Named, id: string): fc.Arbitrary<Crossing> => {
  const station = fc.constantFrom(...faces, ...points);
  return fc.oneof(
    fc.record({
      id: fc.constant(id),
      at: station,
      angle: anyAngle,
      form: fc.constant('hole' as const),
      diameter: anySize,
      reaches: fc.constantFrom('axis', 'through', '1/8'),
    }),
    fc.record({
      id: fc.constant(id),
      at: station,
      to: station,
      angle: anyAngle,
      form: fc.constant('keyseat' as const),
      width: anySize,
      depth: anySize,
    }),
  );
};

const listOf = <T>(ids: readonly string[], make: (id: string) => fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
  fc.tuple(...ids.map(make));

function anyPartWith(counts: readonly number[], ids: readonly string[]): fc.Arbitrary<Part> {
  const starts = counts.map((_, i) => counts.slice(0, i).reduce((sum, n) => sum + n, 0));
  const [
    segments = [],
    faces = [],
    points = [],
    lengths = [],
    edges = [],
    holes = [],
    crossings = [],
    needs = [],
  ] = counts.map((count, i) => ids.slice(starts[i] ?? 0, (starts[i] ?? 0) + count));
  const named = { faces, points };
  const station = fc.constantFrom(...faces, ...points);
  return fc
    .record({
      title: fc.string(),
      unit: fc.constantFrom('in', 'mm'),
      general: fc.constantFrom(
        {},
        {
          lengths: { rule: 'decimals', fraction: '1/64', '3': '.005' },
          diameters: { rule: 'iso2768', class: 'm' },
        },
      ),
      faces: fc.constant(faces.map((id, i) => ({ id, sketched: i }))),
      segments: listOf(segments, anySegment),
      points: listOf(points, (id) =>
        fc.record({ id: fc.constant(id), sketched: fc.double({ min: 0, max: 6, noNaN: true }) }),
      ),
      lengths: listOf(lengths, (id) =>
        fc.record({ id: fc.constant(id), from: station, to: station, size: anySize }),
      ),
      edges: listOf(edges, (id) => anyEdge(named, id)),
      holes: listOf(holes, (id) => anyHole(named, id)),
      crossings: listOf(crossings, (id) => anyCrossing(named, id)),
      requirements: listOf(needs, (id) =>
        fc.record({ id: fc.constant(id), from: station, to: station, min: anySizeText, max: anySizeText }),
      ),
      matched: fc.array(fc.subarray([...segments], { minLength: 1 }), { maxLength: 2 }),
      note: fc.jsonValue({ maxDepth: 2 }),
    })
    .map((file) => partOf(file));
}

/** Parts of one to five segments with everything a part may have on it, legible and not, under strange ids. */
export const anyPart: fc.Arbitrary<Part> = fc
  .record({
    segments: fc.integer({ min: 1, max: 5 }),
    others: fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 6, maxLength: 6 }),
    strange: fc.shuffledSubarray(STRANGE_IDS),
    order: fc.infiniteStream(fc.nat()),
  })
  .chain(({ segments, others, strange, order }) => {
    const counts = [segments, segments + 1, ...others];
    const total = counts.reduce((sum, n) => sum + n, 0);
    const plain = Array.from({ length: Math.max(0, total - strange.length) }, (_, i) => `id${i}`);
    const ranked = [...strange, ...plain].map((id) => ({ id, rank: Number(order.next().value) }));
    return anyPartWith(
      counts,
      ranked.sort((a, b) => a.rank - b.rank).map(({ id }) => id),
    );
  });
