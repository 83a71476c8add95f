import { expect, test } from 'vitest';
import { calloutsOf, dimensionsOf } from '../../../src/core/outline/dimensions.ts';
import type { PartLength } from '../../../src/core/part/types.ts';
import { chainsOf, partOf } from './drawing-parts.ts';

const length = (id: string, from: string, to: string, more: Partial<PartLength> = {}): PartLength => ({
  id,
  from,
  to,
  size: '1',
  ...more,
});

test('a size stands as it was written, its tolerance behind it, a reference in brackets', () => {
  const part = partOf({
    lengths: [
      length('L1', 'A', 'B', { size: '1 5/8', tol: '±.005' }),
      length('L2', 'A', 'B', { size: { size: '9 mm', tol: '+0/-.1 mm' } }),
      length('L3', 'A', 'B', { size: '4.609', role: 'reference' }),
      length('L4', 'A', 'B', { size: { size: '2', role: 'reference' } }),
      length('L5', 'A', 'B', { size: '' }),
    ],
  });
  const texts = dimensionsOf(part, chainsOf({}), 'in').map((d) => d.text);
  expect(texts).toEqual(['1 5/8 ±.005', '9 mm +0/-.1 mm', '(4.609)', '(2)', '?']);
});

test('the state of a chain is told by shape and words, the worst first', () => {
  const part = partOf({
    unit: 'in',
    lengths: ['L1', 'L2', 'L3', 'L4', 'L5', 'L6'].map((id) => length(id, 'A', 'B')),
  });
  const chains = {
    ...chainsOf({}),
    doubled: [{ lengths: ['L1', 'L4', 'L6'] }],
    clashes: [{ lengths: ['L2', 'L6'], gap_mm: 0.2286, within_limits: false }],
  };
  const told = dimensionsOf(part, chains, 'in').map(({ id, shape, note }) => [id, shape, note]);
  expect(told).toEqual([
    ['L1', 'twice', null],
    ['L2', 'zigzag', 'off by .009'],
    ['L3', 'plain', null],
    ['L4', 'twice', 'said twice'],
    ['L5', 'plain', null],
    ['L6', 'zigzag', 'off by .009'],
  ]);
  expect(dimensionsOf(part, chains, 'mm').find((d) => d.id === 'L2')?.note).toBe('off by 0.2286');
});

test('every segment, hole, crossing and edge has its note, with one diameter sign', () => {
  const part = partOf({
    segments: [
      { id: 's1', form: 'cylinder', diameter: { size: 'Ø12', tol: 'k5' } },
      { id: 's2', form: 'taper', start: '.375', end: '.300', ratio: '1:10' },
      { id: 's3', form: 'thread', thread: 'M6x1-6g' },
      { id: 's4', form: 'cylinder', diameter: '' },
    ],
    holes: [{ id: 'h', from: 'A', form: 'drill', diameter: '1/8', depth: '1 1/16' }],
    crossings: [{ id: 'x', at: 'P', form: 'hole', diameter: '1/16', reaches: 'axis' }],
    edges: [{ face: 'A', side: 'right', form: 'chamfer', size: '1/64', angle: '45°' }],
  });
  expect(calloutsOf(part).map(({ kind, id, text }) => [kind, id, text])).toEqual([
    ['segment', 's1', 'Ø12 k5'],
    ['segment', 's2', 'Ø.375 to Ø.300, 1:10'],
    ['segment', 's3', 'M6x1-6g'],
    ['segment', 's4', 'Ø?'],
    ['hole', 'h', 'drill Ø1/8, 1 1/16 deep'],
    ['crossing', 'x', 'Ø1/16 to the axis'],
    ['edge', 'edge A right', '1/64 × 45°'],
  ]);
});
