import type { Lathe } from '../../../src/core/part/lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part, Pins } from '../../../src/core/part/types.ts';
import { random } from './random-parts.ts';

export type Refused = {
  readonly part: Part;
  readonly lathe: Lathe;
  /** Code and place of the first error. */
  readonly code: string;
  readonly where: string;
  /** What some way, or the error itself, must name. */
  readonly say: RegExp;
};

type Land = { readonly form: string; readonly d: number; readonly low?: number; readonly l: number };

/** A closed part in millimetres, each length from face to face. */
function partOf(lands: readonly Land[], more: { holes?: object[]; pins?: Pins } = {}): Part {
  const face = (i: number): string => `F${i}`;
  const document = {
    shaftwright: 1,
    title: 'refused',
    unit: 'mm',
    material: 'mild-steel',
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces: Array.from({ length: lands.length + 1 }, (_, i) => ({ id: face(i), sketched: i })),
    segments: lands.map(({ form, d, low }, i) => ({
      id: `s${i}`,
      form,
      ...(form === 'cylinder' ? { diameter: String(d) } : {}),
      ...(form === 'thread' ? { thread: `M${d}` } : {}),
      ...(form === 'taper' ? { start: String(low ?? d), end: String(d) } : {}),
    })),
    lengths: lands.map(({ l }, i) => ({ id: `L${i}`, from: face(i), to: face(i + 1), size: String(l) })),
    ...more,
  };
  const read = readPart(JSON.stringify(document), document.title);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

const cylinder = (d: number, l: number): Land => ({ form: 'cylinder', d, l });

type Draw = { readonly int: (from: number, to: number) => number; readonly lathe: Lathe };
type Made = Omit<Refused, 'lathe'> & { readonly lathe?: Lathe };

const NO_TOOL = { rough: /wider/, deep: /reach/ };

/** One maker for each reason: what it makes cannot be made, for that reason alone. */
export const MAKERS: Readonly<Record<string, (draw: Draw) => Made>> = {
  'no bar is thick enough': ({ int }) => ({
    part: partOf([cylinder(12, int(10, 30)), cylinder(int(62, 79) / 2, int(20, 30))]),
    code: 'no-bar',
    where: 'bars.diameters',
    say: /at least/,
  }),
  'the bar does not turn over the bed': ({ int, lathe }) => ({
    part: partOf([cylinder(int(12, 18), 30), cylinder(10, 20)]),
    lathe: { ...lathe, swing: `${int(5, 9)} mm` },
    code: 'out-of-swing',
    where: 'swing',
    say: /does not turn over the bed/,
  }),
  'a groove is narrower than every blade': ({ int }) => ({
    part: partOf([cylinder(16, int(15, 25)), cylinder(int(11, 14), int(5, 18) / 10), cylinder(16, 20)]),
    code: 'no-tool',
    where: 's1',
    say: NO_TOOL.rough,
  }),
  'a groove is deeper than every blade reaches': ({ int, lathe }) => ({
    part: partOf([cylinder(18, int(15, 25)), cylinder(int(8, 10), int(4, 9)), cylinder(18, 20)]),
    lathe: {
      ...lathe,
      tools: lathe.tools.map((t) => (t.kind === 'blade' ? { ...t, reach: `${int(20, 35) / 10} mm` } : t)),
    },
    code: 'no-tool',
    where: 's1',
    say: NO_TOOL.deep,
  }),
  'nothing holds the bar': ({ int, lathe }) => ({
    part: partOf([cylinder(int(10, 14), 30), cylinder(16, 20)]),
    lathe: { ...lathe, collets: null, chucks: [{ jaws: 3, min: '1 mm', max: `${int(4, 8)} mm` }] },
    code: 'no-way',
    where: 'plan',
    say: /neither a collet nor a chuck of the lathe holds the bar/,
  }),
  'every land is tapered, threaded or short': ({ int }) => ({
    part: partOf([
      { form: 'taper', low: int(10, 12), d: 14, l: int(20, 30) },
      cylinder(16, int(3, 6)),
      { form: 'thread', d: 10, l: int(14, 20) },
    ]),
    code: 'no-way',
    where: 'plan',
    say: /no finished land can be gripped/,
  }),
  'between centres without a drive': ({ int, lathe }) => ({
    part: partOf([cylinder(12, int(20, 30)), cylinder(16, 30)], { pins: { way: 'centres' } }),
    lathe: { ...lathe, between_centres_drive: false },
    code: 'no-way',
    where: 'pins',
    say: /no faceplate and dog/,
  }),
  'no blade to part off with': ({ int, lathe }) => ({
    part: partOf([cylinder(12, int(20, 30)), cylinder(16, 30)]),
    lathe: {
      ...lathe,
      between_centres_drive: false,
      tools: lathe.tools.filter((t) => t.kind !== 'blade'),
    },
    code: 'no-way',
    where: 'plan',
    say: /no blade to part off with/,
  }),
  'longer than the lathe takes': ({ int, lathe }) => ({
    part: partOf([cylinder(12, int(120, 140)), cylinder(16, 60)], { pins: { centre: true } }),
    lathe: { ...lathe, between_centres: `${int(90, 120)} mm` },
    code: 'no-way',
    where: 'pins',
    say: /longer than the lathe takes/,
  }),
  'no right-hand tool': ({ int, lathe }) => ({
    part: partOf([cylinder(12, int(20, 30)), cylinder(16, 30)]),
    lathe: { ...lathe, tools: lathe.tools.filter((t) => t.kind !== 'turn' || t.hand !== 'right') },
    code: 'no-way',
    where: 'plan',
    say: /no right-hand turning tool/,
  }),
  'a bore that no boring tool goes into': ({ int, lathe }) => ({
    part: partOf([cylinder(18, 60)], {
      holes: [
        {
          id: 'h1',
          from: 'F0',
          form: 'bore',
          diameter: { size: String(int(8, 10)), tol: 'H7' },
          depth: String(int(20, 28)),
        },
      ],
    }),
    lathe: {
      ...lathe,
      tools: lathe.tools.map((t) => (t.kind === 'bore' ? { ...t, reach: `${int(8, 12)} mm` } : t)),
    },
    code: 'no-way',
    where: 'plan',
    say: /no boring tool in the lathe file goes into/,
  }),
  // The drill before boring leaves half a millimetre; it has to be as large as the tool needs to go in.
  'a bore that is hardly larger than the boring tool': ({ int, lathe }) => {
    const least = int(7, 9);
    const diameter = { size: `${least}.${int(2, 4)}`, tol: 'H7' };
    return {
      part: partOf([cylinder(18, 60)], {
        holes: [{ id: 'h1', from: 'F0', form: 'bore', diameter, depth: String(int(10, 16)) }],
      }),
      lathe: {
        ...lathe,
        tools: lathe.tools.map((t) => (t.kind === 'bore' ? { ...t, min_bore: `${least} mm` } : t)),
      },
      code: 'no-way',
      where: 'plan',
      say: /no drill opens h1 for the boring tool/,
    };
  },
};

/** A part, and where need be a lathe, that cannot be, for the reason named. */
export function refusedFor(reason: string, seed: number, lathe: Lathe): Refused {
  const make = MAKERS[reason];
  if (!make) throw new RangeError(`refusedFor: ${reason}`);
  const next = random(seed);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  return { lathe, ...make({ int, lathe }) };
}

/** Any closed part, sensible or not: lands, cones and threads of any size beside each other. */
export function anyPart(seed: number): Part {
  const next = random(seed + 7919);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const lands = Array.from({ length: int(1, 8) }, (): Land => {
    const [d, l] = [int(8, 56) / 2, int(2, 40)];
    const kind = next();
    if (kind < 0.12) return { form: 'thread', d: [5, 6, 8, 10, 12][int(0, 4)] ?? 6, l };
    if (kind < 0.24) return { form: 'taper', d, low: Math.max(3, d - int(1, 6)), l };
    return cylinder(d, l);
  });
  return partOf(lands);
}
