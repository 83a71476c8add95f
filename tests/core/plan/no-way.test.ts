import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { report } from '../../../src/core/report.ts';

/**
 * Two heads with a thin land between them, 16 and 14 by 4 mm long: on a lathe that wants 16 mm to grip neither head is
 * long enough, and no collet passes over one to the land between (common practice, no source).
 */
const dumbbell = JSON.stringify({
  shaftwright: 1,
  title: 'Two heads',
  unit: 'mm',
  material: 'mild-steel',
  general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
  faces: ['A', 'B', 'C', 'D'].map((id, sketched) => ({ id, sketched })),
  segments: ['16', '8', '14'].map((diameter, i) => ({ id: `s${i}`, form: 'cylinder', diameter })),
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '4' },
    { id: 'L2', from: 'B', to: 'C', size: '12' },
    { id: 'L3', from: 'C', to: 'D', size: '4' },
  ],
});

describe('a part that no way makes', () => {
  const read = readPart(dumbbell, 'part');
  if (!read.ok) throw new Error(read.problem.say);
  const lathe: Lathe = { ...metricLathe, min_grip: '16' };
  const { plan, errors } = report(read.value, lathe);
  const [error] = errors;
  const ways = error?.ways ?? [];

  test('is refused with each way and its reason beside it', () => {
    expect(plan).toBeNull();
    expect(error?.code).toBe('no-way');
    for (const way of ways) expect(way).toMatch(/^(out of|from both|.*between).*: ./);
    expect(new Set(ways).size).toBeGreaterThan(3);
  });

  test('is told the reasons of one kind once, and for each land what is short of what', () => {
    expect(error?.say.match(/no finished land can be gripped/g)).toHaveLength(1);
    expect(error?.say).toContain('4.00 mm of the 16.00 mm wanted');
    expect(error?.say.length).toBeLessThan(700);
  });
});
