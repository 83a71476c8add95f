import { expect, test } from 'vitest';
import { mainForce, radialForce } from '../../../src/core/stiffness/force.ts';

const steel = { kc11: 1500, mc: 0.22 };

test('twice the depth, twice the force; twice the feed, less than twice', () => {
  const one = mainForce(steel, { depth_mm: 0.5, feed_mm: 0.1 });
  expect(mainForce(steel, { depth_mm: 1, feed_mm: 0.1 })).toBeCloseTo(2 * one, 9);
  expect(mainForce(steel, { depth_mm: 0.5, feed_mm: 0.2 })).toBeCloseTo(2 ** 0.78 * one, 9);
});

test.each([
  { depth_mm: 0, feed_mm: 0.1 },
  { depth_mm: 1, feed_mm: 0 },
  { depth_mm: -1, feed_mm: 0.1 },
  { depth_mm: NaN, feed_mm: 0.1 },
  { depth_mm: 1, feed_mm: 0.1, entering_deg: 0 },
])('a chip that is none takes no force: %j', (chip) => {
  expect(mainForce(steel, chip)).toBe(0);
});

test('the radial force is a share that can be chosen', () => {
  expect(radialForce(200, 0.25)).toBe(50);
});
