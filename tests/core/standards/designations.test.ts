import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromInches, fromMm, pm } from '../../../src/core/lengths/length.ts';
import { barAtOrOver } from '../../../src/core/standards/bars.ts';
import { readBearing } from '../../../src/core/standards/bearings.ts';
import { centreDrillForWork, readCentreDrill } from '../../../src/core/standards/centre-drills.ts';
import { drillAtOrUnder, drillName, readDrill } from '../../../src/core/standards/drills.ts';
import { fitPair, readFitPair } from '../../../src/core/standards/fits.ts';
import { generalClass } from '../../../src/core/standards/iso2768.ts';
import { fitDeviations, toleranceGrade } from '../../../src/core/standards/iso286.ts';
import { material } from '../../../src/core/standards/materials.ts';
import { readTaper } from '../../../src/core/standards/tapers.ts';
import { threadRelief } from '../../../src/core/standards/thread-reliefs.ts';
import { readUndercut } from '../../../src/core/standards/undercuts.ts';
import type { Outcome } from '../../../src/core/problem.ts';

const code = (outcome: Outcome<unknown>) => (outcome.ok ? 'read' : outcome.problem.code);
const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.problem.say);
  return outcome.value;
};

describe('classes of fit', () => {
  test('a size on the boundary of two steps belongs to the lower one', () => {
    // ISO 286-1: steps run over the lower end, up to and including the upper.
    expect(value(fitDeviations(fromMm(10), 'h6')).lower).toBe(fromMm(-0.009));
    expect(value(fitDeviations(pm(fromMm(10) + 1), 'h6')).lower).toBe(fromMm(-0.011));
  });
  test.each(['k5', 'K5', ' h6 ', 'h 6', 'js6', 'Js7', 'H7', 'hIT6'])('%s is read', (text) =>
    expect(code(fitDeviations(fromMm(12), text))).toBe('read'),
  );
  test('capitals are holes', () => {
    expect(value(fitDeviations(fromMm(12), 'H6'))).toEqual({ lower: 0, upper: fromMm(0.011) });
    expect(value(fitDeviations(fromMm(12), 'h6'))).toEqual({ lower: fromMm(-0.011), upper: 0 });
  });
  test.each([
    ['H7/g6', 12, 'fit-pair'],
    ['6h', 12, 'fit-unreadable'],
    ['', 12, 'fit-unreadable'],
    ['t6', 12, 'fit-not-in-table'],
    ['T7', 12, 'fit-not-in-table'],
    ['h17', 12, 'fit-not-in-table'],
    ['h0', 12, 'fit-not-in-table'],
    ['m6', 181, 'fit-not-in-table'],
    ['j7', 12, 'fit-not-in-table'],
    ['K9', 12, 'fit-not-in-table'],
    ['h14', 0.9, 'fit-not-in-table'],
    ['h6', 501, 'fit-size-out-of-range'],
    ['h6', 0, 'fit-size-out-of-range'],
    ['h6', -3, 'fit-size-out-of-range'],
  ] as const)('%s at %d mm: %s', (fit, mm, expected) =>
    expect(code(fitDeviations(fromMm(mm), fit))).toBe(expected),
  );
  test.each(['H7/g6', 'g6/H7', 'H7-g6', 'H7 / g6'])('the pair %s', (text) =>
    expect(value(readFitPair(text))).toMatchObject({ hole: { letter: 'H' }, shaft: { letter: 'g' } }),
  );
  test.each(['H7/H6', 'g6/h6', 'H7', 'H7/g6/k6', 'H7/'])('no pair: %s', (text) =>
    expect(code(readFitPair(text))).toBe('fit-unreadable'),
  );
  test('a pair that may just touch is a clearance; a wide pair has no one feel', () => {
    expect(value(fitPair(fromMm(12), 'H7/h6'))).toMatchObject({
      kind: 'clearance',
      feel: 'slides when oiled',
    });
    expect(value(fitPair(fromMm(12), 'H9/d9')).feel).toBe('loose running');
    expect(value(fitPair(fromMm(12), 'H10/d9')).feel).toBeNull();
    expect(value(fitPair(fromMm(12), 'H9/d10')).feel).toBeNull();
    expect(value(fitPair(fromMm(12), 'P7/h6')).feel).toBeNull();
  });
  test('the width of a zone is its grade, for every class at every size', () => {
    const letters = fc.constantFrom(...'d e f g h j k m n p r s js D E F G H JS K M N P'.split(' '));
    fc.assert(
      fc.property(
        letters,
        fc.integer({ min: 1, max: 16 }),
        fc.integer({ min: 1, max: 500_000 }),
        (letter, grade, um) => {
          const size = pm(um * 1_000_000);
          const zone = fitDeviations(size, `${letter}${grade}`);
          if (zone.ok) expect(zone.value.upper - zone.value.lower).toBe(value(toleranceGrade(size, grade)));
        },
      ),
      { numRuns: 2000 },
    );
  });
});

test.each([
  ['m', 'm'],
  ['M', 'm'],
  ['mK', 'm'],
  ['ISO 2768-mK', 'm'],
  ['DIN ISO 2768-1-f', 'f'],
  ['2768-c', 'c'],
  ['x', null],
  ['', null],
  ['mm', null],
] as const)('general class %s', (text, cls) => expect(generalClass(text)).toBe(cls));

describe('drills', () => {
  test.each([
    ['#7', fromInches(0.201)],
    ['No. 7', fromInches(0.201)],
    ['f', fromInches(0.257)],
    ['13/64', fromInches(13 / 64)],
    ['26/128', null],
    ['2/64', fromInches(1 / 32)],
    ['.201', fromInches(0.201)],
    ['.250', fromInches(0.25)],
    ['5 mm', fromMm(5)],
    ['Ø5.1 mm', fromMm(5.1)],
    ['5,1', fromMm(5.1)],
    ['0.5', fromMm(0.5)],
    ['5', null],
    ['1/0', null],
    ['#81', null],
    ['', null],
  ] as const)('%s', (text, diameter) => {
    const read = readDrill(text);
    expect(read.ok ? read.value.diameter : null).toBe(diameter);
  });
  test('a size that no drill has is written out', () => {
    expect(drillName(fromInches(0.2013), 'in')).toBe('.2013 in');
    expect(drillName(fromMm(5.03), 'mm')).toBe('5.03 mm');
  });
  test('a drill of the other unit keeps its own name', () => {
    expect(drillName(fromMm(5), 'in')).toBe('5 mm');
    expect(drillName(fromInches(0.201), 'mm')).toBe('#7');
  });
  test('the largest at or under', () => {
    expect(drillAtOrUnder(fromInches(0.2009))?.name).toBe('5.1 mm');
    expect(drillAtOrUnder(fromInches(0.2009), ['number', 'letter', 'fraction'])?.name).toBe('#8');
    expect(drillAtOrUnder(fromMm(5.09), ['metric'])?.name).toBe('5 mm');
    expect(drillAtOrUnder(fromMm(0.2))).toBeNull();
  });
});

describe('centre drills', () => {
  test.each([
    ['#2', '#2'],
    ['No. 2', '#2'],
    ['2', '#2'],
    ['00', '#00'],
    ['A2', 'A 2/5'],
    ['A 2/5', 'A 2/5'],
    ['a 2 x 5', 'A 2/5'],
    ['2 mm', 'A 2/5'],
    ['2,5', 'A 2.5/6.3'],
    ['3.15', 'A 3.15/8'],
  ] as const)('%s is %s', (text, designation) =>
    expect(value(readCentreDrill(text)).designation).toBe(designation),
  );
  test.each(['', '9', '#9', 'A 2/6', 'A7', '20', 'centre'])('“%s” is none', (text) =>
    expect(code(readCentreDrill(text))).toBe('centre-drill-unknown'),
  );
  test('the hole takes no more than half of the work, where a drill is that small', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2540, max: 300_000 }),
        fc.constantFrom('in' as const, 'mm' as const),
        (um, unit) => {
          const work = pm(um * 1_000_000);
          expect(centreDrillForWork(work, unit).mouth).toBeLessThanOrEqual(work / 2);
        },
      ),
    );
  });
});

describe('tapers', () => {
  test.each([
    ['MT2', 'Morse 2'],
    ['mt 2', 'Morse 2'],
    ['2MT', 'Morse 2'],
    ['Morse 2', 'Morse 2'],
    ['Morse taper No. 2', 'Morse 2'],
    ['No. 2 Morse', 'Morse 2'],
    ['2 Morse taper', 'Morse 2'],
    ['MK3', 'Morse 3'],
    ['MT4.5', 'Morse 4.5'],
    ['B&S 7', 'Brown & Sharpe 7'],
    ['BS7', 'Brown & Sharpe 7'],
    ['Brown & Sharpe No. 7', 'Brown & Sharpe 7'],
    ['Jarno 5', 'Jarno'],
    ['1:10', '1:10'],
    ['1 / 10', '1:10'],
    ['7/24', '7:24'],
  ] as const)('%s is %s', (text, name) => expect(value(readTaper(text)).name).toBe(name));
  test.each(['', 'MT8', 'MT', 'B&S 14', 'Jarno 21', '1:0', '0:1', '1:', 'steep', 'M6'])(
    '“%s” is none',
    (text) => expect(code(readTaper(text))).toBe('taper-unknown'),
  );
});

describe('bearings', () => {
  test.each([
    ['6000', '6000'],
    ['6201-2RS', '6201'],
    ['6201 2RS1', '6201'],
    ['608ZZ', '608'],
    ['608-2Z C3', '608'],
    ['R8', 'R8'],
    ['r 4a', 'R4A'],
    ['R8-2RS', 'R8'],
  ] as const)('%s is %s', (text, designation) =>
    expect(value(readBearing(text)).designation).toBe(designation),
  );
  test('what is not there is refused with its neighbours', () => {
    const refused = readBearing('R5');
    expect(refused.ok ? [] : refused.problem.facts?.['near']).toEqual(['R4', 'R6']);
    const over = readBearing('6009');
    expect(over.ok ? [] : over.problem.facts?.['near']).toEqual(['6008']);
    expect(code(readBearing('6300'))).toBe('bearing-unknown');
    expect(code(readBearing('6000foo'))).toBe('bearing-unknown');
    expect(code(readBearing(''))).toBe('bearing-unknown');
    expect(code(readBearing('608' + 'Z'.repeat(5000)))).toBe('bearing-unknown');
  });
});

test('undercuts are read with point or comma', () => {
  expect(value(readUndercut('DIN 509-F 0,8 × 0,3')).designation).toBe('F0.8x0.3');
  expect(code(readUndercut('F0.9x0.3'))).toBe('undercut-unknown');
  expect(code(readUndercut('X1x1'))).toBe('undercut-unknown');
});

test('a relief for a pitch that no table has follows the pitch, without a groove diameter', () => {
  const relief = threadRelief(value({ ok: true, value: fromInches(1 / 20) }));
  expect(relief.under).toBeNull();
  expect(relief.runout.normal).toBe(fromMm(3.18)); // 2.5 · 1.27, to the hundredth
});

test('bars: the smallest stocked one that is not under', () => {
  expect(barAtOrOver(fromInches(0.6), 'in')?.name).toBe('5/8');
  expect(barAtOrOver(fromInches(0.625), 'in')?.name).toBe('5/8');
  expect(barAtOrOver(fromMm(10.1), 'mm')?.name).toBe('11 mm');
  expect(barAtOrOver(fromInches(4.01), 'in')).toBeNull();
});

test('an unknown material is null, even one that objects have', () => {
  for (const key of ['unobtainium', '', '__proto__', 'constructor']) expect(material(key)).toBeNull();
  expect(material('silver-steel')).toBe(material('drill-rod'));
});

test('no text makes a reader throw', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 80 }), (text) => {
      for (const read of [readDrill, readCentreDrill, readTaper, readBearing, readUndercut, readFitPair])
        read(text);
      fitDeviations(fromMm(10), text);
      generalClass(text);
    }),
    { numRuns: 1000 },
  );
});
