import { describe, expect, test } from 'vitest';
import { fromMm, pm } from '../../../src/core/lengths/length.ts';
import { seatClasses, seatFit } from '../../../src/core/standards/bearing-seats.ts';
import { boreTolerance } from '../../../src/core/standards/bearing-table.ts';
import { allBearings, readBearing } from '../../../src/core/standards/bearings.ts';
import { cell, figure, need, readCsv } from './csv.ts';

// Source: bearing size charts (6000, 6200), a page on miniature bearings, a page on R4; rows from memory are marked.
// ISO 492 Normal: a bearing catalogue, p. 40, a handbook table 5.1 and tables of resultant fits. Seats: two handbooks.

const um = (count: number) => pm(Math.round(count * 1_000_000));
const rows = readCsv('bearings');

test('the table has the rows of the reference and no other', () => {
  expect(allBearings().map(({ designation }) => designation)).toEqual(
    rows.map((row) => cell(row, 'designation')),
  );
});

describe.each(rows.map((row) => [cell(row, 'designation'), row] as const))('%s', (designation, row) => {
  const read = readBearing(designation);
  if (!read.ok) throw new Error(read.problem.say);
  const bearing = read.value;
  const inch = designation.startsWith('R');
  test(`boundary dimensions, ${cell(row, 'provenance')}`, () => {
    // Inch widths are printed to 0.0001 in.
    const within = inch ? fromMm(0.0001) : 0;
    expect(bearing.bore.max).toBe(fromMm(need(row, 'bore_mm')));
    expect(bearing.outside).toBe(fromMm(need(row, 'outside_mm')));
    expect(Math.abs(bearing.width - fromMm(need(row, 'width_mm')))).toBeLessThanOrEqual(within);
    expect(bearing.provenance).toBe(inch ? 'memory' : cell(row, 'provenance'));
  });
  const under = figure(row, 'bore_dev_lower_um_normal');
  if (under !== null) {
    test('bore limits of class Normal', () =>
      expect(bearing.bore.min).toBe(pm(bearing.bore.max + um(under))));
  }
  // Bore codes of ISO 15: 00 to 03 are 10, 12, 15 and 17 mm, 04 and up five times the code; one digit is the bore.
  test('the number says the bore', () => {
    if (inch) return;
    const code = Number(designation.slice(-2));
    const bore =
      designation.length === 3 ? Number(designation.slice(-1)) : ([10, 12, 15, 17][code] ?? 5 * code);
    expect(bearing.bore.max).toBe(fromMm(bore));
  });
});

// ISO 15 and ISO 582 step the least chamfers 0.15, 0.2, 0.3, 0.6, 1, 1.1 mm; from memory, so only softly: a chamfer is one
// of them, takes under a fifth of the ring's height, and does not shrink as a series grows.
test('corner chamfers, from memory', () => {
  for (const series of ['62', '60']) {
    let last = 0;
    const own = allBearings().filter(({ designation: d }) => d.startsWith(series) && d !== '608');
    for (const { designation, chamfer, chamferFrom, outside, bore } of own) {
      expect(chamferFrom).toBe('memory');
      expect([0.15, 0.2, 0.3, 0.6, 1, 1.1].map(fromMm)).toContain(chamfer);
      expect(chamfer ?? 0, designation).toBeLessThan((outside - bore.max) / 10);
      expect(chamfer ?? 0, designation).toBeGreaterThanOrEqual(last);
      last = chamfer ?? 0;
    }
  }
  expect(
    allBearings()
      .filter(({ chamfer }) => chamfer === null)
      .map(({ designation }) => designation),
  ).toEqual(rows.map((row) => cell(row, 'designation')).filter((d) => d.startsWith('R')));
});

test.each(
  readCsv('bearing-bore-tolerance').map(
    (row) => [need(row, 'bore_over_mm'), need(row, 'bore_up_to_mm'), row] as const,
  ),
)('bore tolerance over %d to %d mm', (over, upTo, row) => {
  const at = (mm: number) => boreTolerance.find((step) => mm <= step.upTo)?.lowerMicrometres;
  expect([at(over + 0.001), at(upTo)]).toEqual([need(row, 'lower_um'), need(row, 'lower_um')]);
});

const loads: Readonly<Record<string, string>> = {
  'light (P < 0.06 C)': 'light',
  'normal (0.06 C to 0.13 C)': 'normal',
  'easy axial displacement wanted': 'slides',
  'must be easily axially displaceable': 'slides',
  'axial displacement not needed': 'fixed',
  'need not be easily displaceable': 'fixed',
};
const seats = readCsv('bearing-seat-classes');
test.each(
  seats.map((row) => [cell(row, 'source'), cell(row, 'load'), cell(row, 'bore_up_to_mm'), row] as const),
)('seat by handbook %s: %s, bore to %s mm', (handbook, written, upTo, row) => {
  const load = loads[written] ?? written;
  const innerRing = cell(row, 'load_direction').startsWith('rotating') ? 'turning' : 'standing';
  const classes = cell(row, 'shaft_class').match(/[a-z]+\d/g);
  const sizes = [pm(fromMm(figure(row, 'bore_over_mm') ?? 0) + 1), fromMm(upTo === '' ? 120 : Number(upTo))];
  for (const bore of sizes) {
    const own = seatClasses(bore).filter(
      (s) => s.handbook === handbook && s.load === load && s.innerRing === innerRing,
    );
    expect(own.map((s) => [...s.classes].sort())).toEqual([[...(classes ?? [])].sort()]);
  }
});

describe('resultant fits', () => {
  const fits = readCsv('bearing-resultant-fits');
  test('the table is whole', () => expect(fits).toHaveLength(80));
  test.each(
    fits.map((row) => [cell(row, 'shaft_class'), cell(row, 'over_mm'), cell(row, 'up_to_mm'), row] as const),
  )('%s over %s to %s mm', (cls, _over, upTo, row) => {
    const max = fromMm(Number(upTo));
    const under = boreTolerance.find((step) => Number(upTo) <= step.upTo)?.lowerMicrometres ?? NaN;
    const fit = seatFit({ bore: { min: pm(max + um(under)), max } }, cls);
    // js5 is tabled with halves rounded to a micrometre.
    const near = (found: number, expected: number) =>
      expect(Math.abs(found - um(expected))).toBeLessThanOrEqual(cls.startsWith('js') ? um(0.5) : 0);
    if (!fit.ok) throw new Error(fit.problem.say);
    near(fit.value.min, need(row, 'max_interference_um_table'));
    near(fit.value.max, need(row, 'max_clearance_um_table'));
  });
});
