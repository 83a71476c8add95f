import type { Cut, Plan } from '../../src/core/plan/types.ts';
import type { Report } from '../../src/core/report-types.ts';

const cut = (n: number, over: Partial<Cut>): Cut => ({
  n,
  kind: 'face',
  segment: null,
  makes: null,
  tool: 'T1',
  inside: false,
  z0_mm: 0,
  z1_mm: 1,
  d0_mm: 0,
  d1_mm: 0,
  passes: 1,
  rpm: 620,
  feed_mm: null,
  hand_turned: false,
  support: null,
  readings: [],
  setting: null,
  say: 'Face the end.',
  ...over,
});

export const samplePlan: Plan = {
  stock: { diameter_mm: 12.7, length_mm: 101.6, z0_mm: -2, z1_mm: 99.6, bar: '1/2' },
  holdings: [
    {
      id: 'H1',
      device: 'collet',
      grips: { z0_mm: 60, z1_mm: 85.4, on: 'bar' },
      headstock: 'right',
      stick_out_mm: 62,
      support: ['centre'],
      steady_at_mm: null,
      datum: { station: 'A', how: 'Touch the finished end and zero Z.' },
      zero_z_mm: 0,
      z_sign: -1,
      marks: [
        {
          station: 'B',
          z_mm: 12.7,
          reading_mm: -12.7,
          text: '-.5000',
          rule_text: '1/2',
          from: 'A',
          before: 2,
          waste: 'left',
        },
      ],
      cuts: [
        cut(1, {}),
        cut(2, {
          kind: 'groove',
          tool: 'T3',
          passes: 3,
          segment: 's2',
          readings: [
            {
              axis: 'Z',
              value_mm: -12.7,
              text: '-.5000',
              station: 'B',
              edge: 'left',
              other: { edge: 'right', value_mm: -10.7, text: '-.4220' },
            },
            { axis: 'X', value_mm: 10, text: '.3935' },
          ],
          say: 'Plunge wall to wall to X .3935.',
        }),
        cut(3, { kind: 'thread', tool: null, rpm: null, hand_turned: true, say: 'Run the die on by hand.' }),
      ],
    },
  ],
  off_lathe: [cut(4, { kind: 'deburr', tool: null, rpm: null, say: 'Break all edges.' })],
  chart: [
    { length: 'L1', allowed_mm: [12.6, 12.8], held_mm: [12.65, 12.75], ok: true, through: [] },
    { length: 'L2', allowed_mm: [5.08, 5.09], held_mm: [5.0, 5.2], ok: false, through: [] },
  ],
  stiffness: [{ holding: 'H1', segment: 's2', force_n: 80, error_mm: 0.0123, limit_mm: 0.005, ok: false }],
  rejected: [{ way: 'between centres', why: 'no drive between centres at hand' }],
};

/** A report by hand, with something in every section; nothing in it was computed. */
export const sampleReport: Report = {
  report: 1,
  part: 'A pin',
  unit: 'in',
  chains: {
    state: 'closed',
    groups: [['A', 'B']],
    missing: [],
    doubled: [],
    clashes: [],
    impossible: null,
    suspects: [],
    stations: {},
    spans: [],
  },
  requirements: [],
  diameters: [],
  plan: samplePlan,
  warnings: [{ code: 'thin-wall', where: 's1', say: 'The wall is thin.' }],
  errors: [],
};
