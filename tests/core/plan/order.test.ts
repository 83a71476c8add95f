import { expect, test } from 'vitest';
import { fromMm } from '../../../src/core/lengths/length.ts';
import type { ResolvedLathe } from '../../../src/core/part/resolved.ts';
import { orderOf } from '../../../src/core/plan/order.ts';
import { orderWords } from '../../../src/core/plan/order-words.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { handPlan, lathe, pin } from './hand-plan.ts';

// The pin of the hand plan: 1 mm is faced off at A, the kerf ends at 52.5, the grip at 80; 16 mm bars of 300 mm, and
// 14.5 mm clean up. All figures below are worked by hand.
const withBars = (...diameters: number[]): ResolvedLathe => ({
  ...lathe,
  bars: {
    diameters: diameters.map((mm) => ({ text: `${mm}`, diameter: fromMm(mm) })),
    length: fromMm(300),
  },
});
const row = (bar: string, plan: Plan = handPlan(), machine: ResolvedLathe = lathe) =>
  orderOf(plan, pin, machine).bars.find((r) => r.bar === bar);

test('out of the bar the last grip is needed once: 81 for one, 53.5 for each further, floor(272.5 / 53.5) = 5', () => {
  expect(row('16')).toEqual({
    bar: '16',
    diameter_mm: 16,
    at_hand: true,
    planned: true,
    sawn: false,
    one_mm: 81,
    next_mm: 53.5,
    parts: 5,
    left_mm: 32.5,
  });
});

test('the same plan drawn the other way round yields as many', () => {
  const plan = handPlan();
  plan.stock = { ...plan.stock, z0_mm: -30, z1_mm: 51 };
  for (const holding of plan.holdings) {
    holding.headstock = holding.headstock === 'right' ? 'left' : 'right';
    for (const c of holding.cuts) [c.z0_mm, c.z1_mm] = [50 - c.z1_mm, 50 - c.z0_mm];
  }
  expect(row('16', plan)).toMatchObject({ one_mm: 81, next_mm: 53.5, parts: 5, left_mm: 32.5 });
});

test('one part more goes out of a bar that is just long enough, and none out of one that is too short', () => {
  const long = (mm: number) => ({ ...lathe, bars: { ...lathe.bars, length: fromMm(mm) } });
  // 2 × 53.5 + 27.5
  expect(row('16', handPlan(), long(134.5))).toMatchObject({ parts: 2, left_mm: 27.5 });
  expect(row('16', handPlan(), long(134.4))).toMatchObject({ parts: 1, left_mm: 80.9 });
  expect(row('16', handPlan(), long(80.9))).toMatchObject({ parts: 0, left_mm: 80.9 });
});

test('a plan without a part-off takes sawn blanks: floor(302 / 83) = 3, 300 − 249 = 51 left', () => {
  const plan = handPlan();
  for (const h of plan.holdings) h.cuts = h.cuts.filter((c) => c.kind !== 'part-off' && c.kind !== 'sever');
  expect(row('16', plan)).toMatchObject({ sawn: true, one_mm: 81, next_mm: 83, parts: 3, left_mm: 51 });
});

test('a thicker bar is gripped longer and wants room behind its wall; over the spindle bore it is sawn', () => {
  const machine = withBars(12, 16, 20, 25, 200);
  // Grip 4 longer; the left-hand tool trails at 30°: 2 / tan 30° = 3.4641.
  const thicker = row('20', handPlan(), machine);
  expect(thicker).toMatchObject({ planned: false, sawn: false, parts: 4 });
  expect(thicker?.one_mm).toBeCloseTo(88.4641, 4);
  expect(thicker?.next_mm).toBeCloseTo(56.9641, 4);
  expect(thicker?.left_mm).toBeCloseTo(72.1436, 4);
  // Bore 21. Grip 9 longer, 4.5 / tan 30° = 7.7942: blanks of 97.7942, floor(302 / 99.7942) = 3.
  const sawn = row('25', handPlan(), machine);
  expect(sawn).toMatchObject({ sawn: true, parts: 3 });
  expect(sawn?.one_mm).toBeCloseTo(97.7942, 4);
  expect(sawn?.left_mm).toBeCloseTo(0.6173, 4);
  // 12 does not clean up, 200 does not swing; 15 is commonly stocked, and gripped a millimetre shorter.
  expect(orderOf(handPlan(), pin, machine).bars.map((r) => r.bar)).toEqual(['15', '16', '20', '25']);
  expect(row('15', handPlan(), machine)).toMatchObject({
    at_hand: false,
    one_mm: 80,
    next_mm: 53.5,
    parts: 5,
  });
});

test('is said in sentences', () => {
  const plan = { ...handPlan(), order: orderOf(handPlan(), pin, lathe) };
  expect(orderWords(plan, (mm) => `${mm} mm`)).toEqual([
    'A whole bar, 300 mm, yields 5 parts one after another: 81 mm for one, 53.5 mm for each further one. 32.5 mm of it is left.',
    'Bar that stands out behind the spindle whips: support and cover it, or saw it shorter first.',
    'Bar 15, which the lathe file does not have but dealers commonly stock, would do, too: at most 80 mm for one part, 5 to a bar.',
  ]);
  expect(orderWords(handPlan(), String)).toEqual([]);
});
