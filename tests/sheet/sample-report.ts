import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../src/core/part/lathe.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Cut, Holding, Plan } from '../../src/core/plan/types.ts';
import type { Report } from '../../src/core/report-types.ts';

/** A small shaft of our own, planned by hand: two holdings, both ways round, a groove by the blade, a cross hole. */
export const samplePart: Part = {
  shaftwright: 1,
  title: 'Grinder spindle',
  drawing: 'tool grinder, sheet 2',
  unit: 'in',
  material: 'mild-steel',
  general: {
    lengths: { rule: 'decimals', fraction: '1/64', '2': '.010', '3': '.005' },
    diameters: { rule: 'fixed', tol: '±.002' },
  },
  faces: [
    { id: 'A', sketched: 0 },
    { id: 'B', sketched: 0.75, name: 'wheel seat shoulder' },
    { id: 'C', sketched: 1.25 },
    { id: 'D', sketched: 1.375 },
    { id: 'E', sketched: 3 },
  ],
  segments: [
    { id: 'wheel', form: 'cylinder', diameter: { size: '.5000', tol: '+.0000/-.0005' }, role: 'seat' },
    { id: 'flange', form: 'cylinder', diameter: '5/8' },
    { id: 'groove', form: 'cylinder', diameter: '.340' },
    { id: 'journal', form: 'cylinder', diameter: { size: '.3750', tol: '+.0000/-.0005' }, role: 'journal' },
  ],
  points: [{ id: 'P1', sketched: 2.5, name: 'pin hole' }],
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '3/4' },
    { id: 'L2', from: 'B', to: 'C', size: '.500', tol: '±.003' },
    { id: 'L3', from: 'C', to: 'D', size: '1/8' },
    { id: 'L4', from: 'C', to: 'E', size: '1.750', tol: '±.005' },
    { id: 'L5', from: 'E', to: 'P1', size: '1/2' },
    { id: 'L6', from: 'A', to: 'E', size: '3.000', role: 'reference' },
  ],
  edges: [],
  holes: [],
  crossings: [{ id: 'x1', at: 'P1', form: 'hole', diameter: '3/32', angle: '90°', reaches: 'through' }],
  requirements: [{ id: 'R1', from: 'B', to: 'E', min: '2.240', max: '2.260', why: 'clears the guard' }],
  matched: [],
  scan: null,
};

export const sampleLathe: Lathe = firstLathe;

const inches = (x: number): number => x * 25.4;

function cut(n: number, rest: Partial<Cut> & Pick<Cut, 'kind' | 'say' | 'z0_mm' | 'z1_mm'>): Cut {
  const bare = { segment: null, makes: null, tool: null, inside: false, d0_mm: null, d1_mm: null, passes: 1 };
  const drive = { rpm: null, feed_mm: null, hand_turned: false, support: null, readings: [], setting: null };
  return { n, ...bare, ...drive, ...rest };
}

const firstCuts: Cut[] = [
  cut(1, {
    kind: 'face',
    z0_mm: inches(3),
    z1_mm: inches(3.06),
    d0_mm: 0,
    d1_mm: 0,
    tool: 'T1',
    rpm: 420,
    say: 'Face the end clean and set Z to 0 there.',
    readings: [{ axis: 'Z', value_mm: 0, text: '.0000', station: 'E', edge: null, other: null }],
  }),
  cut(2, {
    kind: 'centre-drill',
    z0_mm: inches(2.8),
    z1_mm: inches(3),
    d0_mm: 3,
    d1_mm: 5,
    inside: true,
    rpm: 620,
    say: 'Centre-drill the end.',
    setting: { centre_drill: 'No. 2' },
    readings: [{ axis: 'quill', value_mm: 5.1, text: '3/16' }],
  }),
  cut(3, {
    kind: 'support',
    z0_mm: inches(3),
    z1_mm: inches(3),
    support: ['centre'],
    say: 'Bring up the centre.',
  }),
  cut(4, {
    kind: 'rough',
    segment: 'journal',
    tool: 'T1',
    z0_mm: inches(1.26),
    z1_mm: inches(3),
    d0_mm: inches(0.395),
    d1_mm: inches(0.395),
    passes: 7,
    rpm: 420,
    feed_mm: 0.1016,
    say: 'Rough the journal, leaving .020 on the diameter and .010 on the shoulder.',
    readings: [
      { axis: 'X', value_mm: inches(0.395), text: '.3950' },
      { axis: 'Z', value_mm: inches(-1.74), text: '-1.7400', station: null, edge: null, other: null },
    ],
  }),
  cut(5, {
    kind: 'measure',
    segment: 'journal',
    z0_mm: inches(2),
    z1_mm: inches(2),
    d0_mm: inches(0.385),
    d1_mm: inches(0.385),
    say: 'Let it cool, measure, enter the measured diameter as X.',
  }),
  cut(6, {
    kind: 'finish',
    segment: 'journal',
    tool: 'T1',
    z0_mm: inches(1.25),
    z1_mm: inches(3),
    d0_mm: inches(0.37475),
    d1_mm: inches(0.37475),
    passes: 2,
    rpm: 620,
    feed_mm: 0.0508,
    say: 'Finish the journal in two equal cuts.',
    readings: [
      { axis: 'X', value_mm: inches(0.37475), text: '.3750' },
      { axis: 'Z', value_mm: inches(-1.75), text: '-1.7500', station: 'C', edge: null, other: null },
    ],
  }),
  cut(7, {
    kind: 'groove',
    segment: 'groove',
    tool: 'T3',
    z0_mm: inches(1.25),
    z1_mm: inches(1.375),
    d0_mm: inches(0.34),
    d1_mm: inches(0.34),
    passes: 2,
    rpm: 250,
    say: 'Plunge twice, wall to wall.',
    readings: [
      { axis: 'X', value_mm: inches(0.34), text: '.3400' },
      {
        axis: 'Z',
        value_mm: inches(-1.75),
        text: '-1.7500',
        station: 'C',
        edge: 'left',
        other: { edge: 'right', value_mm: inches(-1.672), text: '-1.6720' },
      },
      {
        axis: 'Z',
        value_mm: inches(-1.703),
        text: '-1.7030',
        station: 'D',
        edge: 'left',
        other: { edge: 'right', value_mm: inches(-1.625), text: '-1.6250' },
      },
    ],
  }),
  cut(8, {
    kind: 'part-off',
    tool: 'T3',
    z0_mm: inches(-0.138),
    z1_mm: inches(-0.06),
    d0_mm: 0,
    d1_mm: 0,
    rpm: 250,
    say: 'Back off the centre, part off close to the collet.',
    readings: [
      {
        axis: 'Z',
        value_mm: inches(-3.138),
        text: '-3.1380',
        station: null,
        edge: 'left',
        other: { edge: 'right', value_mm: inches(-3.06), text: '-3.0600' },
      },
    ],
  }),
];

const secondCuts: Cut[] = [
  cut(9, {
    kind: 'face',
    z0_mm: inches(-0.06),
    z1_mm: 0,
    d0_mm: 0,
    d1_mm: 0,
    tool: 'T1',
    rpm: 420,
    say: 'Face to length.',
    readings: [{ axis: 'Z', value_mm: 0, text: '.0000', station: 'A', edge: null, other: null }],
  }),
  cut(10, {
    kind: 'rough',
    segment: 'wheel',
    tool: 'T1',
    z0_mm: 0,
    z1_mm: inches(0.74),
    d0_mm: inches(0.52),
    d1_mm: inches(0.52),
    passes: 3,
    rpm: 420,
    feed_mm: 0.1016,
    say: 'Rough the wheel seat.',
    readings: [
      { axis: 'X', value_mm: inches(0.52), text: '.5200' },
      { axis: 'Z', value_mm: inches(-0.74), text: '-.7400', station: null, edge: null, other: null },
    ],
  }),
  cut(11, {
    kind: 'finish',
    segment: 'wheel',
    tool: 'T1',
    z0_mm: 0,
    z1_mm: inches(0.75),
    d0_mm: inches(0.49975),
    d1_mm: inches(0.49975),
    passes: 2,
    rpm: 620,
    feed_mm: 0.0508,
    say: 'Finish the wheel seat in two equal cuts.',
    readings: [
      { axis: 'X', value_mm: inches(0.49975), text: '.5000' },
      { axis: 'Z', value_mm: inches(-0.75), text: '-.7500', station: 'B', edge: null, other: null },
    ],
  }),
];

const holdings: Holding[] = [
  {
    id: 'H1',
    device: 'collet',
    grips: { z0_mm: inches(-1.3), z1_mm: inches(-0.5), on: 'bar' },
    headstock: 'left',
    stick_out_mm: inches(3.56),
    support: [],
    steady_at_mm: null,
    datum: { station: 'E', how: 'Face the free end; it then reads 0.' },
    zero_z_mm: inches(3),
    z_sign: 1,
    marks: [
      {
        station: 'C',
        z_mm: inches(1.25),
        reading_mm: inches(-1.75),
        text: '-1.7500',
        rule_text: '1 3/4',
        from: 'E',
        before: 4,
        waste: 'right',
      },
      {
        station: 'D',
        z_mm: inches(1.375),
        reading_mm: inches(-1.625),
        text: '-1.6250',
        rule_text: '1 5/8',
        from: 'E',
        before: 7,
        waste: 'left',
      },
      {
        station: 'P1',
        z_mm: inches(2.5),
        reading_mm: inches(-0.5),
        text: '-.5000',
        rule_text: '1/2',
        from: 'E',
        before: 7,
        waste: 'none',
      },
    ],
    cuts: firstCuts,
  },
  {
    id: 'H2',
    device: 'chuck',
    grips: { z0_mm: inches(1.5), z1_mm: inches(2.4), on: ['journal'] },
    headstock: 'right',
    stick_out_mm: inches(1.56),
    support: [],
    steady_at_mm: null,
    datum: { station: 'A', how: 'Face to length against C; the end then reads 0.' },
    zero_z_mm: 0,
    z_sign: -1,
    marks: [
      {
        station: 'B',
        z_mm: inches(0.75),
        reading_mm: inches(-0.75),
        text: '-.7500',
        rule_text: '3/4',
        from: 'A',
        before: 10,
        waste: 'left',
      },
    ],
    cuts: secondCuts,
  },
];

export const samplePlan: Plan = {
  stock: {
    diameter_mm: inches(0.625),
    length_mm: inches(4.36),
    z0_mm: inches(-1.3),
    z1_mm: inches(3.06),
    bar: '5/8',
  },
  holdings,
  off_lathe: [
    cut(12, {
      kind: 'cross',
      segment: 'journal',
      makes: 'x1',
      z0_mm: inches(2.5),
      z1_mm: inches(2.5),
      d0_mm: inches(3 / 32),
      d1_mm: inches(3 / 32),
      say: 'Drill the pin hole through, clocked at 90° from the scribed line.',
      setting: { drill: '3/32' },
    }),
  ],
  chart: [
    {
      length: 'L1',
      allowed_mm: [inches(0.734375), inches(0.765625)],
      held_mm: [inches(0.749), inches(0.751)],
      ok: true,
      through: ['H2:B', 'H2:datum'],
    },
    {
      length: 'L4',
      allowed_mm: [inches(1.745), inches(1.755)],
      held_mm: [inches(1.744), inches(1.756)],
      ok: false,
      through: ['H1:C', 'H1:datum'],
    },
  ],
  stiffness: [
    { holding: 'H1', segment: 'journal', force_n: 62, error_mm: 0.0041, limit_mm: 0.0127, ok: true },
  ],
  rejected: [{ way: 'Between centres', why: 'The drawn left end has no centre hole.' }],
};

const at = (x: number): { z_mm: number; aim_mm: number } => ({ z_mm: inches(x), aim_mm: inches(x) });

export const sampleReport: Report = {
  report: 1,
  part: samplePart.title,
  unit: 'in',
  chains: {
    state: 'closed',
    groups: [['A', 'B', 'C', 'D', 'P1', 'E']],
    missing: [],
    doubled: [],
    clashes: [],
    impossible: null,
    suspects: [],
    stations: { A: at(0), B: at(0.75), C: at(1.25), D: at(1.375), P1: at(2.5), E: at(3) },
    spans: [
      {
        from: 'B',
        to: 'E',
        nominal_mm: inches(2.25),
        min_mm: inches(2.242),
        max_mm: inches(2.258),
        rss_min_mm: inches(2.2442),
        rss_max_mm: inches(2.2558),
        lengths: ['L2', 'L4'],
      },
    ],
  },
  requirements: [
    {
      id: 'R1',
      meets_worst: true,
      meets_rss: true,
      yield: 0.9998,
      contributions: [
        { length: 'L4', share: 0.74 },
        { length: 'L2', share: 0.26 },
      ],
    },
  ],
  diameters: [
    {
      segment: 'wheel',
      end: null,
      min_mm: inches(0.4995),
      max_mm: inches(0.5),
      aim_mm: inches(0.49975),
      fit: null,
    },
    {
      segment: 'flange',
      end: null,
      min_mm: inches(0.623),
      max_mm: inches(0.627),
      aim_mm: inches(0.625),
      fit: null,
    },
    {
      segment: 'groove',
      end: null,
      min_mm: inches(0.338),
      max_mm: inches(0.342),
      aim_mm: inches(0.34),
      fit: null,
    },
    {
      segment: 'journal',
      end: null,
      min_mm: inches(0.3745),
      max_mm: inches(0.375),
      aim_mm: inches(0.37475),
      fit: { clearance_min_mm: inches(0.0002), clearance_max_mm: inches(0.0012) },
    },
  ],
  plan: samplePlan,
  warnings: [
    {
      code: 'finer-than-readout',
      where: 'journal',
      say: 'Limits closer than a count or two of the readout: size by micrometer, then polish.',
    },
  ],
  errors: [],
};
