import { describe, expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import type { ResolvedPart } from '../../../src/core/part/resolved.ts';
import { drawing } from './drawing.ts';

const suspects = (part: ResolvedPart) => solveChains(part).report.suspects;
const inch = { unit: 'in' } as const;

describe('a single misread', () => {
  const slips: [slip: string, lines: string[], length: string, closesAt: number, hint: RegExp][] = [
    ['two figures swapped', ['A-B .375', 'B-C .365', 'A-C .731'], 'L2', 0.356, /swapped/],
    ['the neighbouring fraction', ['A-B 3/4', 'B-C 5/8', 'A-C 1.125'], 'L2', 0.375, /neighbouring fraction/],
    ['a slipped point', ['A-B .250', 'B-C .0625', 'A-C .875'], 'L2', 0.625, /decimal point/],
    ['a lost sixteenth', ['A-B .311', 'B-C 1 1/4', 'A-C 1.6235'], 'L2', 1.3125, /sixteenth/],
    ['inch read for mm', ['A-B .500', 'B-C 12.7', 'A-C 1.000'], 'L2', 0.5, /mm read as inches/],
    ['figures that look alike', ['A-B .412', 'B-C .386', 'A-C .748'], 'L2', 0.336, /3 taken for a 8/],
  ];
  test.each(slips)('%s is found and named', (_slip, lines, length, closesAt, hint) => {
    const [first] = suspects(drawing('A B C', lines, inch));
    expect(first?.length).toBe(length);
    expect(first?.closes_at_mm).toBeCloseTo(closesAt * 25.4, 9);
    expect(first?.hint).toMatch(hint);
  });

  test('a size drawn to the neighbouring face is found by the segment it misses by', () => {
    const lines = ['A-B 11.3', 'B-C 6.9', 'C-D 14.2', 'A-D 18.2'];
    expect(suspects(drawing('A B C D', lines))[0]).toMatchObject({ length: 'L4', closes_at_mm: 32.4 });
    expect(suspects(drawing('A B C D', lines))[0]?.hint).toMatch(/from A to C/);
  });

  test('only what closes all loops at once is suspected, and nothing is changed below nothing', () => {
    const part = drawing('A B C D', ['A-B 3/4', 'B-C .365', 'C-D 1 1/2', 'A-D 2.606', 'B-D 1.856'], inch);
    expect(suspects(part).map(({ length }) => length)).toEqual(['L2', 'L3']);
    const small = drawing('A B C', ['A-B 1', 'B-C 5', 'A-C 9']);
    expect(suspects(small).map(({ length, closes_at_mm }) => [length, closes_at_mm])).toContainEqual([
      'L1',
      4,
    ]);
    const long = drawing('A B C', ['A-B 1', 'B-C 9', 'A-C 5']);
    expect(suspects(long).map(({ length }) => length)).not.toContain('L1');
  });

  test('a suspect that nothing explains has no reason', () => {
    const part = drawing('A B C', ['A-B 10.123', 'B-C 20', 'A-C 31.7']);
    expect(suspects(part).find(({ length }) => length === 'L2')?.hint).toBeNull();
  });

  test('two misreads in separate loops have no single suspect', () => {
    const part = drawing('A B C', ['A-B 10', 'A-B 11', 'B-C 5', 'B-C 6']);
    expect(suspects(part)).toEqual([]);
  });
});
