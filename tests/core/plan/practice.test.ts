import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Cut, Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

/** Common practice, no source, where nothing else is said: what a turner does and does not do. */
type Land =
  | { d: string; l: string; tol?: string; role?: string }
  | { start: string; end: string; l: string }
  | { thread: string; l: string };
function planOf(lands: readonly Land[], lathe: Lathe = metricLathe, extra: object = {}): Plan {
  const faces = Array.from({ length: lands.length + 1 }, (_, i) => String.fromCharCode(65 + i));
  const segments = lands.map((land, i) => {
    const id = `s${i + 1}`;
    if ('start' in land) return { id, form: 'taper', start: land.start, end: land.end };
    if ('thread' in land) return { id, form: 'thread', thread: land.thread };
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

test('drawn out in stages, a thread waits for the taper beside it, though that is turned in the next holding', () => {
  const text = readFileSync(new URL('../../../static/examples/blower-shaft.json', import.meta.url), 'utf8');
  const read = readPart(text, 'blower shaft');
  if (!read.ok) throw new Error(read.problem.say);
  const { plan } = report({ ...read.value, pins: { way: 'stages', first: 'M' } }, metricLathe);
  const cuts = plan ? cutsOf(plan) : [];
  const holdingOf = (kind: Cut['kind']) =>
    plan?.holdings.findIndex((h) => h.cuts.some((c) => c.kind === kind && !c.inside));
  const at = (kind: Cut['kind']): number => cuts.findIndex((c) => c.kind === kind && !c.inside);
  expect(holdingOf('taper')).toBe(1);
  expect(at('thread')).toBeGreaterThan(at('taper'));
});

/** Edges at 30° want 1 mm of room for each 1.1547 mm that a wall stands over the point on the diameter; by hand. */
describe('the long low stretch that is opened with the blade T3, as the walls leave the turning tools no room', () => {
  const roughed = (plan: Plan, id: string) =>
    cutsOf(plan)
      .filter((c) => c.kind === 'rough' && c.segment === id)
      .map((c) => [c.tool, c.d0_mm === c.d1_mm]);

  // 14.5 down to 4.5 wants 10 / 1.1547 = 8.7 to go down, and 9.5 / 1.1547 = 8.2 before a wall of 14.5; the wall of 24 that
  // is finished already wants 19 / 1.1547 = 16.5 for the left-hand tool: 8.7 + 16.5 is more than 24.
  test('the far wall is higher than what is taken down', () => {
    const lands = [
      { d: '24', l: '30' },
      { d: '4', l: '24' },
      { d: '14', l: '45' },
    ];
    const plan = planOf(lands, metricLathe, { pins: { way: 'both-ends', first: 'A' } });
    expect(roughed(plan, 's2')).toContainEqual(['T3', true]);
    expect(roughed(plan, 's2')).not.toContainEqual(['T1', false]);
  });

  // From 13.5 down, 2.75 behind it a wall of 19: 5 / 1.1547 = 4.3.
  test('a higher wall stands close behind the near one', () => {
    const lands = [
      { d: '19', l: '24' },
      { d: '13', l: '3' },
      { d: '5', l: '24' },
    ];
    const plan = planOf(lands, metricLathe, { pins: { way: 'bar', first: 'A' } });
    expect(roughed(plan, 's3')).not.toContainEqual(['T1', false]);
  });
});

test('in stages, a land that keeps the skin of the bar asks for no holding of its own', () => {
  const lands = [
    { start: '5.5', end: '7.5', l: '16' },
    { d: '10', l: '26' },
    { d: '6', l: '14' },
  ];
  const plan = planOf(lands, metricLathe, { pins: { way: 'stages', first: 'A', bar: '10' } });
  expect(plan.holdings.map((h) => h.id)).toEqual(plan.holdings.map((_, i) => `H${i + 1}`));
  expect(plan.holdings.every((h) => h.cuts.length > 0)).toBe(true);
});

test('a short blank for between centres stands out no farther than leaves a whole grip in the holder', () => {
  const plan = planOf([{ d: '20', l: '15' }], metricLathe, { pins: { way: 'centres', first: 'A' } });
  const { z0_mm: from, z1_mm: to } = plan.stock;
  for (const { grips } of plan.holdings.slice(0, 2)) {
    expect(grips?.z0_mm).toBeGreaterThanOrEqual(from);
    expect(grips?.z1_mm).toBeLessThanOrEqual(to);
  }
});

// 0.5 is left on each: 20.504 and 20.508 are both shown as 20.51 by a readout that counts hundredths and rounds up.
test('two lands microns apart are roughed in one step where the readout shows them alike', () => {
  const roughed = (d: string) =>
    cutsOf(
      planOf(
        [
          { d, l: '20' },
          { d: '20.008', l: '20' },
          { d: '24', l: '20' },
        ],
        metricLathe,
        {
          pins: { way: 'bar', first: 'A', centre: false },
        },
      ),
    ).flatMap((c) => (c.kind === 'rough' ? c.readings.filter((r) => r.axis === 'X').map((r) => r.text) : []));
  expect(roughed('20.004')).toEqual(['24.50', '20.51']);
  expect(roughed('19.998')).toEqual(['24.50', '20.51', '20.50']);
});

/** Common practice, no source: the blank of a taper still stands as a wall at the end of the thread. */
test('in stages, a thread that is cut with a single point waits for the taper behind it', () => {
  const threading: Lathe = { ...metricLathe, tools: [...metricLathe.tools, { id: 'T9', kind: 'thread' }] };
  const lands = [
    { d: '16', l: '40' },
    { thread: 'M8', l: '20' },
    { start: '8', end: '12', l: '24' },
    { d: '14', l: '40' },
  ];
  const plan = planOf(lands, threading, { pins: { way: 'stages', first: 'A' } });
  const at = (kind: Cut['kind']) =>
    plan.holdings.flatMap((h) =>
      h.cuts.filter((c) => c.kind === kind).map((c) => ({ id: h.id, n: c.n, tool: c.tool })),
    );
  const [taper, thread] = [at('taper')[0], at('thread')[0]];
  expect(thread?.tool).toBe('T9');
  expect(thread?.id).toBe(taper?.id);
  expect(thread?.n).toBeGreaterThan(taper?.n ?? Infinity);
});
