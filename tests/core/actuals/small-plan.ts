import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Actual, Part } from '../../../src/core/part/types.ts';
import type { Cut, CutKind, Holding, Plan, Reading } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import type { DiameterRow } from '../../../src/core/report-types.ts';
import { partOf } from '../part/samples.ts';

/** A readout in hundredths of a millimetre. */
export const lathe: Lathe = {
  ...metricLathe,
  readout: { ...metricLathe.readout, x: 'diameter', z_positive: 'tailstock', resolution: '0.01' },
};

/** Three lands, 10 and 16 and 10 across; s1 and s3 are to be alike. */
export const shaft = (actuals: readonly Actual[] = []): Part =>
  partOf({
    unit: 'mm',
    faces: ['A', 'B', 'C', 'D'].map((id, i) => ({ id, sketched: 10 * i })),
    segments: [
      { id: 's1', form: 'cylinder', diameter: '10 ±.05', role: 'journal' },
      { id: 's2', form: 'cylinder', diameter: '16 ±.1' },
      { id: 's3', form: 'cylinder', diameter: '10 ±.05', role: 'journal' },
    ],
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size: '12.7 ±.1' },
      { id: 'L2', from: 'B', to: 'C', size: '10 ±.1' },
      { id: 'L3', from: 'A', to: 'C', size: '22.7 ±.3' },
      { id: 'L4', from: 'C', to: 'D', size: '9 ±.2' },
    ],
    edges: [{ id: 'e1', face: 'A', side: 'right', form: 'chamfer', size: '0.5 ±.1', angle: '45°' }],
    holes: [{ id: 'h1', from: 'A', form: 'drill', diameter: '4 ±.1', depth: '8 ±.5' }],
    requirements: [{ id: 'R1', from: 'B', to: 'C', min: '9.95', max: '10.05' }],
    matched: [['s1', 's3']],
    actuals,
  });

const x = (value: number): Reading => ({ axis: 'X', value_mm: value, text: value.toFixed(2) });
const z = (value: number, station: string | null): Reading => ({
  axis: 'Z',
  value_mm: value,
  text: value.toFixed(2),
  station,
  edge: null,
  other: null,
});

type Line = [kind: CutKind, segment: string | null, tool: string | null, d: number, readings: Reading[]];

/** In the first holding all but the last land, measured from A; the last one turned round, measured from the faced end D. */
const FIRST: readonly Line[] = [
  ['touch', null, 'T1', 18, [z(0, 'A'), x(18)]], // 1
  ['face', null, 'T1', 0, [z(0, 'A')]], // 2
  ['rough', 's1', 'T1', 10.5, [x(10.5), z(-12.45, null)]], // 3
  ['finish', 's1', 'T1', 10.2, [x(10.2), z(-12.7, 'B')]], // 4
  ['spring', 's1', 'T1', 10.2, [x(10.2), z(-12.7, 'B')]], // 5
  ['measure', 's1', null, 10.2, [x(10.2)]], // 6
  ['finish', 's1', 'T1', 10, [x(10), z(-12.7, 'B')]], // 7
  ['measure', 's1', null, 10, [x(10)]], // 8
  ['finish', 's2', 'T1', 16, [x(16), z(-22.7, 'C')]], // 9
  ['measure', 's2', null, 16, [x(16)]], // 10
  ['touch', null, 'T1', 16, [x(16)]], // 11
  ['finish', 's2', 'T1', 16, [x(16), z(-22.7, 'C')]], // 12
];
const SECOND: readonly Line[] = [
  ['touch', null, 'T1', 16, [x(16)]], // 13
  ['face', null, 'T1', 0, [z(0, 'D')]], // 14
  ['finish', 's3', 'T1', 10.2, [x(10.2), z(-9, 'C')]], // 15
  ['finish', 's3', 'T1', 10, [x(10), z(-9, 'C')]], // 16
  ['measure', 's3', null, 10, [x(10)]], // 17
];

function cuts(lines: readonly Line[], from: number): Cut[] {
  return lines.map(([kind, segment, tool, d, readings], i) => ({
    n: from + i,
    ...{ kind, segment, tool, readings },
    makes: null,
    inside: false,
    ...{
      z0_mm: 0,
      z1_mm: Math.abs(readings.find(({ axis }) => axis === 'Z')?.value_mm ?? 0),
      d0_mm: d,
      d1_mm: d,
    },
    ...{ passes: 1, rpm: 500, feed_mm: 0.1, hand_turned: false, support: null, setting: null, say: '' },
  }));
}

const holding = (
  id: string,
  fields: Pick<Holding, 'headstock' | 'datum' | 'zero_z_mm' | 'z_sign' | 'cuts' | 'marks'>,
): Holding => ({
  id,
  device: 'chuck',
  grips: null,
  stick_out_mm: null,
  support: [],
  steady_at_mm: null,
  ...fields,
});

/** A plan for the shaft made by hand, so that every figure in it can be followed. */
export const plan: Plan = {
  stock: { diameter_mm: 18, length_mm: 60, z0_mm: 0, z1_mm: 60, bar: '18' },
  holdings: [
    holding('H1', {
      headstock: 'right',
      datum: { station: 'A', how: '' },
      zero_z_mm: 0,
      z_sign: -1,
      cuts: cuts(FIRST, 1),
      marks: [
        {
          station: 'C',
          z_mm: 22.7,
          reading_mm: -22.7,
          text: '-22.70',
          rule_text: '22.5',
          from: 'A',
          before: 9,
          waste: 'right',
        },
      ],
    }),
    holding('H2', {
      headstock: 'left',
      datum: { station: 'D', how: '' },
      zero_z_mm: 31.7,
      z_sign: 1,
      cuts: cuts(SECOND, 13),
      marks: [],
    }),
  ],
  off_lathe: [],
  chart: [],
  stiffness: [],
  rejected: [],
};

const row = (segment: string, aim: number, off: number): DiameterRow => ({
  ...{ segment, end: null, min_mm: aim - off, max_mm: aim + off, aim_mm: aim, fit: null },
});
export const made = { plan, diameters: [row('s1', 10, 0.05), row('s2', 16, 0.1), row('s3', 10, 0.05)] };

/** The diameters that the report itself gives, to hold the hand-made ones against. */
export const reportedDiameters = (): DiameterRow[] => report(shaft(), lathe).diameters;
