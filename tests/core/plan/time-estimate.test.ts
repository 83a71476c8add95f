import { describe, expect, test } from 'vitest';
import { startBar } from '../../../src/core/plan/bar.ts';
import { cuttingMinutes, timeEstimate } from '../../../src/core/plan/time-estimate.ts';
import type { Cut } from '../../../src/core/plan/types.ts';
import { example } from '../../panels/examples.ts';

const bar = startBar({ diameter_mm: 20, length_mm: 120, z0_mm: 0, z1_mm: 120, bar: '20' });
const cut = (fields: Partial<Cut>): Cut => ({
  n: 1,
  kind: 'finish',
  segment: 's1',
  makes: null,
  tool: 'T1',
  inside: false,
  z0_mm: 0,
  z1_mm: 100,
  d0_mm: 18,
  d1_mm: 18,
  passes: 1,
  rpm: 400,
  feed_mm: 0.1,
  hand_turned: false,
  support: null,
  readings: [],
  setting: null,
  say: '',
  ...fields,
});

// t = L i / (f n), the machining time of any handbook; the figures are worked by hand.
describe('time in the metal', () => {
  test.each([
    ['100 mm at 0.1 mm and 400 turns: 2.5 minutes', cut({}), 2.5],
    ['two passes take twice as long', cut({ kind: 'rough', passes: 2 }), 5],
    [
      'a face travels the radius: 10 mm at 0.1 and 400',
      cut({ kind: 'face', z1_mm: 1, d0_mm: 0, d1_mm: 0 }),
      0.25,
    ],
    [
      'a thread of 10 mm in six passes at 100 turns',
      cut({ kind: 'thread', z1_mm: 10, rpm: 100, feed_mm: null, passes: 6 }),
      0.6,
    ],
    ['nothing that is turned by hand', cut({ kind: 'thread', hand_turned: true }), 0],
    ['nothing without a speed', cut({ kind: 'measure', rpm: null }), 0],
  ])('%s', (_, step, minutes) => expect(cuttingMinutes(step, bar)).toBeCloseTo(minutes, 9));
});

describe('time of a plan', () => {
  const plan = example('blower-shaft').report.plan;
  if (!plan) throw new Error('the example has no plan');

  test('the total is the sum of the holdings and what is done off the lathe', () => {
    const time = timeEstimate(plan);
    expect(time.holdings.map((h) => h.holding)).toEqual(plan.holdings.map((h) => h.id));
    const sum = time.holdings.reduce((all, h) => all + h.cutting_min + h.handling_min, time.offLathe_min);
    expect(time.total_min).toBeCloseTo(sum, 9);
  });

  test('half the speed takes twice the time in the metal and no more time around it', () => {
    const halved = structuredClone(plan);
    for (const c of halved.holdings.flatMap((h) => h.cuts)) if (c.rpm !== null) c.rpm /= 2;
    timeEstimate(halved).holdings.forEach((h, i) => {
      const was = timeEstimate(plan).holdings[i];
      expect(h.cutting_min).toBeCloseTo(2 * (was?.cutting_min ?? NaN), 9);
      expect(h.handling_min).toBe(was?.handling_min);
    });
  });
});
