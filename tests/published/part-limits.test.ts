import { describe, expect, test } from 'vitest';
import { resolvePart } from '../../src/core/part/resolve.ts';
import { pin } from '../core/part/samples.ts';
import { cell, need, readCsv, type Row } from './standards/csv.ts';

/** Limits of the outside diameter and of what runs on it, in micrometres about the nominal. */
function limitsOf(segment: object, general: object = {}) {
  const part = resolvePart(pin([{ form: 'cylinder', ...segment }], { unit: 'mm', general }));
  expect(part.errors).toEqual([]);
  const [one] = part.segments;
  if (one?.form !== 'cylinder' || !one.diameter) throw new Error('no cylinder');
  const { nominal, min, max } = one.diameter;
  const about = (length: number) => (length - nominal) / 1e6;
  return {
    min: about(min),
    max: about(max),
    mate: one.mate && { min: about(one.mate.min), max: about(one.mate.max) },
  };
}

/** A size in the middle of a step, and its upper bound, which belongs to it. */
const sizes = (row: Row): string[] => [
  String((need(row, 'over_mm') + need(row, 'up_to_mm')) / 2),
  String(need(row, 'up_to_mm')),
];

// ISO 286-2, limits of shafts and holes as printed in published tables that agree.
const shafts = readCsv('iso286-shaft-limits').filter((row) => cell(row, 'provenance') === 'published');
const holes = readCsv('iso286-hole-limits').filter((row) => cell(row, 'provenance') === 'published');
// ISO 2768-1, table 1.
const general = readCsv('iso2768-linear').filter((row) => cell(row, 'tol_plus_minus_mm') !== '');

describe('a class of fit on a part has the limits of the published tables', () => {
  test.each(shafts.map((row) => [cell(row, 'class'), need(row, 'over_mm'), row] as const))(
    '%s over %d mm',
    (fit, _, row) => {
      for (const size of sizes(row)) {
        const expected = { min: need(row, 'ei_um'), max: need(row, 'es_um') };
        expect(limitsOf({ diameter: { size, tol: fit } })).toMatchObject(expected);
        expect(limitsOf({ diameter: `Ø${size} ${fit}` })).toMatchObject(expected);
      }
    },
  );

  test.each(holes.map((row) => [cell(row, 'class'), need(row, 'over_mm'), row] as const))(
    '%s over %d mm, as a mate',
    (fit, _, row) => {
      for (const size of sizes(row)) {
        const { mate } = limitsOf({ diameter: { size, tol: '±0' }, mate: { bore: `${size} ${fit}` } });
        expect(mate).toEqual({ min: need(row, 'EI_um'), max: need(row, 'ES_um') });
      }
    },
  );
});

test.each(general.map((row) => [cell(row, 'class'), need(row, 'over_mm'), row] as const))(
  'ISO 2768 %s over %d mm, on diameters and lengths alike',
  (cls, _, row) => {
    const rule = { rule: 'iso2768', class: cls };
    const half = need(row, 'tol_plus_minus_mm');
    for (const size of sizes(row)) {
      const diameter = limitsOf({ diameter: size }, { diameters: rule });
      expect([diameter.min, diameter.max]).toEqual([-1000 * half, 1000 * half]);
      const lengths = [{ id: 'L1', from: 'A', to: 'B', size }];
      const part = resolvePart(pin(['1'], { unit: 'mm', lengths, general: { lengths: rule } }));
      const { min, max } = part.lengths[0]?.size ?? { min: 0, max: 0 };
      expect((max - min) / 1e9).toBe(2 * half);
    }
  },
);

test('the tables are there', () => {
  expect([shafts.length > 50, holes.length > 20, general.length > 20]).toEqual([true, true, true]);
});
