import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromMm, PM_PER, pm, type Unit } from '../../../src/core/lengths/length.ts';
import { readSize } from '../../../src/core/lengths/read-size.ts';
import type { WrittenSize } from '../../../src/core/lengths/written.ts';

// Expected places are in whole units worked out by hand from the definitions 1 in = 25.4 mm (ISO 31-1, exact) and
// 1 thou = .001 in; the notations are those that docs/part-file.md promises.
const inch = (micro: number) => pm(micro * 25_400); // millionths of an inch

function size(text: string, unit: Unit): WrittenSize {
  const read = readSize(text, unit);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

function refusal(text: string, unit: Unit) {
  const read = readSize(text, unit);
  if (read.ok) throw new Error(`“${text}” was read`);
  return read.problem;
}

describe('plain sizes', () => {
  const table: [text: string, unit: Unit, nominal: number, writtenIn: Unit, decimals: number | null][] = [
    ['.428', 'in', inch(428_000), 'in', 3],
    ['0.428', 'in', inch(428_000), 'in', 3],
    ['.4280', 'in', inch(428_000), 'in', 4],
    ['2', 'in', inch(2_000_000), 'in', 0],
    ['2.', 'in', inch(2_000_000), 'in', 0],
    ['1 5/8', 'in', inch(1_625_000), 'in', null],
    ['1-5/8', 'in', inch(1_625_000), 'in', null],
    ['1 - 5/8', 'in', inch(1_625_000), 'in', null],
    ['1–5⁄8', 'in', inch(1_625_000), 'in', null],
    ['1⅝', 'in', inch(1_625_000), 'in', null],
    ['1 ⅝', 'in', inch(1_625_000), 'in', null],
    ['⅛', 'in', inch(125_000), 'in', null],
    ['9/8', 'in', inch(1_125_000), 'in', null],
    ['5 / 8', 'in', inch(625_000), 'in', null],
    ['1/512', 'in', pm(49_609_375), 'in', null],
    ['5/8"', 'mm', inch(625_000), 'in', null],
    ['5/8″', 'mm', inch(625_000), 'in', null],
    ['5/8”', 'mm', inch(625_000), 'in', null],
    ["5/8''", 'mm', inch(625_000), 'in', null],
    ['5/8′′', 'mm', inch(625_000), 'in', null],
    ['5/8 in', 'mm', inch(625_000), 'in', null],
    ['.5 in.', 'mm', inch(500_000), 'in', 1],
    ['15.875 mm', 'in', inch(625_000), 'mm', 3],
    ['15.875mm', 'in', inch(625_000), 'mm', 3],
    ['12,5 mm', 'in', fromMm(12.5), 'mm', 1],
    ['12,5', 'mm', fromMm(12.5), 'mm', 1],
    ['9 mm', 'in', fromMm(9), 'mm', 0],
    ['1/2', 'mm', fromMm(0.5), 'mm', null],
    ['5 thou', 'in', inch(5_000), 'in', 3],
    ['5 thou', 'mm', inch(5_000), 'in', 3],
    ['2.5 thou', 'in', inch(2_500), 'in', 4],
    ['20 µm', 'mm', fromMm(0.02), 'mm', 3],
    ['Ø12', 'mm', fromMm(12), 'mm', 0],
    ['⌀ 12', 'mm', fromMm(12), 'mm', 0],
    ['.500 dia.', 'in', inch(500_000), 'in', 3],
    ['0', 'mm', pm(0), 'mm', 0],
    ['10000', 'mm', pm(10_000 * PM_PER.mm), 'mm', 0],
    ['\t.428\u00a0', 'in', inch(428_000), 'in', 3],
  ];
  test.each(table)('%s (%s)', (text, unit, nominal, writtenIn, decimals) => {
    const read = size(text, unit);
    expect(read).toEqual({
      nominal,
      limits: null,
      fit: null,
      unit: writtenIn,
      decimals,
      fraction: decimals === null,
    });
  });
});

describe('sizes with limits', () => {
  const table: [
    text: string,
    unit: Unit,
    nominal: number,
    min: number,
    max: number,
    decimals: number | null,
  ][] = [
    ['.2500/.2495', 'in', inch(249_750), inch(249_500), inch(250_000), 4],
    ['.2495/.2500', 'in', inch(249_750), inch(249_500), inch(250_000), 4],
    ['Ø.2500/Ø.2495', 'in', inch(249_750), inch(249_500), inch(250_000), 4],
    ['.2500/.2495"', 'mm', inch(249_750), inch(249_500), inch(250_000), 4],
    ['.2500"/.2495"', 'mm', inch(249_750), inch(249_500), inch(250_000), 4],
    ['12,5/12', 'mm', fromMm(12.25), fromMm(12), fromMm(12.5), 1],
    ['12/12.5', 'mm', fromMm(12.25), fromMm(12), fromMm(12.5), 1],
    ['9.99/9.985 mm', 'in', fromMm(9.9875), fromMm(9.985), fromMm(9.99), 3],
    ['.500 ±.002', 'in', inch(500_000), inch(498_000), inch(502_000), 3],
    ['.500 +/-.002', 'in', inch(500_000), inch(498_000), inch(502_000), 3],
    ['.500 ± 2 thou', 'in', inch(500_000), inch(498_000), inch(502_000), 3],
    ['.375 +.000/-.002', 'in', inch(375_000), inch(373_000), inch(375_000), 3],
    ['.375 -.002/+.000', 'in', inch(375_000), inch(373_000), inch(375_000), 3],
    ['10 +0 -0.05', 'mm', fromMm(10), fromMm(9.95), fromMm(10), 0],
    ['10 +0 −0,05', 'mm', fromMm(10), fromMm(9.95), fromMm(10), 0],
    ['10 0/-0.05', 'mm', fromMm(10), fromMm(9.95), fromMm(10), 0],
    ['10 mm +0/-.1', 'in', fromMm(10), fromMm(9.9), fromMm(10), 0],
    ['10 mm ±2 thou', 'mm', fromMm(10), pm(fromMm(10) - inch(2_000)), pm(fromMm(10) + inch(2_000)), 0],
    ['1 5/8 +1/64 -0', 'in', inch(1_625_000), inch(1_625_000), inch(1_640_625), null],
    ['12.5 -.01/-.03', 'mm', fromMm(12.5), fromMm(12.47), fromMm(12.49), 1],
  ];
  test.each(table)('%s (%s)', (text, unit, nominal, min, max, decimals) => {
    expect(size(text, unit)).toMatchObject({ nominal, limits: { min, max }, fit: null, decimals });
  });
});

describe('classes', () => {
  test.each([
    ['Ø12 k5', 'k5'],
    ['12k5', 'k5'],
    ['12 H7', 'H7'],
    ['12 js6', 'js6'],
    ['10 mm h6', 'h6'],
    ['12 za10', 'za10'],
    ['12 h01', 'h01'],
  ])('%s', (text, fit) => {
    expect(size(text, 'mm')).toMatchObject({ fit, limits: null });
  });
});

describe('what is no size', () => {
  const table: [text: string, unit: Unit, reason: string, piece: string, at: number][] = [
    ['', 'in', 'empty', '', 1],
    ['  ', 'in', 'empty', '  ', 1],
    ['5/0', 'in', 'over-nothing', '5/0', 1],
    ['1 5/0', 'in', 'over-nothing', '5/0', 3],
    ['1/3', 'in', 'not-whole', '1/3', 1],
    ['1/3', 'mm', 'not-whole', '1/3', 1],
    ['⅓', 'in', 'not-whole', '⅓', 1],
    ['.0000000001', 'mm', 'not-whole', '.0000000001', 1],
    ['.00000000001', 'in', 'not-whole', '.00000000001', 1],
    ['-.5', 'in', 'negative', '-', 1],
    ['−.5', 'in', 'negative', '−', 1],
    ['.25/-.2', 'in', 'negative', '-', 5],
    ['1..5', 'in', 'marks', '1..5', 1],
    ['1.000,5', 'mm', 'marks', '1.000,5', 1],
    ['Ø.', 'in', 'no-digits', '.', 2],
    ['10000.000000001', 'mm', 'too-large', '10000.000000001', 1],
    ['394', 'in', 'too-large', '394', 1],
    ['1e400', 'mm', 'unknown-word', 'e400', 2],
    ['12 x', 'in', 'unknown-word', 'x', 4],
    ['12 cm', 'mm', 'unknown-word', 'cm', 4],
    ['12 l6', 'mm', 'unknown-word', 'l6', 4],
    ["5'", 'in', 'feet', "'", 2],
    ['(4.609)', 'in', 'bracket', '(', 1],
    ['1 9/8', 'in', 'improper', '9/8', 3],
    ['10 mm/9 mm', 'in', 'unmarked-limits', '10 mm/9 mm', 1],
    ['10.0 mm/.39 in', 'in', 'two-units', '10.0 mm/.39 in', 1],
    ['.25/.24/.23', 'in', 'left-over', '/', 8],
    ['.25/.24 ±.001', 'in', 'left-over', '±', 9],
    ['12 H7/g6', 'mm', 'left-over', '/', 6],
    ['12 mm mm', 'mm', 'left-over', 'mm', 7],
    ['10 000', 'mm', 'one-sided', '000', 4],
    ['10 20', 'mm', 'left-over', '20', 4],
    ['.500 -.002', 'in', 'one-sided', '.002', 7],
    ['.500 +.002', 'in', 'one-sided', '.002', 7],
    ['1 -5/8', 'in', 'one-sided', '5/8', 4],
    ['10 +.1/.2', 'mm', 'unsigned', '.2', 8],
    ['12.7 ±.05 mm', 'in', 'unit-unclear', '.05 mm', 7],
    ['mm', 'mm', 'expected-figure', 'mm', 1],
    ['Ø', 'mm', 'expected-figure', '', 2],
    ['½½', 'in', 'left-over', '½', 2],
    ['1¹⁄₁₆', 'in', 'stray', '¹', 2],
    ['12😀', 'mm', 'stray', '😀', 3],
    ['1\u0000', 'mm', 'stray', '\u0000', 2],
    ['9'.repeat(101), 'mm', 'too-long', `${'9'.repeat(57)}…`, 1],
  ];
  test.each(table)('%j (%s): %s', (text, unit, reason, piece, at) => {
    const problem = refusal(text, unit);
    expect(problem.code).toBe('size-unreadable');
    expect(problem.where).toBe('');
    expect(problem.facts).toMatchObject({ reason, piece, at });
    if (text.trim() === '') return expect(problem.say).toContain('still to be given');
    expect(problem.say).toContain(`character ${at}`);
    if (text.length < 60) expect(problem.say).toContain(`“${text}”`);
  });
});

test('no text whatever makes it throw, and what is refused says where', () => {
  // prettier-ignore
  const pieces = fc.constantFrom(
    '1', '5', '/', '.', ',', '-', '+', '±', ' ', '"', "'", 'mm', 'in', 'thou', 'Ø', 'k5', '⅝', '0', '000', '−', '⁄',
  );
  const texts = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.array(pieces, { maxLength: 12 }).map((list) => list.join('')),
  );
  fc.assert(
    fc.property(texts, fc.constantFrom<Unit>('in', 'mm'), (text, unit) => {
      const read = readSize(text, unit);
      if (!read.ok) return /character \d+\)\.$|still to be given\.$/.test(read.problem.say);
      const { nominal, limits } = read.value;
      const within = !limits || (limits.min <= limits.max && Number.isSafeInteger(limits.min));
      return Number.isSafeInteger(nominal) && nominal >= 0 && nominal <= 10_000 * PM_PER.mm && within;
    }),
    { numRuns: 500 },
  );
});

test('digits are read exactly, however many stand there', () => {
  fc.assert(
    fc.property(fc.nat({ max: 9_999 }), fc.nat({ max: 999_999_999 }), (mm, pico) => {
      const text = `${mm}.${String(pico).padStart(9, '0')}`;
      expect(size(text, 'mm').nominal).toBe(mm * PM_PER.mm + pico);
      expect(size(`${text}000`, 'mm').nominal).toBe(mm * PM_PER.mm + pico);
    }),
  );
});

test('sums of what was read close exactly, in any order and in both units', () => {
  const term = fc.record({
    thou: fc.nat({ max: 20_000 }),
    sixtyFourths: fc.nat({ max: 63 }),
    microns: fc.nat({ max: 99_999 }),
  });
  fc.assert(
    fc.property(fc.array(term, { minLength: 1, maxLength: 40 }), (terms) => {
      const texts = terms.flatMap(({ thou, sixtyFourths, microns }): [string, Unit][] => [
        [(thou / 1000).toFixed(3), 'in'],
        [`${sixtyFourths}/64`, 'in'],
        [(microns / 1000).toFixed(3), 'mm'],
      ]);
      const forward = texts.reduce((sum, [text, unit]) => sum + size(text, unit).nominal, 0);
      const backward = texts.reduceRight((sum, [text, unit]) => sum + size(text, unit).nominal, 0);
      // The same sum, counted in sixty-fourths of a micron of an inch and of a millimetre.
      const inches = terms.reduce(
        (sum, t) => sum + BigInt(t.thou) * 64n + BigInt(t.sixtyFourths) * 1000n,
        0n,
      );
      const microns = terms.reduce((sum, t) => sum + BigInt(t.microns), 0n);
      expect(BigInt(forward)).toBe((inches * 25_400_000_000n) / 64_000n + microns * 1_000_000n);
      expect(backward).toBe(forward);
    }),
  );
});
