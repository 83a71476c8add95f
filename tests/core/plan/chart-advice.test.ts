import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { chartAdvice } from '../../../src/core/plan/chart-advice.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

const hill = shapes.find((s) => s.name === 'a hill' && s.unit === 'in')?.part;
if (!hill) throw new Error('no hill among the shapes');

/** Touching off only to a thousandth, so that a length from one setting to the next suffers. */
const lathe: Lathe = { ...firstLathe, readout: { ...firstLathe.readout, touch: '.001' } };

/** The hill turned from both ends: L3 runs over the split, from C (first holding) to D (second). */
const tight = (id: string, tol: string): Part => ({
  ...hill,
  pins: { way: 'both-ends' },
  lengths: hill.lengths.map((l) => (l.id === id ? { ...l, tol } : l)),
});
const planOf = (part: Part) => {
  const { plan } = report(part, lathe);
  if (!plan) throw new Error('no plan');
  return plan;
};

describe('advice on a length that the plan does not hold', () => {
  const part = tight('L3', '±.002');
  const plan = planOf(part);
  const advice = chartAdvice(part, lathe, plan, 'L3');

  test('the length is not held to begin with', () => {
    expect(plan.chart.filter((row) => !row.ok).map((row) => row.length)).toEqual(['L3']);
  });

  // What the chart of a part like this asks for (constructed case K1 against K2 and K4 in published/data/charting.json):
  // both faces in one setting, a measured size, or wider limits.
  test('measuring it and wider limits are among what mends it', () => {
    expect(advice.map(({ say }) => say)).toEqual(
      expect.arrayContaining([
        'Measure L3 at the lathe before its last cut.',
        expect.stringMatching(/^Ask for wider limits on L3: ±\.0030 in\.$/) as string,
      ]),
    );
  });

  test.each(advice.map((one) => [one.say, one] as const))('%s: holds once it is done', (_say, one) => {
    const mended: Part = one.pins
      ? { ...part, pins: one.pins }
      : { ...part, lengths: part.lengths.map((l) => (l.id === 'L3' ? { ...l, tol: one.tol ?? '' } : l)) };
    const row = planOf(mended).chart.find((r) => r.length === 'L3');
    expect(row?.ok).toBe(true);
    expect(one.then).toContain(`±${(((row?.held_mm[1] ?? 0) - (row?.held_mm[0] ?? 0)) / 2).toFixed(3)}`);
  });

  test('what does not mend it is not given: finer than any measuring, only wider limits are left', () => {
    const finest = tight('L3', '±.0003');
    const given = chartAdvice(finest, lathe, planOf(finest), 'L3');
    expect(given.map(({ tol }) => tol !== null)).toEqual([true]);
  });

  test('a length that is held wants none', () => {
    expect(chartAdvice(part, lathe, plan, 'L1')).toEqual([]);
    expect(chartAdvice(part, lathe, plan, 'L99')).toEqual([]);
  });
});

describe('a length measured before its last cut', () => {
  test('is held to the measuring, ±0.02 mm (common practice), and two positionings, and the step says so', () => {
    const plan = planOf({ ...tight('L3', '±.002'), pins: { way: 'both-ends', measured: ['L3'] } });
    const row = plan.chart.find((r) => r.length === 'L3');
    const repeat = 0.0005 * 25.4;
    expect(((row?.held_mm[1] ?? 0) - (row?.held_mm[0] ?? 0)) / 2).toBeCloseTo(0.02 + 2 * repeat, 9);
    const said = plan.holdings.flatMap((h) => h.cuts).filter((c) => c.say.includes('measure L3'));
    expect(said).toHaveLength(1);
    expect(said[0]?.say).toMatch(/against face D as it stands, measure L3 from C/);
  });
});
