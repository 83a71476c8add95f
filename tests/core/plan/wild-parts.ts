import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part, Pins } from '../../../src/core/part/types.ts';
import { random } from './random-parts.ts';

type Draw = {
  readonly int: (from: number, to: number) => number;
  readonly chance: (p: number) => boolean;
};

/** Lengths and diameters that lands are drawn from: thin and long, thick and short, or any. */
const STYLES = [
  { d: [6, 20], l: [10, 80] },
  { d: [20, 60], l: [3, 30] },
  { d: [8, 50], l: [2, 60] },
] as const;

const drawOf = (seed: number): Draw => {
  const next = random(seed * 31 + 5);
  return { int: (from, to) => from + Math.floor(next() * (to - from + 1)), chance: (p) => next() < p };
};

/** A part that wants more of a lathe than makeable ones do: long and thin, thick and short, drilled, crossed, with stubs. */
export function wildPart(seed: number): Part {
  const draw = drawOf(seed);
  const { int, chance } = draw;
  const n = int(1, 7);
  const style = STYLES[int(0, 2)] ?? STYLES[0];
  const lengths = Array.from({ length: n }, () => int(style.l[0], style.l[1]));
  const total = lengths.reduce((sum, l) => sum + l, 0);
  const end = (): string => (chance(0.5) ? 'F0' : `F${n}`);
  const crossed = chance(0.3);
  const document = {
    ...{ shaftwright: 1, title: 'wild', unit: 'mm', material: 'mild-steel' },
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces: Array.from({ length: n + 1 }, (_, i) => ({ id: `F${i}`, sketched: i })),
    segments: Array.from({ length: n }, (_, i) => landOf(i, style.d, draw)),
    lengths: [
      ...lengths.map((l, i) => ({ id: `L${i}`, from: `F${i}`, to: `F${i + 1}`, size: String(l) })),
      ...(crossed ? [{ id: 'Lp', from: 'F0', to: 'p', size: String(int(1, total - 1)) }] : []),
    ],
    edges: [
      ...(chance(0.4)
        ? [{ id: 'e1', face: 'F0', side: 'right', form: 'chamfer', size: '0.5', angle: '45°' }]
        : []),
      ...(chance(0.4)
        ? [{ id: 'e2', face: `F${n}`, side: 'left', form: 'chamfer', size: '1', angle: '45°' }]
        : []),
    ],
    points: crossed ? [{ id: 'p', sketched: 0.5 }] : [],
    crossings: crossed
      ? [{ id: 'x', at: 'p', form: 'hole', diameter: '2', angle: '0°', reaches: 'through' }]
      : [],
    stubs: chance(0.25)
      ? [{ end: end(), length: String(int(8, 25)), ...(chance(0.5) ? { diameter: String(int(6, 12)) } : {}) }]
      : [],
    holes: chance(0.3)
      ? [
          {
            id: 'h1',
            from: end(),
            form: 'drill',
            diameter: '3.2',
            depth: String(Math.min(total - 1, int(5, 30))),
          },
        ]
      : [],
    pins: chance(0.5) ? pinsOf(n, draw) : {},
  };
  const read = readPart(JSON.stringify(document), document.title);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

function landOf(i: number, [least, most]: readonly [number, number], { int, chance }: Draw): object {
  const id = `s${i}`;
  const d = int(least, most) / 2;
  if (chance(0.1)) return { id, form: 'thread', thread: `M${[5, 6, 8, 10, 12][int(0, 4)] ?? 6}` };
  if (chance(0.12)) {
    const low = String(Math.max(3, d - int(1, 6)));
    return {
      id,
      form: 'taper',
      ...(chance(0.5) ? { start: low, end: String(d) } : { start: String(d), end: low }),
    };
  }
  const tol = ['h6', 'h7', 'h9', 'g6'][int(0, 3)];
  const role = chance(0.25) ? { role: chance(0.5) ? 'journal' : 'seat' } : {};
  return { id, form: 'cylinder', diameter: chance(0.4) ? { size: String(d), tol } : String(d), ...role };
}

/** One thing settled about the plan, whatever comes of it. */
function pinsOf(n: number, { int }: Draw): Pins {
  const inner = `F${int(1, Math.max(1, n - 1))}`;
  const all: Pins[] = [
    ...[{ centre: false }, { centre: true }, { part_off: false as const }, { split: inner }],
    ...(['centres', 'both-ends', 'stages'] as const).map((way) => ({ way })),
    ...[
      { way: 'bar' as const, first: 'F0' },
      { faces: [{ face: inner, from: `F${n}` }] },
      { grip: `s${int(0, n - 1)}` },
    ],
  ];
  return all[int(0, all.length - 1)] ?? {};
}
