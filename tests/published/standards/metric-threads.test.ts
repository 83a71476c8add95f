import { describe, expect, test } from 'vitest';
import { fromMm, pm } from '../../../src/core/lengths/length.ts';
import type { Length } from '../../../src/core/lengths/length.ts';
import { threadFacts } from '../../../src/core/standards/thread-facts.ts';
import { readThread } from '../../../src/core/standards/threads.ts';
import { cell, figure, need, readCsv } from './csv.ts';

// Source: ISO 261, 724 and 965 read in a tap maker's catalogue (2016, p. 795), a thread table (p. 711, 6g to M6), a page
// of ISO 965-4 tolerances (M10 to M64) and a supply catalogue (p. 782, 6H minor diameters). Tap drills: a core-hole
// page, a trainee handbook's appendix and three more pages.

const micrometre = fromMm(0.001);
const rows = readCsv('metric-threads');
const read = (text: string) => {
  const outcome = readThread(text);
  if (!outcome.ok) throw new Error(outcome.problem.say);
  const facts = threadFacts(outcome.value);
  if (!facts) throw new Error(`no facts for ${text}`);
  return { spec: outcome.value, facts };
};
const near = (found: Length | null, mm: number, within: number): void => {
  expect(Math.abs((found ?? NaN) - fromMm(mm))).toBeLessThanOrEqual(within);
};
const isClose = (found: number, expected: number, share: number): void => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(share * Math.abs(expected) + 1.5);
};

test('the table holds every row of the reference', () => {
  expect(rows).toHaveLength(47);
});

describe.each(rows.map((row) => [cell(row, 'designation'), row] as const))('%s', (designation, row) => {
  const { spec, facts } = read(designation);
  const [d, p] = [need(row, 'major_mm'), need(row, 'pitch_mm')];

  test('basic sizes are exact, and the profile gives the tables', () => {
    expect([spec.nominal, spec.pitch]).toEqual([fromMm(d), fromMm(p)]);
    expect(spec.designation).toBe(`M${d}x${p}`);
    for (const column of ['formula', 'table']) {
      // d - 0.6495 P is printed as 7.188 and 10.863 where the exact figure rounds the other way: a whole micrometre.
      const pitch = figure(row, `pd_${column}`);
      const minor = figure(row, `int_minor_D1_${column}`);
      const root = figure(row, `ext_minor_d3_${column}`);
      if (pitch !== null) near(facts.pitchDiameter, pitch, micrometre);
      if (minor !== null) near(facts.minor, minor, micrometre);
      if (root !== null) near(spec.minor, root, micrometre);
    }
  });

  const firm = cell(row, 'provenance_6g') !== 'memory';
  test(`limits of 6g are as in the reference, ${firm ? 'firm' : 'from memory and marked so'}`, () => {
    expect(facts.external.origin.provenance).toBe(cell(row, 'provenance_6g'));
    expect(facts.external.major).toEqual(spec.major);
    // From memory: compared to a tenth of the tolerance only.
    const within = firm ? 0 : (need(row, 'major_max_6g') - need(row, 'major_min_6g')) * 0.1 * 1e9;
    near(spec.major?.max ?? null, need(row, 'major_max_6g'), within);
    near(spec.major?.min ?? null, need(row, 'major_min_6g'), within);
    near(facts.external.pitch.max, need(row, 'pd_max_6g'), within);
    near(facts.external.pitch.min, need(row, 'pd_min_6g'), within);
  });

  test('limits of 6H are as published, where they are', () => {
    const [pitch, minor] = [figure(row, 'pd_max_6H'), figure(row, 'minor_D1_max_6H')];
    expect(facts.internal.pitch.max).toBe(pitch === null ? null : fromMm(pitch));
    expect(facts.internal.minor.max).toBe(minor === null ? null : fromMm(minor));
  });

  // ISO 965-1: es = -(15 + 11 P) µm, Td = 180 ∛P² - 3.15 / √P, Td2 = 90 P^0.4 d^0.1 (d the geometric mean of the ISO 965
  // diameter step, here the nominal), all rounded to preferred numbers; P = 0.75 leaves Td by 6 to 7 %.
  test('the formulas of the standard give 6g within their rounding', () => {
    const es = (spec.major?.max ?? 0) - spec.nominal;
    isClose(es / micrometre, -(15 + 11 * p), 0.06);
    isClose(
      ((spec.major?.max ?? 0) - (spec.major?.min ?? 0)) / micrometre,
      180 * Math.cbrt(p * p) - 3.15 / Math.sqrt(p),
      p === 0.75 ? 0.08 : 0.06,
    );
    isClose(
      ((facts.external.pitch.max ?? 0) - (facts.external.pitch.min ?? 0)) / micrometre,
      90 * p ** 0.4 * d ** 0.1,
      0.08,
    );
    expect(es).toBe(pm(need(row, 'es_6g_um') * micrometre));
    expect(
      (facts.external.pitch.max ?? 0) - fromMm(Math.round((d - 0.649519 * p) * 1000) / 1000),
    ).toBeCloseTo(es, -7);
  });

  test('the usual tap drill is the tabled one; the tabled alternative is offered', () => {
    expect(spec.tapDrill?.diameter).toBe(fromMm(need(row, 'tap_drill_mm')));
    const alternative = figure(row, 'tap_drill_alternative_mm');
    const offered = facts.tapDrills.map(({ diameter }) => diameter);
    if (alternative !== null) expect(offered).toContain(fromMm(alternative));
    expect(facts.drillOrigin?.provenance).toBe(cell(row, 'prov_tap_drill'));
    // Nominal less pitch, the rule of thumb, within a tenth of a millimetre.
    near(spec.tapDrill?.diameter ?? null, d - p, fromMm(0.1) + 1);
  });

  // Blank for a die: 0.1 to 0.2 pitch under the nominal; common practice, no source.
  test('the blank lies between 0.9 and 1 of the nominal and within the class', () => {
    expect(spec.blank).toBeGreaterThan(0.9 * spec.nominal);
    expect((spec.nominal - spec.blank) / spec.pitch).toBeGreaterThan(0.1);
    expect((spec.nominal - spec.blank) / spec.pitch).toBeLessThan(0.2);
    expect(spec.blank).toBeGreaterThanOrEqual(spec.major?.min ?? NaN);
    expect(spec.blank).toBeLessThanOrEqual(spec.major?.max ?? NaN);
  });
});

// Rod diameters for external threads cut by die, a published table (first rows only).
test.each([
  ['M2', 1.93, 1.95],
  ['M2.5', 2.43, 2.45],
  ['M3', 2.89, 2.94],
] as const)('blank of %s as published', (text, least, most) => {
  const { blank } = read(text).spec;
  expect(blank).toBeGreaterThanOrEqual(fromMm(least));
  expect(blank).toBeLessThanOrEqual(fromMm(most));
});

// Percentages by 1.299 P, the workshop's convention; arithmetic.
test.each([
  ['M3', 77.0],
  ['M4', 77.0],
  ['M5', 77.0],
  ['M6', 77.0],
  ['M8', 73.9],
  ['M10', 77.0],
  ['M12', 79.2],
] as const)('percentage of thread of the usual drill of %s', (text, percent) => {
  expect(read(text).facts.tapDrills[0]?.percent).toBeCloseTo(percent, 1);
});
