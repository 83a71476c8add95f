import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stripPieces, stripsOf, wasteSide } from '../../../src/core/marks/strip.ts';
import type { Holding, Mark } from '../../../src/core/plan/types.ts';

const mark = (rest: Partial<Mark> & Pick<Mark, 'station' | 'z_mm'>): Mark => ({
  reading_mm: 0,
  text: '',
  rule_text: null,
  from: 'A',
  before: 1,
  waste: 'none',
  ...rest,
});

const holding = (headstock: Holding['headstock'], marks: Mark[]): Holding => ({
  id: 'H1',
  device: 'collet',
  grips: null,
  headstock,
  stick_out_mm: null,
  support: [],
  steady_at_mm: null,
  datum: { station: 'A', how: '' },
  zero_z_mm: 0,
  z_sign: 1,
  marks,
  cuts: [],
});

describe('strips', () => {
  test('run from what the rule stands against, and name the side that the operator sees', () => {
    const marks = [mark({ station: 'C', z_mm: 30 }), mark({ station: 'B', z_mm: 12.7, waste: 'right' })];
    const [strip, ...others] = stripsOf(holding('right', marks), new Map([['A', 2]]));
    expect(others).toEqual([]);
    expect(strip).toMatchObject({ from: 'A', way: 'headstock', length_mm: 28 });
    expect(strip?.ticks.map(({ station, at_mm, waste }) => [station, at_mm, waste])).toEqual([
      ['B', 10.7, 'headstock'],
      ['C', 28, 'none'],
    ]);
    expect(stripsOf(holding('left', marks), new Map([['A', 2]]))[0]).toMatchObject({ way: 'tailstock' });
  });

  test('two marks at one place are one tick that names both cuts; each datum and each way has a strip of its own', () => {
    const marks = [
      mark({ station: 'B', z_mm: 10, before: 4 }),
      mark({ station: 'B', z_mm: 10, before: 9 }),
      mark({ station: 'C', z_mm: 20, from: 'D' }),
      mark({ station: 'E', z_mm: -5 }),
    ];
    const strips = stripsOf(
      holding('left', marks),
      new Map([
        ['A', 0],
        ['D', 50],
      ]),
    );
    expect(
      strips.map(({ from, way, ticks }) => [from, way, ticks.map((t) => [t.at_mm, ...t.before])]),
    ).toEqual([
      ['A', 'tailstock', [[10, 4, 9]]],
      ['D', 'headstock', [[30, 1]]],
      ['A', 'headstock', [[5, 1]]],
    ]);
  });

  test('a station without a place is measured from the Z zero; a holding without marks has no strip', () => {
    const far = { ...holding('left', [mark({ station: 'B', z_mm: 40, from: 'Q' })]), zero_z_mm: 15 };
    expect(stripsOf(far, new Map())[0]?.length_mm).toBe(25);
    expect(stripsOf(holding('left', []), new Map())).toEqual([]);
  });

  test('waste turns round with the part', () => {
    expect(wasteSide('left', 'left')).toBe('headstock');
    expect(wasteSide('left', 'right')).toBe('tailstock');
    expect(wasteSide('right', 'right')).toBe('headstock');
    expect(wasteSide('none', 'right')).toBe('none');
  });
});

describe('pieces', () => {
  test('cover the whole strip, overlap by as much as was asked, and share each register line', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5000, noNaN: true }),
        fc.integer({ min: 60, max: 280 }),
        (length, room) => {
          const pieces = stripPieces(length, room, 20);
          expect(pieces[0]?.from_mm).toBe(0);
          expect(pieces.at(-1)?.to_mm).toBe(length);
          pieces.forEach((piece, i) => {
            expect(piece.to_mm - piece.from_mm).toBeLessThanOrEqual(room + 1e-9);
            const next = pieces[i + 1];
            if (!next) return;
            expect(piece.to_mm - next.from_mm).toBeCloseTo(20, 9);
            expect(piece.registers.at(-1)).toBe(next.registers[0]);
          });
          const lines = pieces.flatMap(({ registers }) => registers);
          expect(lines).toHaveLength(2 * (pieces.length - 1));
          for (const { from_mm, to_mm, registers } of pieces)
            for (const at of registers) expect(at > from_mm && at < to_mm).toBe(true);
        },
      ),
    );
  });

  test('a strip that fits stays whole', () => expect(stripPieces(150, 160, 20)).toHaveLength(1));
  test('no room at all is the bug of the caller', () =>
    expect(() => stripPieces(50, 20, 20)).toThrow(RangeError));
});
