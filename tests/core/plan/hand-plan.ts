import { fromMm } from '../../../src/core/lengths/length.ts';
import type { Outline } from '../../../src/core/outline/types.ts';
import type { ResolvedLathe } from '../../../src/core/part/resolved.ts';
import type { Cut, Holding, Plan, Reading } from '../../../src/core/plan/types.ts';

// A stepped pin, 50 long, 10 (journal) and 14 in diameter, chamfered and drilled at A, with a cross hole: drawn up and
// planned by hand, so that the replay is judged by a plan that no program made.
const segment = { form: 'cylinder', thread: null, halfAngleDeg: 0, keepsSkin: false } as const;
const round = (mm: number) => ({
  d0: fromMm(mm),
  d1: fromMm(mm),
  min: fromMm(mm - 0.01),
  max: fromMm(mm + 0.01),
});

export const pin: Outline = {
  length: fromMm(50),
  stations: new Map([
    ['A', fromMm(0)],
    ['B', fromMm(20)],
    ['C', fromMm(50)],
    ['P', fromMm(35)],
  ]),
  segments: [
    { ...segment, id: 's1', left: 'A', right: 'B', z0: fromMm(0), z1: fromMm(20), ...round(10), role: 'journal' },
    { ...segment, id: 's2', left: 'B', right: 'C', z0: fromMm(20), z1: fromMm(50), ...round(14), role: null },
  ],
  edges: [
    {
      id: 'e1',
      face: 'A',
      side: 'right',
      segment: 's1',
      form: 'chamfer',
      z0: fromMm(0),
      z1: fromMm(1),
      d0: fromMm(8),
      d1: fromMm(10),
      angleDeg: 45,
    },
  ],
  holes: [
    {
      id: 'h1',
      from: 'first',
      form: 'drill',
      diameter: fromMm(4),
      min: fromMm(4),
      max: fromMm(4.1),
      depth: fromMm(12),
      thread: null,
      threadDepth: null,
      toolName: '4 mm',
    },
  ],
  crossings: [
    { id: 'x1', form: 'hole', z0: fromMm(35), z1: fromMm(35), size: fromMm(3), depth: null, angleDeg: 0, reaches: 'through' },
  ],
  matched: [],
}; // prettier-ignore

export const lathe: ResolvedLathe = {
  name: 'by hand',
  unit: 'mm',
  swing: fromMm(180),
  betweenCentres: fromMm(350),
  spindleBore: fromMm(21),
  collets: { min: fromMm(2), max: fromMm(16), step: fromMm(0.5), close: fromMm(0.5), runout: fromMm(0.01) },
  chucks: [{ jaws: 3, min: fromMm(3), max: fromMm(100), runout: fromMm(0.08) }],
  minGrip: null,
  support: ['centre', 'steady'],
  betweenCentresDrive: true,
  speeds: { steps: [100, 300, 600, 1200, 2000] },
  feeds: [fromMm(0.05), fromMm(0.1)],
  readout: {
    x: 'diameter',
    zPositive: 'tailstock',
    resolution: fromMm(0.01),
    repeat: fromMm(0.01),
    touch: fromMm(0.01),
  },
  compoundTravel: fromMm(50),
  quillTravel: fromMm(50),
  tools: [
    { id: 'T1', kind: 'turn', hand: 'right', nose: fromMm(0.2), trailingDeg: 30 },
    { id: 'T2', kind: 'turn', hand: 'left', nose: fromMm(0.2), trailingDeg: 30 },
    {
      id: 'T3',
      kind: 'blade',
      width: fromMm(2),
      widthKnownTo: fromMm(0.01),
      reach: fromMm(12),
      edge: 'left',
    },
    { id: 'T4', kind: 'chamfer', angleDeg: 45 },
    { id: 'T5', kind: 'bore', minBore: fromMm(6), reach: fromMm(30) },
    { id: 'T6', kind: 'turn', hand: 'neutral', nose: fromMm(0.2), trailingDeg: 60 },
  ],
  taps: null,
  dies: null,
  drills: 'all',
  cut: { rough: fromMm(1), finish: fromMm(0.25), allowance: fromMm(0.5) },
  bars: { diameters: [{ text: '16', diameter: fromMm(16) }], length: fromMm(300) },
  errors: [],
};

const z = (value_mm: number, station: string | null, text = value_mm.toFixed(2)): Reading => ({
  axis: 'Z',
  value_mm,
  text,
  station,
  edge: null,
  other: null,
});
const x = (value_mm: number): Reading => ({ axis: 'X', value_mm, text: value_mm.toFixed(2) });

const plain: Omit<Cut, 'n' | 'kind' | 'z0_mm' | 'z1_mm'> = {
  segment: null,
  makes: null,
  tool: null,
  inside: false,
  d0_mm: null,
  d1_mm: null,
  passes: 1,
  rpm: null,
  feed_mm: null,
  hand_turned: false,
  support: null,
  readings: [],
  setting: null,
  say: '',
};

/** A cut by the few fields that matter for it; d stands for both ends. */
export function cut(
  n: number,
  kind: Cut['kind'],
  [z0_mm, z1_mm]: [number, number],
  rest: Partial<Cut> & { d?: number } = {},
): Cut {
  const { d, ...more } = rest;
  const both = d === undefined ? {} : { d0_mm: d, d1_mm: d };
  return { ...plain, n, kind, z0_mm, z1_mm, ...both, ...more };
}

const T1 = { tool: 'T1', rpm: 600, feed_mm: 0.1 };
const journal = (d: number) => ({ ...T1, segment: 's1', d, readings: [x(d), z(-20, 'B')] });

function first(): Holding {
  const kerf: Reading = {
    ...z(-52.5, null),
    edge: 'left',
    other: { edge: 'right', value_mm: -50.5, text: '-50.50' },
  };
  return {
    id: 'H1',
    device: 'collet',
    grips: { z0_mm: 60, z1_mm: 80, on: 'bar' },
    headstock: 'right',
    stick_out_mm: 61,
    support: [],
    steady_at_mm: null,
    datum: { station: 'A', how: 'Face the end and set Z to zero there.' },
    zero_z_mm: 0,
    z_sign: -1,
    marks: [
      {
        station: 'B',
        z_mm: 20,
        reading_mm: -20,
        text: '-20.00',
        rule_text: '20',
        from: 'A',
        before: 6,
        waste: 'left',
      },
      {
        station: 'C',
        z_mm: 50,
        reading_mm: -50,
        text: '-50.00',
        rule_text: '50',
        from: 'A',
        before: 17,
        waste: 'right',
      },
    ],
    cuts: [
      cut(1, 'touch', [-1, -1], { tool: 'T1', d: 16, readings: [x(16), z(1, null)] }),
      cut(2, 'face', [-1, 0], { ...T1, d: 0, readings: [z(0, 'A')] }),
      cut(3, 'centre-drill', [0, 1.5], { d: 2, inside: true, rpm: 1200 }),
      cut(4, 'drill', [0, 12], {
        d: 4,
        inside: true,
        makes: 'h1',
        rpm: 1200,
        readings: [{ axis: 'quill', value_mm: 12, text: '12' }],
      }),
      cut(5, 'rough', [0, 52.5], { ...T1, d: 14.5, passes: 2, readings: [x(14.5), z(-52.5, null)] }),
      cut(6, 'rough', [0, 19.75], {
        ...T1,
        segment: 's1',
        d: 10.5,
        passes: 4,
        readings: [x(10.5), z(-19.75, null)],
      }),
      cut(7, 'finish', [0, 20], journal(10.25)),
      cut(8, 'spring', [0, 20], journal(10.25)),
      cut(9, 'measure', [10, 10], { segment: 's1', d: 10.25, readings: [x(10.25)] }),
      cut(10, 'finish', [0, 20], journal(10)),
      cut(11, 'spring', [0, 20], journal(10)),
      cut(12, 'measure', [10, 10], { segment: 's1', d: 10, readings: [x(10)] }),
      cut(13, 'finish', [20, 50], { ...T1, segment: 's2', d: 14, passes: 2, readings: [x(14), z(-50, 'C')] }),
      cut(14, 'touch', [0, 0], { tool: 'T4', d: 10, readings: [z(0, 'A')] }),
      cut(15, 'chamfer', [0, 1], {
        tool: 'T4',
        rpm: 600,
        segment: 's1',
        makes: 'e1',
        d0_mm: 8,
        d1_mm: 10,
        readings: [x(8), z(0, 'A')],
      }),
      cut(16, 'touch', [20, 20], { tool: 'T3', d: 14, readings: [{ ...z(-20, 'B'), edge: 'left' }] }),
      cut(17, 'part-off', [50.5, 52.5], { tool: 'T3', rpm: 300, d: 2, readings: [kerf, x(2)] }),
      cut(18, 'sever', [50.5, 52.5], { d: 0, hand_turned: true }),
    ],
  };
}

function second(): Holding {
  return {
    id: 'H2',
    device: 'collet',
    grips: { z0_mm: 2, z1_mm: 18, on: ['s1'] },
    headstock: 'left',
    stick_out_mm: 32.5,
    support: [],
    steady_at_mm: null,
    datum: { station: 'C', how: 'Measure the whole length, then set Z to what is left over.' },
    zero_z_mm: 50,
    z_sign: 1,
    marks: [],
    cuts: [
      cut(19, 'touch', [50.5, 50.5], { tool: 'T1', d: 14, readings: [x(14), z(0.5, null)] }),
      cut(20, 'face', [50, 50.5], { ...T1, d: 0, readings: [z(0, 'C')] }),
    ],
  };
}

/** A fresh copy of the whole plan, to be spoilt at will. */
export function handPlan(): Plan {
  return {
    stock: { diameter_mm: 16, length_mm: 81, z0_mm: -1, z1_mm: 80, bar: '16' },
    holdings: [first(), second()],
    off_lathe: [cut(21, 'cross', [35, 35], { makes: 'x1', d: 3 }), cut(22, 'deburr', [0, 50])],
    chart: [{ length: 'L1', allowed_mm: [19.9, 20.1], held_mm: [19.96, 20.04], ok: true, through: ['H1:B'] }],
    stiffness: [{ holding: 'H1', segment: 's1', force_n: 10, error_mm: 0.001, limit_mm: 0.01, ok: true }],
    rejected: [],
  };
}
