import { expect, test } from 'vitest';
import { fromInches, fromMm, pm } from '../../../src/core/lengths/length.ts';
import type { Length } from '../../../src/core/lengths/length.ts';
import { seatClasses } from '../../../src/core/standards/bearing-seats.ts';
import { collets } from '../../../src/core/standards/collets.ts';
import { generalAngle, generalDeviation } from '../../../src/core/standards/iso2768.ts';
import { fitDeviations, toleranceGrade } from '../../../src/core/standards/iso286.ts';
import { ratioOfAngle } from '../../../src/core/standards/taper-angles.ts';
import { threadFacts } from '../../../src/core/standards/thread-facts.ts';
import { threadRelief } from '../../../src/core/standards/thread-reliefs.ts';
import { readThread } from '../../../src/core/standards/threads.ts';
import { readUndercut } from '../../../src/core/standards/undercuts.ts';
import { cell, readCsv } from './csv.ts';

// Where published sources contradict one another, the reference says which is believed, and why the other is a misprint
// or not of the standard. Each row is decided here as it says; a row without a decision fails.

const rows = readCsv('source-disagreements');
const um = (count: number): Length => pm(Math.round(count * 1_000_000));
const grade = (mm: number, n: number, expected: number) => () =>
  expect(toleranceGrade(fromMm(mm), n)).toEqual({ ok: true, value: um(expected) });
const limits = (mm: number, cls: string, upper: number, lower: number) => () =>
  expect(fitDeviations(fromMm(mm), cls)).toEqual({ ok: true, value: { lower: um(lower), upper: um(upper) } });
const all =
  (...checks: readonly (() => void)[]) =>
  () =>
    checks.forEach((check) => check());
const facts = (text: string) => {
  const read = readThread(text);
  const found = read.ok ? threadFacts(read.value) : null;
  if (!read.ok || !found) throw new Error(text);
  return { ...found, spec: read.value };
};
const drill =
  (text: string, name: string, alternatives: readonly string[] = []) =>
  () => {
    const { tapDrills } = facts(text);
    expect(tapDrills[0]?.name).toBe(name);
    expect(tapDrills.map((d) => d.name)).toEqual(expect.arrayContaining([...alternatives]));
  };
const seats = (mm: number, load: string, handbook: string) =>
  seatClasses(fromMm(mm)).filter(
    (s) => s.load === load && s.handbook === handbook && s.innerRing === 'turning',
  );

const decided: Readonly<Record<string, () => void>> = {
  'IT6, 0-3 mm': grade(3, 6, 6),
  'IT7, 0-3 mm': grade(3, 7, 10),
  'IT12, 0-3 mm': grade(3, 12, 100),
  'g, 6-10 mm': limits(8, 'g6', -5, -14),
  'j5/j6 ei, 18-30 mm': all(limits(25, 'j5', 5, -4), limits(25, 'j6', 9, -4)),
  'j5/j6 ei, 30-50 mm': all(limits(40, 'j5', 6, -5), limits(40, 'j6', 11, -5)),
  'f7, 0-3 mm': limits(2, 'f7', -6, -16),
  'f8, 0-3 mm': limits(2, 'f8', -6, -20),
  'h6, 18-30 mm': limits(20, 'h6', 0, -13),
  'h6, 6-10 / 10-18 / 18-30 / 30-50 / 50-80 / 80-120 mm': all(
    limits(10, 'h6', 0, -9),
    limits(18, 'h6', 0, -11),
    limits(30, 'h6', 0, -13),
    limits(50, 'h6', 0, -16),
    limits(80, 'h6', 0, -19),
    limits(120, 'h6', 0, -22),
  ),
  'h7, 18-30 mm': limits(30, 'h7', 0, -21),
  'H8, 3-6 mm': limits(5, 'H8', 18, 0),
  // Either is legal; the exact half is kept.
  'JS7, 6-10 / 18-30 / 30-50 mm': all(
    limits(10, 'JS7', 7.5, -7.5),
    limits(30, 'JS7', 10.5, -10.5),
    limits(50, 'JS7', 12.5, -12.5),
  ),
  '2A limits, all sizes, one quick-quote web chart': () =>
    expect(facts('1/4-20').external.major).toEqual({ max: fromInches(0.2489), min: fromInches(0.2408) }),
  '2B limits, one component-vendor blog chart': () =>
    expect(facts('#1-64').internal.pitch.min).toBe(fromInches(0.0629)),
  '2A pitch dia min, 3/4-10 UNC': () => expect(facts('3/4-10').external.pitch.min).toBe(fromInches(0.6773)),
  // The mixed column is not used: the least pitch diameter is under the basic one and under the greatest.
  'pitch dia column for #12 and for UNEF': () => {
    for (const text of ['#12-24', '#12-28', '1/4-32', '1/2-28', '1-20']) {
      const { external, pitchDiameter } = facts(text);
      expect(external.pitch.min).toBeLessThan(Math.min(pitchDiameter, external.pitch.max ?? 0));
    }
  },
  'minor 2B min, 1/2-13 UNC': () => expect(facts('1/2-13').internal.minor.min).toBe(fromInches(0.417)),
  'minor 2B min, 2-56 UNC': () => expect(facts('2-56').internal.minor.min).toBe(fromInches(0.0667)),
  'PD 2B max, 3-48 UNC': () => expect(facts('3-48').internal.pitch.max).toBe(fromInches(0.0885)),
  'PD 2B max, 9/16-12 UNC': () => expect(facts('9/16-12').internal.pitch.max).toBe(fromInches(0.5152)),
  // The profile, not the handbook's two odd entries.
  'UNR external minor (ref), 3/4-16 and 1-12 UNF': () => {
    expect(Math.abs(facts('3/4-16').spec.minor - fromInches(0.6756))).toBeLessThan(fromInches(0.00006));
    expect(Math.abs(facts('1-12').spec.minor - fromInches(0.9008))).toBeLessThan(fromInches(0.00006));
  },
  'tap drill, 5-40 UNC': drill('5-40', '#38', ['#39']),
  'tap drill, 10-24, 12-24, 1/4-20 and others': all(
    drill('10-24', '#25', ['#26']),
    drill('12-24', '#16', ['11/64']),
    drill('1/4-20', '#7', ['#8']),
  ),
  '2A pitch dia min, #12-32 UNEF': () => expect(facts('#12-32').external.pitch.min).toBeNull(),
  // Both in use, so both are offered; the one by the reference's own row comes first.
  'tap drill M1.6': drill('M1.6', '1.3 mm', ['1.25 mm']),
  'tap drill M2.5': drill('M2.5', '2.1 mm', ['2.05 mm', '2 mm']),
  'tap drill M8, M12': all(drill('M8', '6.8 mm', ['6.75 mm']), drill('M12', '10.2 mm', ['10.25 mm'])),
  'major dia min etc., supplier chart': () => expect(facts('M6').external.major.max).toBe(fromMm(5.974)),
  'minor dia M8': () => expect(Math.abs(facts('M8').minor - fromMm(6.647))).toBeLessThan(fromMm(0.0006)),
  'class c, 0.5-3 and 3-6 mm': () => {
    expect(generalDeviation(fromMm(2), 'c', 'linear')).toBe(fromMm(0.2));
    expect(generalDeviation(fromMm(5), 'c', 'linear')).toBe(fromMm(0.3));
  },
  'class v': () =>
    expect([10, 50, 120, 400, 500].map((mm) => generalAngle(fromMm(mm), 'v'))).toEqual([
      3,
      2,
      1,
      0.5,
      20 / 60,
    ]),
  'taper per inch at 4 deg included': () => expect(ratioOfAngle(4)).toBeCloseTo(0.06984, 5),
  'taper per inch at 15 deg included': () => expect(ratioOfAngle(15)).toBeCloseTo(0.2633, 4),
  'g for 0.8 x 0.3': () => {
    const read = readUndercut('F0.8x0.3');
    expect(read.ok && read.value.faceHeight).toBe(fromMm(2.3));
    expect(read.ok && read.value.provenance).toBe('rule');
  },
  'dg at P = 2.5': () => {
    expect(threadRelief(fromMm(2.5)).under).toBe(fromMm(3.6));
    expect(threadRelief(fromMm(2.5)).origin.provenance).toBe('memory');
  },
  'ER11 minimum': () =>
    expect(collets.find((c) => c.series === 'ER11')).toMatchObject({ min: fromMm(0.5), max: fromMm(7) }),
  '5C largest round': () => {
    expect(collets.find((c) => c.series === '5C')?.max).toBe(fromInches(1.0625));
    expect(collets.find((c) => c.series === '5C, short grip')?.max).toBe(fromInches(1.125));
  },
  'light load, rotating inner ring, bore up to 18 mm': () => {
    expect(seats(10, 'light', 'A').flatMap((s) => s.classes)).toEqual(['js5']);
    expect(seats(10, 'light', 'B').flatMap((s) => s.classes)).toEqual(['h5']);
  },
  'normal load, rotating inner ring, bore up to 18 mm': () => {
    const wide = seats(10, 'normal', 'A').flatMap((s) => s.classes);
    expect(seats(10, 'normal', 'B').flatMap((s) => s.classes)).toEqual(['j5']);
    expect(wide).toContain('j5');
  },
};

test('the reference lists forty', () => expect(rows).toHaveLength(40));

test.each(rows.map((row) => [cell(row, 'table'), cell(row, 'item')] as const))('%s: %s', (_table, item) => {
  const check = decided[item];
  if (!check) throw new Error(`no decision for “${item}”`);
  check();
});
