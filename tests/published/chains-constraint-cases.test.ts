import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { pm, PM_PER } from '../../src/core/lengths/length.ts';
import type { Unit } from '../../src/core/lengths/length.ts';
import { solveChains } from '../../src/core/chains/solve.ts';
import type { ResolvedLength } from '../../src/core/part/resolved.ts';
import { partOf } from '../core/chains/drawing.ts';

type Case = {
  id: string;
  unit: Unit;
  source: string;
  faces: string[];
  lengths: { from: string; to: string; nominal: number; tol: number; reference: boolean }[];
};

const file = new URL('./data/constraint-cases.json', import.meta.url);
const cases: Case[] = JSON.parse(readFileSync(file, 'utf8'));

const exact = (figure: number, unit: Unit) => pm(Math.round(figure * PM_PER[unit]));

/** A case solved; lengths are L1, L2, … in the order given. */
function solve(id: string) {
  const found = cases.find((one) => one.id === id);
  if (!found) throw new Error(`no case ${id}`);
  const { unit, faces } = found;
  const lengths = found.lengths.map(({ from, to, nominal, tol, reference }, index): ResolvedLength => {
    const limits = { min: exact(nominal - tol, unit), max: exact(nominal + tol, unit) };
    const written = {
      text: String(nominal),
      unit,
      decimals: 1,
      fraction: false,
      limitsFrom: 'written',
    } as const;
    return {
      id: `L${index + 1}`,
      index,
      from,
      to,
      size: { nominal: exact(nominal, unit), ...limits, ...written, reference },
    };
  });
  return {
    report: solveChains(partOf(faces, lengths, { unit })).report,
    mm: (figure: number) => exact(figure, unit) / 1e9,
  };
}

describe('constraint cases', () => {
  // DOE-HDBK-1016/2-93, figure 8: four lengths on a chain of three; the steps reach 3.3, the overall stops at 3.1.
  test('D01: the over-dimensioned drawing closes twice; the overall squeezes the steps', () => {
    const { report, mm } = solve('D01');
    expect(report).toMatchObject({
      state: 'doubled',
      doubled: [{ lengths: ['L1', 'L2', 'L3', 'L4'] }],
      clashes: [],
    });
    expect(report.impossible).toBeNull();
    expect(report.spans[0]).toMatchObject({ min_mm: mm(0.9), max_mm: mm(1.1) });
  });

  // DOE-HDBK-1016/2-93: the preferred drawing leaves one step off, which takes up the errors: 1.0 ±0.3.
  test('D02: one step left off is closed, and the step takes up the errors', () => {
    const { report, mm } = solve('D02');
    expect(report).toMatchObject({ state: 'closed', doubled: [] });
    const step = report.spans.find(({ from, to }) => from === 'C' && to === 'D');
    expect(step).toMatchObject({ nominal_mm: mm(1), min_mm: mm(0.7), max_mm: mm(1.3) });
    expect(step?.rss_max_mm).toBeCloseTo(mm(1 + 0.1 * Math.sqrt(3)), 9);
  });

  // ISO 129-1 (auxiliary) and ASME Y14.5 (reference dimension), from memory: brackets bind nothing, their limits are ignored.
  test('D03: a reference overall is computed, 75 ±0.3', () => {
    const { report } = solve('D03');
    expect(report.state).toBe('closed');
    expect(report.spans[0]).toMatchObject({ from: 'A', to: 'D', nominal_mm: 75, min_mm: 74.7, max_mm: 75.3 });
  });

  // Constructed: off by 1.0, all four limits together take up 0.4.
  test('D04: nominals that disagree beyond all limits are impossible', () => {
    const { report } = solve('D04');
    expect(report.clashes).toEqual([{ lengths: ['L1', 'L2', 'L3', 'L4'], gap_mm: 1, within_limits: false }]);
    expect(report.impossible?.short_by_mm).toBe(0.6);
  });

  test('D05: one face is free (constructed)', () => {
    const { report } = solve('D05');
    expect(report).toMatchObject({ state: 'open', groups: [['A', 'B', 'D'], ['C']] });
    expect(report.missing).toHaveLength(1);
    expect(report.stations.C).toEqual({ z_mm: null, aim_mm: null });
  });

  test('D06: the count is right and the rank is not (constructed)', () => {
    const { report } = solve('D06');
    expect(report.state).toBe('open');
    expect(report.groups).toEqual([
      ['A', 'B', 'C'],
      ['D', 'E'],
    ]);
    expect(report.doubled).toEqual([{ lengths: ['L1', 'L2', 'L3'] }]);
  });

  test('D07: a small disagreement that the limits take up is said so (constructed)', () => {
    const { report } = solve('D07');
    expect(report.clashes).toEqual([{ lengths: ['L1', 'L2', 'L3'], gap_mm: 0.05, within_limits: true }]);
    expect(report.impossible).toBeNull();
  });
});
