import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromMm, pm, type Unit } from '../../../src/core/lengths/length.ts';
import { readTolerance } from '../../../src/core/lengths/read-tolerance.ts';

// Deviations worked out by hand from 1 in = 25.4 mm; the notations are those that docs/part-file.md promises.
const inch = (micro: number) => pm(micro * 25_400);

describe('deviations', () => {
  const table: [text: string, unit: Unit, lower: number, upper: number][] = [
    ['±.005', 'in', inch(-5_000), inch(5_000)],
    ['± 0,05', 'mm', fromMm(-0.05), fromMm(0.05)],
    ['+/-.005', 'in', inch(-5_000), inch(5_000)],
    ['+-.005', 'in', inch(-5_000), inch(5_000)],
    ['±1/64', 'in', inch(-15_625), inch(15_625)],
    ['±2 thou', 'mm', inch(-2_000), inch(2_000)],
    ['±5 µm', 'in', fromMm(-0.005), fromMm(0.005)],
    ['+.000/-.002', 'in', inch(-2_000), pm(0)],
    ['-.002/+.000', 'in', inch(-2_000), pm(0)],
    ['+0 -0.05', 'mm', fromMm(-0.05), pm(0)],
    ['+0 −0.05', 'mm', fromMm(-0.05), pm(0)],
    ['+0/-.1 mm', 'in', fromMm(-0.1), pm(0)],
    ['+.1 mm/-0', 'in', pm(0), fromMm(0.1)],
    ['0/-.15', 'mm', fromMm(-0.15), pm(0)],
    ['+1/64-1/32', 'in', inch(-31_250), inch(15_625)],
    ['+1/64/-1/32', 'in', inch(-31_250), inch(15_625)],
    ['+1 thou/-.05 mm', 'in', fromMm(-0.05), inch(1_000)],
    ['+.005 +.002', 'in', inch(2_000), inch(5_000)],
    ['-.001/-.003', 'in', inch(-3_000), inch(-1_000)],
    ['+.000/-.000', 'in', pm(0), pm(0)],
  ];
  test.each(table)('%s (%s)', (text, unit, lower, upper) => {
    expect(readTolerance(text, unit)).toEqual({ ok: true, value: { kind: 'deviations', lower, upper } });
  });
});

test.each(['k5', 'h6', 'H7', 'js6', 'JS7', 'cd8', 'h18', 'h01', 'M6'])('class %s', (fit) => {
  expect(readTolerance(` ${fit} `, 'mm')).toEqual({ ok: true, value: { kind: 'fit', fit } });
});

describe('what is no tolerance', () => {
  const table: [text: string, reason: string, piece: string, at: number][] = [
    ['', 'empty', '', 1],
    ['.005', 'unsigned', '.005', 1],
    ['+.005', 'one-sided', '.005', 2],
    ['-.005', 'one-sided', '.005', 2],
    ['±', 'expected-figure', '', 2],
    ['±-.005', 'negative', '-', 2],
    ['±1/3', 'not-whole', '1/3', 2],
    ['+1/0 -0', 'over-nothing', '1/0', 2],
    ['+.1..2/-0', 'marks', '.1..2', 2],
    ['+.1/-.2/-.3', 'left-over', '/', 8],
    ['±.1 h6', 'left-over', 'h6', 5],
    ['Js7', 'unknown-word', 'Js7', 1],
    ['h19', 'unknown-word', 'h19', 1],
    ['i6', 'unknown-word', 'i6', 1],
    ['H7/g6', 'left-over', '/', 3],
    ['±11 000', 'left-over', '000', 5],
    ['±11000', 'too-large', '11000', 2],
  ];
  test.each(table)('%j: %s', (text, reason, piece, at) => {
    const read = readTolerance(text, 'mm');
    expect(read).toMatchObject({
      ok: false,
      problem: { code: 'tolerance-unreadable', where: '', facts: { reason, piece, at } },
    });
  });
});

test('no text whatever makes it throw, and deviations come in order', () => {
  const pieces = fc.constantFrom('+', '-', '±', '/', '.1', '0', '1/64', ' ', ' mm', 'thou', 'h6', '−', '1');
  const texts = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.array(pieces, { maxLength: 8 }).map((list) => list.join('')),
  );
  fc.assert(
    fc.property(texts, fc.constantFrom<Unit>('in', 'mm'), (text, unit) => {
      const read = readTolerance(text, unit);
      return !read.ok || read.value.kind === 'fit' || read.value.lower <= read.value.upper;
    }),
    { numRuns: 500 },
  );
});
