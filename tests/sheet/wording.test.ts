import { expect, test } from 'vitest';
import type { Segment } from '../../src/core/part/types.ts';
import { segmentText } from '../../src/sheet/wording.ts';

test.each<[Segment, string]>([
  [{ id: 's', form: 'cylinder', diameter: '.500' }, 'Ø.500'],
  [{ id: 's', form: 'cylinder', diameter: 'Ø12 h6' }, 'Ø12 h6'],
  [{ id: 's', form: 'thread', thread: 'M8' }, 'M8'],
  [{ id: 's', form: 'taper', start: '.500', end: '.4' }, 'Ø.500 to Ø.4'],
  [{ id: 's', form: 'taper', start: 'Ø20', per_foot: '1/2' }, 'Ø20, 1/2 per foot'],
  [{ id: 's', form: 'taper', end: '20', half_angle: '4°' }, 'Ø20, 4° half angle'],
])('a segment on the sheet says what the board says: %o', (segment, text) => {
  expect(segmentText(segment)).toBe(text);
});
