import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';

const chamfer = (face: string, side: string) => ({
  ...{ id: `e ${face}`, face, side, form: 'chamfer', size: '0.5', angle: '45°' },
});

function planOf(segments: object[], lengths: number[], edges: object[], lathe = metricLathe): Plan {
  const document = {
    ...{ shaftwright: 1, title: 'rod', unit: 'mm', material: 'mild-steel' },
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces: [...lengths, 0].map((_, i) => ({ id: `F${i}`, sketched: i })),
    segments: segments.map((s, i) => ({ id: `s${i}`, ...s })),
    lengths: lengths.map((l, i) => ({ id: `L${i}`, from: `F${i}`, to: `F${i + 1}`, size: String(l) })),
    edges,
  };
  const read = readPart(JSON.stringify(document), 'rod');
  if (!read.ok) throw new Error(read.problem.say);
  const { plan, errors } = report(read.value, lathe);
  if (!plan) throw new Error(errors.map((e) => e.say).join('\n'));
  expect(plan.rejected.filter(({ why }) => why.includes('its own replay'))).toEqual([]);
  return plan;
}

const rod = (diameter: string) => ({ form: 'cylinder', diameter });
const thread = { form: 'thread', thread: 'M5' };

// Common practice, no source: nobody parts a thin rod off 200 mm out of the chuck, nor holds one so to face it.
describe('a thin rod that keeps the skin of its bar is sawn, and each end worked on held short', () => {
  test.each([
    ['only faced', [rod('6')], [200], [], metricLathe],
    [
      'chamfered at both ends',
      [rod('6')],
      [200],
      [chamfer('F0', 'right'), chamfer('F1', 'left')],
      metricLathe,
    ],
    ['of a quarter inch', [rod('6.35')], [220], [], firstLathe],
    ['threaded at one end', [thread, rod('6')], [10, 190], [], metricLathe],
    ['threaded at the other', [rod('6'), thread], [190, 10], [], metricLathe],
    [
      'threaded at one end, turned down at the other',
      [thread, rod('6'), rod('5')],
      [10, 190, 12],
      [],
      metricLathe,
    ],
  ])('%s', (_name, segments, lengths, edges, lathe) => {
    const plan = planOf(segments, lengths, edges, lathe);
    const long = lengths.reduce((sum, l) => sum + l, 0);
    expect(plan.holdings).toHaveLength(2);
    for (const h of plan.holdings) expect(h.stick_out_mm).toBeLessThan(20);
    expect(plan.holdings.flatMap((h) => h.cuts).filter((c) => c.kind === 'part-off')).toEqual([]);
    // The length, and for facing at either end 1 mm, or 3/64 in.
    expect(plan.stock.length_mm).toBeCloseTo(long + (lathe.unit === 'mm' ? 2 : (2 * 3 * 25.4) / 64), 6);
    expect(plan.order?.bars.find((b) => b.planned)?.sawn).toBe(true);
  });

  test('a short one is parted off', () => {
    const plan = planOf([rod('6')], [40], []);
    expect(plan.holdings.flatMap((h) => h.cuts).some((c) => c.kind === 'part-off')).toBe(true);
  });
});
