import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readAngle } from '../../../src/core/lengths/read-angle.ts';

const degrees = (text: string): number => {
  const read = readAngle(text);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
};

describe('angles', () => {
  // 60 minutes to the degree, 60 seconds to the minute: arithmetic.
  test.each([
    ['45°', 45],
    ['45', 45],
    ['45 deg', 45],
    ['2.5°', 2.5],
    ['2,5°', 2.5],
    ['0.1°', 0.1],
    ['.5°', 0.5],
    ['0°', 0],
    ['360°', 360],
    [`1°25'50"`, 5150 / 3600],
    ['1° 25′ 50″', 5150 / 3600],
    [`1°25'50''`, 5150 / 3600],
    [`29°30'`, 29.5],
    [`0°30"`, 1 / 120],
    [`1°0.5'`, 121 / 120],
    [`1°25'30.6"`, 5130.6 / 3600],
  ])('%s', (text, expected) => {
    expect(degrees(text)).toBeCloseTo(expected, 14);
  });
});

// Source: published Morse taper tables, no. 2: .59941 in per foot, half angle 1.4307°; tan(half angle) = per foot / 24.
test('the half angle of a taper of .59941 in per foot is 1°25′50″ to the second', () => {
  const half = (Math.atan(0.59941 / 24) * 180) / Math.PI;
  expect(Math.abs(degrees(`1°25'50"`) - half)).toBeLessThan(0.5 / 3600);
  expect(Math.abs(degrees('1.4307°') - half)).toBeLessThan(0.00005);
});

describe('what is no angle', () => {
  const table: [text: string, reason: string, piece: string, at: number][] = [
    ['', 'empty', '', 1],
    ['-5°', 'out-of-range', '-5°', 1],
    ['361°', 'out-of-range', '361°', 1],
    [`1°60'`, 'out-of-range', '60', 3],
    [`1°5'60"`, 'out-of-range', '60', 5],
    [`1.5°30'`, 'not-angle', '1.5', 1],
    ['1..5°', 'marks', '1..5', 1],
    ['.°', 'no-digits', '.', 1],
    ['forty', 'not-angle', 'forty', 1],
    [`30'`, 'not-angle', `30'`, 1],
    ['1:10', 'not-angle', '1:10', 1],
    ['°', 'not-angle', '°', 1],
  ];
  test.each(table)('%j: %s', (text, reason, piece, at) => {
    expect(readAngle(text)).toMatchObject({
      ok: false,
      problem: { code: 'angle-unreadable', where: '', facts: { reason, piece, at } },
    });
  });
});

test('degrees, minutes and seconds read back as the seconds they are', () => {
  fc.assert(
    fc.property(fc.nat({ max: 359 }), fc.nat({ max: 59 }), fc.nat({ max: 59 }), (d, m, s) => {
      expect(degrees(`${d}°${m}'${s}"`)).toBe((d * 3600 + m * 60 + s) / 3600);
    }),
  );
});

test('no text whatever makes it throw', () => {
  fc.assert(
    fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.stringMatching(/^[0-9.°'" -]{0,12}$/)), (text) => {
      const read = readAngle(text);
      return !read.ok || (read.value >= 0 && read.value <= 360);
    }),
    { numRuns: 500 },
  );
});
