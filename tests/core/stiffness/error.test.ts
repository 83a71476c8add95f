import { describe, expect, test } from 'vitest';
import { longestFreeStickOut, segmentError, verdictOn } from '../../../src/core/stiffness/error.ts';
import type { Pass } from '../../../src/core/stiffness/error.ts';

const FREE = { centre: false, steadyAt_mm: null };
const plain: Pass = {
  pieces: [{ z0_mm: 0, z1_mm: 60, d_mm: 10, bore_mm: 0 }],
  support: FREE,
  from_mm: 40,
  to_mm: 60,
  radialForce_N: 10,
  youngs_MPa: 205_000,
};
/** Diameter error of a uniform round bar at z: 2 F z³ / (3 E I). Standard formula for a cantilever. */
const twice = (z: number) => (2 * 10 * z ** 3) / (3 * 205_000 * ((Math.PI * 10 ** 4) / 64));

describe('the error that a pass leaves', () => {
  test('is the range along the segment: what is the same all along is measured out', () => {
    expect(segmentError(plain)).toBeCloseTo(twice(60) - twice(40), 12);
    expect(segmentError({ ...plain, from_mm: 60, to_mm: 40 })).toBe(segmentError(plain));
    expect(segmentError({ ...plain, from_mm: 60, to_mm: 60 })).toBe(0);
  });

  test('grows with the push', () => {
    expect(segmentError({ ...plain, radialForce_N: 30 })).toBeCloseTo(3 * segmentError(plain), 12);
  });

  test('finds the soft place between its ends when a centre holds', () => {
    const whole = { ...plain, from_mm: 0, to_mm: 60, support: { centre: true, steadyAt_mm: null } };
    // Hicks: 0.0098 F L³ / (E I) at 0.414 L from the supported end; recomputed 0.0098124.
    const peak = (2 * 0.0098124172 * 10 * 60 ** 3) / (205_000 * ((Math.PI * 10 ** 4) / 64));
    expect(segmentError(whole) / peak).toBeCloseTo(1, 6);
  });

  test('has no bound where no metal is left', () => {
    const hollow = [{ z0_mm: 0, z1_mm: 60, d_mm: 10, bore_mm: 10 }];
    expect(segmentError({ ...plain, pieces: hollow, from_mm: 0 })).toBe(Infinity);
  });
});

describe('the longest free stick-out', () => {
  test('holds the limit, and a little more does not', () => {
    const limit = 0.002;
    const found = longestFreeStickOut(plain, limit) ?? NaN;
    const at = (length: number) => twice(length) - twice(length - 20);
    expect(at(found)).toBeCloseTo(limit, 9);
    expect(at(found - 0.01)).toBeLessThan(limit);
    expect(at(found + 0.01)).toBeGreaterThan(limit);
  });

  test('counts the bar alone, whatever supports it now', () => {
    const held = { ...plain, support: { centre: true, steadyAt_mm: null } };
    expect(longestFreeStickOut(held, 0.002)).toBe(longestFreeStickOut(plain, 0.002));
  });

  test('is null where even a grip at the segment would not hold, and never over 12 diameters', () => {
    expect(longestFreeStickOut({ ...plain, radialForce_N: 1e6 }, 0.001)).toBeNull();
    expect(longestFreeStickOut({ ...plain, radialForce_N: 0 }, 0.001)).toBe(120);
  });
});

describe('a travelling steady', () => {
  // Clamped, propped at L, loaded at x: F (L - x)² x³ (4L - x) / (12 E I L³); standard tables, worked out again by unit load.
  const propped = (x: number, l: number) =>
    (100 * (l - x) ** 2 * x ** 3 * (4 * l - x)) / (12 * 205_000 * ((Math.PI * 10 ** 4) / 64) * l ** 3);
  const pass = {
    ...plain,
    pieces: [{ z0_mm: 0, z1_mm: 200, d_mm: 10, bore_mm: 0 }],
    from_mm: 60,
    to_mm: 120,
    radialForce_N: 100,
  };
  const travelling = { centre: false, steadyAt_mm: null, travellingBehind_mm: 8 };

  test('props the work just behind the tool, wherever that is', () => {
    const found = segmentError({ ...pass, support: travelling });
    expect(found).toBeCloseTo(2 * Math.abs(propped(120, 128) - propped(60, 68)), 9);
  });

  test('leaves far less than none does, and nothing to bear on at the free end', () => {
    expect(segmentError({ ...pass, support: travelling })).toBeLessThan(segmentError(pass) / 20);
    const atEnd = { ...pass, from_mm: 195, to_mm: 200 };
    expect(segmentError({ ...atEnd, support: travelling })).toBeCloseTo(segmentError(atEnd), 12);
  });
});

describe('what mends a pass that springs too far', () => {
  test('nothing is wanted where it holds', () => {
    expect(verdictOn(plain, 1)).toMatchObject({ ok: true, mends: [] });
  });

  test('each cure named does cure', () => {
    const limit = 0.6 * segmentError(plain);
    const { ok, mends } = verdictOn(plain, limit);
    expect(ok).toBe(false);
    expect(mends.map((m) => m.how)).toEqual(['centre', 'steady', 'lighter-cut']);
    for (const mend of mends) {
      const tried =
        mend.how === 'lighter-cut'
          ? { ...plain, radialForce_N: mend.force_N }
          : {
              ...plain,
              support:
                mend.how === 'centre' ? { ...FREE, centre: true } : { ...FREE, steadyAt_mm: mend.at_mm },
            };
      expect(segmentError(tried)).toBeLessThanOrEqual(limit * (1 + 1e-12));
    }
  });

  test('a cut so light that the tool would rub is not advised', () => {
    const { mends } = verdictOn(plain, 0.3 * segmentError(plain));
    expect(mends.map((m) => m.how)).not.toContain('lighter-cut');
  });

  test('what is already there is not advised again', () => {
    const held = { ...plain, from_mm: 0, support: { centre: true, steadyAt_mm: 30 } };
    expect(verdictOn(held, 1e-9).mends).toEqual([]);
  });
});
