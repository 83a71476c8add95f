// Fits on the way that a part file takes: the diameter and its mate as texts, resolved, and the clearance of the diameter's row.
// Resultant fits: published tables of a rolling-bearing catalogue, bores by ISO 492 Normal. Holes and shafts: ISO 286-2.
import { describe, expect, test } from 'vitest';
import { solveChains } from '../../src/core/chains/solve.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import { diameterRows } from '../../src/core/stacks/diameters.ts';
import { pin } from '../core/part/samples.ts';
import { cell, need, readCsv } from './standards/csv.ts';

/** Clearance in micrometres, least and largest; negative is interference. */
function clearance(diameter: string, bore: string): [least: number, largest: number] {
  const lengths = [{ id: 'L1', from: 'A', to: 'B', size: '10' }];
  const part = resolvePart(pin([{ form: 'cylinder', diameter, mate: { bore } }], { unit: 'mm', lengths }));
  expect(part.errors).toEqual([]);
  const fit = diameterRows(part, solveChains(part))[0]?.fit;
  if (!fit) throw new Error(`no fit for ${diameter} in ${bore}`);
  return [1000 * fit.clearance_min_mm, 1000 * fit.clearance_max_mm];
}

describe('shafts in holes', () => {
  const published = (name: string) => readCsv(name).filter((row) => cell(row, 'provenance') === 'published');
  const shafts = published('iso286-shaft-limits');
  const pairs = published('iso286-hole-limits').flatMap((hole) =>
    shafts
      .filter((shaft) => need(shaft, 'over_mm') === need(hole, 'over_mm'))
      .map(
        (shaft) =>
          [`${cell(hole, 'class')}/${cell(shaft, 'class')}`, need(hole, 'over_mm'), hole, shaft] as const,
      ),
  );
  test('there are pairs to try', () => expect(pairs.length).toBeGreaterThan(500));
  // The least clearance is the hole's lower less the shaft's upper deviation, the largest the other way about.
  test('the clearance of every published pair, by the published limits', () => {
    for (const [name, over, hole, shaft] of pairs) {
      const size = Math.min(need(hole, 'up_to_mm'), need(shaft, 'up_to_mm'));
      const [least, largest] = clearance(`${size} ${cell(shaft, 'class')}`, `${size} ${cell(hole, 'class')}`);
      expect(least, `${name} over ${over}`).toBeCloseTo(need(hole, 'EI_um') - need(shaft, 'es_um'), 6);
      expect(largest, `${name} over ${over}`).toBeCloseTo(need(hole, 'ES_um') - need(shaft, 'ei_um'), 6);
    }
  });
});

describe('seats of bearings', () => {
  const rows = readCsv('bearing-resultant-fits');
  const bores = readCsv('bearing-bore-tolerance');
  test('the table is whole', () => expect(rows).toHaveLength(80));
  test.each(
    rows.map((row) => [cell(row, 'shaft_class'), need(row, 'over_mm'), need(row, 'up_to_mm'), row] as const),
  )('%s over %d to %d mm', (cls, over, upTo, row) => {
    // Steps of the two standards differ up to 3 mm, where ISO 492 has 0.6 to 2.5 and 2.5 to 10.
    for (const size of [over === 0 ? 1 : over + 0.5, upTo]) {
      const step = bores.find(
        (one) => size > need(one, 'bore_over_mm') && size <= need(one, 'bore_up_to_mm'),
      );
      if (!step) throw new Error(`no bore of ${size}`);
      const [least, largest] = clearance(`${size} ${cls}`, `${size} +0/${need(step, 'lower_um') / 1000}`);
      // Half a grade of js5 and js6 is no whole micrometre in every step; the table has some of them rounded.
      const digits = cls.startsWith('js') ? 0.5 : 0;
      expect(Math.abs(least - need(row, 'max_interference_um_table'))).toBeLessThanOrEqual(digits + 1e-6);
      expect(Math.abs(largest - need(row, 'max_clearance_um_table'))).toBeLessThanOrEqual(digits + 1e-6);
    }
  });
});
