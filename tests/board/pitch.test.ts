import { expect, test } from 'vitest';
import { pitchFault } from '../../src/board/pitch.ts';
import type { Part } from '../../src/core/part/types.ts';
import { reportOf } from './bench.svelte.ts';

/** Three lands in inches, 1/2, 1/4 and one that no length places. */
const part: Part = {
  shaftwright: 1,
  title: 'comb',
  unit: 'in',
  faces: ['A', 'B', 'C', 'D'].map((id, i) => ({ id, sketched: i })),
  segments: ['s1', 's2', 's3'].map((id) => ({ id, form: 'cylinder', diameter: '1/2' })),
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '1/2' },
    { id: 'L2', from: 'B', to: 'C', size: '1/4' },
  ],
  ...{ points: [], edges: [], holes: [], crossings: [], requirements: [], matched: [] },
};
const { chains } = reportOf(part);

// A land between the copies of one land has some length; copies of several may touch.
test.each([
  ['none, so that the copies touch', ['s2'], '', ''],
  ['longer', ['s2'], '3/8', ''],
  ['longer, in another unit', ['s2'], '7 mm', ''],
  [
    'as long: no room for the land between',
    ['s2'],
    '.25',
    /is 0?\.25 long: the pitch has to be more than that/,
  ],
  ['shorter', ['s2'], '1/8', /the pitch has to be more/],
  ['shorter, in another unit', ['s2'], '6 mm', /the pitch has to be more/],
  ['as long as two that may touch', ['s1', 's2'], '3/4', ''],
  ['shorter than these', ['s1', 's2'], '11/16', /is 0?\.75 long: the pitch has to be at least that/],
  ['any, where nothing says how long the land is', ['s3'], '1/64', ''],
  ['one that cannot be read', ['s2'], '1/0', /1\/0/],
])('a pitch is refused where the copies would run into each other: %s', (_name, ids, pitch, say) => {
  const fault = pitchFault(part, chains, ids, pitch);
  if (say === '') expect(fault).toBe('');
  else expect(fault).toMatch(say);
});
