import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { mirrorPart } from '../../../src/core/part/mirror.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

const lathes: [string, Lathe][] = [
  ['the inch lathe', firstLathe],
  ['the metric lathe', metricLathe],
];

const planned = (part: Parameters<typeof report>[0], lathe: Lathe): Plan => {
  const { plan, errors } = report(part, lathe);
  if (!plan) throw new Error(errors.map((e) => e.say).join('\n'));
  return plan;
};

// planPart gives no plan that its own replay refuses, so that a plan here is a plan that was replayed clean.
describe.each(lathes)('on %s', (_name, lathe) => {
  test.each(shapes)('$name in $unit is planned', ({ part }) => {
    expect(planned(part, lathe).holdings.length).toBeGreaterThanOrEqual(2);
  });

  test.each(shapes)('$name in $unit drawn the other way round gets the mirrored plan', ({ part }) => {
    const straight = planned(part, lathe);
    const mirrored = planned(mirrorPart(part), lathe);
    const kinds = (plan: Plan) => plan.holdings.map((h) => [h.device, h.cuts.map((c) => c.kind)]);
    expect(mirrored.stock.length_mm).toBeCloseTo(straight.stock.length_mm, 6);
    expect(mirrored.holdings.length).toBe(straight.holdings.length);
    const turned = mirrored.holdings[0]?.headstock !== straight.holdings[0]?.headstock;
    // A shape that is the same both ways may keep its first end; any other turns its plan round.
    if (turned) expect(kinds(mirrored)).toEqual(kinds(straight));
  });
});

describe('the readout', () => {
  const with_ = (change: Partial<Lathe['readout']>): Lathe => ({
    ...firstLathe,
    readout: { ...firstLathe.readout, ...change },
  });
  const part = shapes[0]?.part;
  if (!part) throw new Error('no shape');
  const readings = (plan: Plan, axis: 'X' | 'Z') =>
    plan.holdings.flatMap((h) => h.cuts.flatMap((c) => c.readings.filter((r) => r.axis === axis)));

  test('counting the other way only turns the signs of Z', () => {
    const one = planned(part, firstLathe);
    const other = planned(part, with_({ z_positive: 'headstock' }));
    expect(readings(other, 'Z').map((r) => -r.value_mm || 0)).toEqual(
      readings(one, 'Z').map((r) => r.value_mm || 0),
    );
    expect(readings(other, 'X')).toEqual(readings(one, 'X'));
  });

  test('a radius readout only halves X', () => {
    const one = planned(part, firstLathe);
    const other = planned(part, with_({ x: 'radius' }));
    expect(readings(other, 'X').map((r) => r.value_mm * 2)).toEqual(
      readings(one, 'X').map((r) => r.value_mm),
    );
    expect(readings(other, 'Z')).toEqual(readings(one, 'Z'));
  });

  test('touching off the other edge of the blade moves its readings by the blade and swaps the two', () => {
    const turned: Lathe = {
      ...firstLathe,
      tools: firstLathe.tools.map((t) => (t.kind === 'blade' ? { ...t, edge: 'right' as const } : t)),
    };
    const one = readings(planned(part, firstLathe), 'Z').filter((r) => r.edge);
    const other = readings(planned(part, turned), 'Z').filter((r) => r.edge);
    expect(one.length).toBeGreaterThan(0);
    expect(other.map((r) => [r.edge, r.value_mm])).toEqual(
      one.map((r) => [r.other?.edge, r.other?.value_mm]),
    );
    for (const r of one) expect(Math.abs((r.other?.value_mm ?? 0) - r.value_mm)).toBeCloseTo(0.078 * 25.4, 9);
  });
});
