import { expect, test } from 'vitest';
import { resolvePart } from '../../src/core/part/resolve.ts';
import { pin } from '../core/part/samples.ts';
import { cell, need, readCsv } from './standards/csv.ts';

/** The taper of a part whose file says just this. */
function tanOf(angle: object): number {
  const [segment] = resolvePart(pin([{ form: 'taper', start: '1', ...angle }])).segments;
  if (segment?.form !== 'taper' || !segment.angle) throw new Error('no taper');
  return segment.angle.tan;
}

const settings = readCsv('compound-settings').filter((row) => cell(row, 'provenance') === 'published');

// "Turning and boring tapers", 1902, table of degrees to taper per inch, five decimals.
const degrees = settings.filter((row) => cell(row, 'published_value').endsWith('in/in'));
test.each(degrees.map((row) => [need(row, 'included_angle_deg'), parseFloat(cell(row, 'published_value'))]))(
  'an included angle of %d° is a taper of %d inch per inch, as the old table prints it',
  (included, perInch) => {
    expect(Math.abs(2 * tanOf({ included_angle: `${included}°` }) - perInch)).toBeLessThan(1.5e-5);
    expect(Math.abs(2 * tanOf({ half_angle: `${included / 2}°` }) - perInch)).toBeLessThan(1.5e-5);
  },
);

// A machine-shop textbook's table of tapers per foot, included angles in even seconds, which stray from
// 2 atan(T / 24) by up to four.
const perFoot = settings.filter((row) => cell(row, 'published_value').endsWith('included'));
test.each(perFoot.map((row) => [String(need(row, 'taper_per_foot_in')), cell(row, 'published_value')]))(
  'a taper of %s inch per foot is %s',
  (text, printed) => {
    const [deg = 0, min = 0, sec = 0] = [...printed.matchAll(/\d+/g)].map(Number);
    const included = (2 * Math.atan(tanOf({ per_foot: text })) * 180) / Math.PI;
    expect(Math.abs(included * 3600 - (deg * 3600 + min * 60 + sec))).toBeLessThan(4);
  },
);

// Named tapers: inches per foot, and half angles in degrees to four decimals. Where the taper
// has four decimals too, its last half digit is worth .00012° more.
const named = readCsv('tapers').filter((row) => cell(row, 'half_angle_deg_table') !== '');
test.each(
  named.map((row) => [cell(row, 'name'), cell(row, 'taper_per_foot_in'), need(row, 'half_angle_deg_table')]),
)('%s, %s inch per foot, has a half angle of %d°', (_, text, half) => {
  const got = (Math.atan(tanOf({ per_foot: text })) * 180) / Math.PI;
  expect(Math.abs(got - half)).toBeLessThan(1.7e-4);
});

test('the tables are there', () => {
  expect([degrees.length > 8, perFoot.length > 12, named.length > 10]).toEqual([true, true, true]);
});
