import { describe, expect, test } from 'vitest';
import { fromInches, fromMm } from '../../../src/core/lengths/length.ts';
import { centreDrillForWork, readCentreDrill } from '../../../src/core/standards/centre-drills.ts';
import { cell, figure, fraction, need, readCsv } from './csv.ts';

// Source: centre-hole diameters of ISO 6411 and DIN 332-1 (published, 1 to 6.3 and 10 mm); ANSI B94.11M sizes and the
// bodies of ISO 866 are from memory and marked so. Guideline by shaft diameter: a published table (metric), memory (inch).

const rows = readCsv('centre-drills');

describe.each(rows.map((row) => [cell(row, 'designation'), row] as const))('%s', (designation, row) => {
  const read = readCentreDrill(designation);
  if (!read.ok) throw new Error(read.problem.say);
  const drill = read.value;

  test('the whole of it is marked as from memory where its body is', () => {
    expect(drill.designation).toBe(designation);
    expect(drill.provenance).toBe('memory');
  });

  test('pilot and body, from memory: within the rounding of the reference', () => {
    expect(Math.abs(drill.pilot - fromMm(need(row, 'drill_mm')))).toBeLessThanOrEqual(fromMm(0.001));
    expect(Math.abs(drill.body - fromMm(need(row, 'body_mm')))).toBeLessThanOrEqual(fromMm(0.001));
  });

  const mouth = figure(row, 'centre_hole_countersink_dia_mm');
  if (mouth !== null && row['prov_centre_hole'] === 'published') {
    test('the centre hole is as published', () => expect(drill.mouth).toBe(fromMm(mouth)));
  }
  // ISO 6411: the centre hole is about 2.12 pilots wide; the inch series by practice two pilots. From memory.
  test('the mouth is about two pilots wide and within the body', () => {
    expect(drill.mouth / drill.pilot).toBeGreaterThanOrEqual(2);
    expect(drill.mouth / drill.pilot).toBeLessThan(2.15);
    expect(drill.mouth).toBeLessThan(drill.body);
  });
});

describe('the drill for a diameter of work', () => {
  const guide = readCsv('centre-drill-for-work').filter((row) => row['unit'] === 'mm');
  test('the guideline is whole', () => expect(guide).toHaveLength(8));
  test.each(guide.map((row) => [cell(row, 'work_dia_to') || '200', row] as const))(
    'at %s mm as published',
    (to, row) => {
      const drill = centreDrillForWork(fromMm(Number(to)), 'mm');
      expect(drill.pilot).toBe(fromMm(need(row, 'drill_dia_d1')));
      expect(drill.mouth).toBe(fromMm(need(row, 'centre_hole_dia_d2')));
    },
  );

  const inch = readCsv('centre-drill-for-work').filter((row) => row['unit'] === 'in');
  test.each(inch.map((row) => [cell(row, 'work_dia_to'), row] as const))(
    'at %s in not over the centre hole of practice, and half of it at least; from memory',
    (to, row) => {
      const most = fromInches(fraction(cell(row, 'centre_hole_dia_d2')));
      const { mouth } = centreDrillForWork(fromInches(fraction(to)), 'in');
      expect(mouth).toBeLessThanOrEqual(most);
      expect(mouth).toBeGreaterThan(most / 2);
    },
  );
});
