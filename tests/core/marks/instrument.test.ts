import { expect, test } from 'vitest';
import { instrumentFor } from '../../../src/core/marks/instrument.ts';

// Common practice, no source: what measures reads about ten times finer than the width of the limits.
test.each([
  ['length', 0.8, 'rule'],
  ['length', 0.2, 'caliper'],
  ['outside', 0.8, 'caliper'],
  ['outside', 0.025, 'micrometer'],
  ['outside', 0.009, 'micrometer, set by a standard'],
  ['inside', 0.02, 'plug gauge or bore gauge'],
  ['depth', null, 'caliper, depth rod'],
] as const)('%s with limits %s mm apart: %s', (kind, width, wanted) => {
  expect(instrumentFor(kind, width)).toBe(wanted);
});
