import { describe, expect, test } from 'vitest';
import { deflectionPicture } from '../../../src/core/stiffness/deflection-picture.ts';
import type { Pass } from '../../../src/core/stiffness/error.ts';

const pass: Pass = {
  pieces: [{ z0_mm: 0, z1_mm: 100, d_mm: 10, bore_mm: 0 }],
  support: { centre: false, steadyAt_mm: null },
  from_mm: 40,
  to_mm: 100,
  radialForce_N: 10,
  youngs_MPa: 210_000,
};
const heavy = (p: Pass): readonly number[] => {
  const item = deflectionPicture(p)?.picture.items.find((i) => i.id === 'spring');
  return item && item.kind === 'line' ? item.points : [];
};

describe('the picture of the spring', () => {
  test('gives the textbook figure at the free end: F L³ / (3 E I)', () => {
    const inertia = (Math.PI * 10 ** 4) / 64;
    expect(deflectionPicture(pass)?.most_mm).toBeCloseTo((10 * 100 ** 3) / (3 * 210_000 * inertia), 9);
  });

  test('rises toward a free end, along the stretch that is cut', () => {
    const points = heavy(pass);
    expect([points[0], points.at(-2)]).toEqual([40, 100]);
    const heights = points.filter((_, i) => i % 2 === 1);
    expect(heights).toEqual([...heights].sort((a, b) => a - b));
  });

  test('comes back to the line at a centre', () => {
    const heights = heavy({ ...pass, support: { centre: true, steadyAt_mm: null } }).filter((_, i) => i % 2);
    expect(heights.at(-1)).toBeLessThan(Math.max(...heights));
  });

  test('is drawn larger by a round figure, never higher than a fifth of the length', () => {
    const times = deflectionPicture(pass)?.times ?? 0;
    expect([1, 2, 5]).toContain(Number(String(times)[0]));
    expect(times * (deflectionPicture(pass)?.most_mm ?? 0)).toBeLessThanOrEqual(20);
  });

  test('there is none where no metal carries the load', () => {
    expect(
      deflectionPicture({ ...pass, pieces: [{ z0_mm: 0, z1_mm: 100, d_mm: 10, bore_mm: 10 }] }),
    ).toBeNull();
    expect(deflectionPicture({ ...pass, pieces: [] })).toBeNull();
  });
});
