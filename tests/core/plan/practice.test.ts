import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Cut, Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

/** Common practice, no source, where nothing else is said: what a turner does and does not do. */
type Land = { d: string; l: string; tol?: string; role?: string } | { start: string; end: string; l: string };
function planOf(lands: readonly Land[], lathe: Lathe = metricLathe, extra: object = {}): Plan {
  const faces = Array.from({ length: lands.length + 1 }, (_, i) => String.fromCharCode(65 + i));
  const segments = lands.map((land, i) => {
    const id = `s${i + 1}`;
    if ('start' in land) return { id, form: 'taper', start: land.start, end: land.end };
    const diameter = land.tol ? { size: land.d, tol: land.tol } : land.d;
    return { id, form: 'cylinder', diameter, ...(land.role ? { role: land.role } : {}) };
  });
  const document = {
    ...{ shaftwright: 1, title: 'practice', unit: 'mm', material: 'mild-steel' },
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces: faces.map((id, i) => ({ id, sketched: i * 10 })),
    segments,
    lengths: lands.map(({ l }, i) => ({ id: `L${i + 1}`, from: faces[i], to: faces[i + 1], size: l })),
    ...extra,
  };
  const read = readPart(JSON.stringify(document), 'practice');
  if (!read.ok) throw new Error(read.problem.say);
  const { plan, errors } = report(read.value, lathe);
  if (!plan) throw new Error(errors.map((e) => e.say).join('\n'));
  return plan;
}
const cutsOf = (plan: Plan): Cut[] => plan.holdings.flatMap((h) => h.cuts);
const grooved = (d: string, l: string, lathe?: Lathe): Cut[] =>
  cutsOf(
    planOf(
      [
        { d: '16', l: '20' },
        { d, l },
        { d: '16', l: '20' },
      ],
      lathe,
    ),
  ).filter((c) => c.segment === 's2' && ['rough', 'groove', 'finish'].includes(c.kind));
const tools = (cuts: readonly Cut[]) => cuts.map((c) => [c.kind, c.tool, c.passes]);

describe('a low land between two walls; the blade of the metric lathe, T3, is 2 wide', () => {
  test('as wide as the blade: one plunge, at one reading', () => {
    const cuts = grooved('14', '2');
    expect(tools(cuts)).toEqual([['groove', 'T3', 1]]);
    expect(cuts[0]?.say.match(/Z -22\.00/g)).toHaveLength(1);
  });

  // Plunges overlap by a fifth of the blade: 1 + (6 - 2) / 1.6 = 3.5, so 4.
  test.each(['14', '6'])('three blades wide and down to %s: plunged, and not roughed before', (d) => {
    expect(tools(grooved(d, '6'))).toEqual([['groove', 'T3', 4]]);
  });

  test('ten blades wide and shallow: opened, turned, then the blade is fed sideways between the walls', () => {
    // 14.5 is left for finishing, in cuts of 0.25 on the diameter: two.
    expect(tools(grooved('14', '20'))).toEqual([
      ['rough', 'T3', 1],
      ['rough', 'T1', 2],
      ['finish', 'T3', 2],
    ]);
  });

  test('ten blades wide and deep: turned from both sides, down the slope that the edge of the tool allows', () => {
    const cuts = grooved('6', '20');
    expect(tools(cuts)).toEqual([
      ['rough', 'T1', 10],
      ['rough', 'T1', 10],
      ['rough', 'T2', 10],
      ['finish', 'T3', 2],
    ]);
    // The slope: 4.75 of radius at 30°, so 4.75 / tan 30° = 8.227 long.
    const slope = cuts[0];
    expect(slope).toMatchObject({ d0_mm: 16, d1_mm: 6.5, z0_mm: 20.25 });
    expect((slope?.z1_mm ?? 0) - (slope?.z0_mm ?? 0)).toBeCloseTo(4.75 / Math.tan(Math.PI / 6), 6);
  });

  test('without a left-hand tool the blade opens it', () => {
    const right = { ...metricLathe, tools: metricLathe.tools.filter((t) => t.id !== 'T2') };
    expect(tools(grooved('6', '20', right))[0]).toEqual(['rough', 'T3', 5]);
  });
});

test('nothing that can be reached from the tailstock is opened with the blade', () => {
  const steps = shapes.find((s) => s.name === 'falling steps' && s.unit === 'mm')?.part;
  const { plan } = steps
    ? report({ ...steps, pins: { way: 'stages', first: 'E' } }, metricLathe)
    : { plan: null };
  for (const h of plan?.holdings ?? [])
    expect(h.cuts.filter((c) => c.kind === 'rough' && c.tool === 'T3')).toEqual([]);
});

test('a fit that takes more than two cuts has a spring pass after each, so that they stay equal', () => {
  const light = { ...metricLathe, cut: { ...metricLathe.cut, finish_on_diameter: '0.125' } };
  const plan = planOf(
    [
      { d: '12', l: '20', tol: 'h7', role: 'journal' },
      { d: '16', l: '20' },
    ],
    light,
  );
  const own = cutsOf(plan).filter((c) => c.segment === 's1');
  // 0.5 is left by roughing: 0.5 / 0.125 = 4 cuts.
  expect(own.filter((c) => c.kind === 'finish')).toHaveLength(4);
  expect(own.filter((c) => c.kind === 'spring')).toHaveLength(4);
  expect(own.filter((c) => c.kind === 'measure')).toHaveLength(2);
});

test('the caution about abrasive cloth stands in full once in each holding, and short wherever it goes again', () => {
  const fit = { d: '12', tol: 'h6', role: 'journal', l: '14' };
  const plan = planOf([fit, { d: '16', l: '14' }, { ...fit, d: '18', l: '14' }]);
  for (const h of plan.holdings) {
    const said = h.cuts.filter((c) => /polish to size/.test(c.say));
    said.forEach((c, i) => {
      expect(c.say).toMatch(/Abrasive cloth .*never.* in the hand/);
      expect(/no gloves/.test(c.say)).toBe(i === 0);
    });
  }
  expect(cutsOf(plan).filter((c) => /polish to size/.test(c.say)).length).toBeGreaterThan(1);
});

test('a cone in two bites of the compound is cut from the side that is clear behind the tool', () => {
  const short = { ...metricLathe, compound_travel: '25' };
  const plan = planOf(
    [
      { d: '16', l: '30' },
      { start: '16', end: '12', l: '40' },
    ],
    short,
    {
      pins: { way: 'bar', first: 'A' },
    },
  );
  const bites = cutsOf(plan).filter((c) => c.kind === 'taper');
  expect(bites).toHaveLength(2);
  // The right-hand tool comes from the tailstock, where A is: the blank that still stands is in front of it.
  expect(bites.map((c) => [c.tool, c.z0_mm])).toEqual([
    ['T1', 30],
    ['T1', 50],
  ]);
});
