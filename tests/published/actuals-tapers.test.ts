import { describe, expect, test } from 'vitest';
import { bandCheck, taperCheck } from '../../src/core/actuals/taper-check.ts';
import { fromInches, fromMm, type Length, minus, nearest, pm, toMm } from '../../src/core/lengths/length.ts';
import { cell, need, readCsv } from './standards/csv.ts';

// Source of the tables: published dimensions and angles of standard tapers, and compound settings with tapers per unit;
// see tests/published/standards/tapers.test.ts for where they come from.
const morse = readCsv('tapers').filter((row) => cell(row, 'name').startsWith('Morse'));
const compounds = readCsv('compound-settings').filter((row) =>
  cell(row, 'published_value').endsWith(' in/in'),
);
test('there are rows to hold it against', () => {
  expect(morse.length).toBeGreaterThan(5);
  expect(compounds.length).toBeGreaterThan(5);
});

const plug = (row: (typeof morse)[number]) => ({
  small: fromInches(need(row, 'small_dia_in')),
  large: fromInches(need(row, 'large_dia_in')),
  length: fromInches(need(row, 'length_in')),
});

describe.each(morse.map((row) => [cell(row, 'name'), row] as const))('%s', (_, row) => {
  const aim = plug(row);

  test('cut as it is published, its ends tell the published half angle, and nothing is to correct', () => {
    const check = taperCheck(aim, { small: aim.small, large: aim.large, apart: aim.length, smallAt: pm(0) });
    // Diameters are printed to a ten-thousandth: over two inches that is some thousandths of a degree.
    expect(check?.cutDeg).toBeCloseTo(need(row, 'half_angle_deg_table'), 2);
    expect(check).toMatchObject({ correctionDeg: 0, leftAtSmall: 0, leftAtLarge: 0, left: 0, spoiltBy: 0 });
  });

  test('an inch apart, diameters differ by a twelfth of the taper per foot', () => {
    const rise = need(row, 'taper_per_foot_in') / 12;
    const small = aim.small;
    const check = taperCheck(aim, {
      small,
      large: nearest(small + fromInches(rise)),
      apart: fromInches(1),
      smallAt: pm(0),
    });
    expect(check?.cutDeg).toBeCloseTo(need(row, 'half_angle_deg_formula'), 4);
  });
});

test.each(compounds.map((row) => [need(row, 'compound_from_axis_deg'), row] as const))(
  'the compound at %d° cuts the published taper per unit',
  (degrees, row) => {
    const [figure = ''] = cell(row, 'published_value').split(' ');
    const aim = { small: fromMm(20), large: fromMm(21), length: fromMm(10) };
    const check = taperCheck(aim, {
      small: fromMm(20),
      large: fromMm(20 + 10 * Number(figure)),
      apart: fromMm(10),
      smallAt: pm(0),
    });
    // Printed to five places; a unit in the last is .0003° at these angles.
    expect(Math.abs((check?.cutDeg ?? 0) - degrees)).toBeLessThan(0.001);
  },
);

describe('worked by hand, source: arithmetic on D − d = 2 L tan α', () => {
  // 1:10 over 50 mm, 20 to 25: α = atan(.05) = 2.86241°.
  const aim = { small: fromMm(20), large: fromMm(25), length: fromMm(50) };
  const measured = (small: number, large: number, apart: number, smallAt: number) =>
    taperCheck(aim, {
      small: fromMm(small),
      large: fromMm(large),
      apart: fromMm(apart),
      smallAt: fromMm(smallAt),
    });
  const mm = (length: Length | undefined) => (length === undefined ? null : toMm(length));

  test('too shallow: 20.6 and 24.4 over 40 mm is atan(3.8 / 80) = 2.71951°, to be swung .14290° steeper', () => {
    const check = measured(20.6, 24.4, 40, 0);
    expect(check?.cutDeg).toBeCloseTo(2.71951, 4);
    expect(check?.correctionDeg).toBeCloseTo(0.1429, 4);
    // At the small end .6 over 20; at 40 mm the aim is 24, .4 over.
    expect([mm(check?.leftAtSmall), mm(check?.leftAtLarge), mm(check?.left)]).toEqual([0.6, 0.4, 0.6]);
  });

  test('measured away from the small end: 5 mm along the aim is 20.5', () => {
    const check = measured(20.8, 23.8, 30, 5); // the aims are 20.5 and 23.5: .3 over at both, the angle is right
    expect(check?.correctionDeg).toBeCloseTo(0, 9);
    expect([mm(check?.leftAtSmall), mm(check?.leftAtLarge)]).toEqual([0.3, 0.3]);
  });

  test('too steep, and too deep at the small end: 19.9 is .1 under 20', () => {
    const check = measured(19.9, 25.1, 50, 0);
    expect(check?.correctionDeg).toBeLessThan(0);
    expect(mm(check?.spoiltBy)).toBe(0.1);
  });

  test('a correction of .14290° moves the far end of 100 mm by 100 sin .14290° = .24941 mm', () => {
    const swing = measured(20.6, 24.4, 40, 0)?.swing(fromMm(100));
    expect(mm(swing)).toBeCloseTo(0.24941, 4);
  });

  test('a band of 5 mm of 50 left at the large end: atan(5 / 90) = 3.17983°, .31742° too steep', () => {
    const check = bandCheck(aim, fromMm(5), pm(0));
    expect(check?.finding).toBe('too steep');
    expect(check?.cutDeg).toBeCloseTo(3.17983, 4);
    expect(check?.correctionDeg).toBeCloseTo(-0.31742, 4);
  });

  test('no band, and .2 left at the small end: atan(4.8 / 100) = 2.74808°, .11432° too shallow', () => {
    const check = bandCheck(aim, pm(0), fromMm(0.2));
    expect(check?.finding).toBe('too shallow');
    expect(check?.cutDeg).toBeCloseTo(2.74808, 4);
    expect(check?.correctionDeg).toBeCloseTo(0.11432, 4);
  });

  test('no band and at size is right', () => expect(bandCheck(aim, pm(0), pm(0))?.finding).toBe('right'));

  test('a band and two diameters of one and the same cut agree', () => {
    // Cut with 5 mm of band, the cone reaches 25 at 45 mm: measured 10 mm apart it rises 10 · 5 / 45.
    const rise = nearest((10 * 5e9) / 45);
    const byDiameters = taperCheck(aim, {
      small: aim.small,
      large: pm(aim.small + rise),
      apart: fromMm(10),
      smallAt: pm(0),
    });
    expect(byDiameters?.cutDeg).toBeCloseTo(bandCheck(aim, fromMm(5), pm(0))?.cutDeg ?? 0, 8);
  });

  test.each([
    ['nothing apart', measured(20, 25, 0, 0)],
    [
      'no taper to aim at',
      taperCheck({ ...aim, large: aim.small }, { ...aim, apart: aim.length, smallAt: pm(0) }),
    ],
    ['a band as long as the taper', bandCheck(aim, aim.length, pm(0))],
    ['a small end larger than the large one', bandCheck(aim, pm(0), minus(aim.large, fromMm(19)))],
  ])('%s tells nothing', (_, check) => expect(check).toBeNull());
});
