import { describe, expect, test } from 'vitest';
import { pm } from '../../../src/core/lengths/length.ts';
import { solveChains } from '../../../src/core/chains/solve.ts';
import type { ResolvedPart, ResolvedSegment } from '../../../src/core/part/resolved.ts';
import { diameterRows } from '../../../src/core/stacks/diameters.ts';
import { stackRequirements } from '../../../src/core/stacks/requirements.ts';
import { cylinder, drawing, requirement, sizeOf } from '../chains/drawing.ts';

const rows = (part: ResolvedPart, falls?: ResolvedPart['falls']) =>
  stackRequirements(falls ? { ...part, falls } : part, solveChains(part));
const diameters = (part: ResolvedPart) => diameterRows(part, solveChains(part));

describe('requirements', () => {
  const part = drawing('A B C', ['A-B 10 ±.3', 'B-C 5 ±.4']);
  const wish = (min: number, max: number) => ({
    ...part,
    requirements: [requirement(0, 'A', 'C', min * 1e9, max * 1e9)],
  });

  test('held at worst is held by all; the shares of the variance add up to one', () => {
    expect(rows(wish(14.3, 15.7))).toEqual([
      {
        ...{ id: 'R1', meets_worst: true, meets_rss: true, yield: 1 },
        contributions: [
          { length: 'L1', share: expect.closeTo(0.36, 12) },
          { length: 'L2', share: expect.closeTo(0.64, 12) },
        ],
      },
    ]);
  });

  test('held by root-sum-square only: ±.5 of ±.7', () => {
    expect(rows(wish(14.5, 15.5))[0]).toMatchObject({ meets_worst: false, meets_rss: true });
    expect(rows(wish(14.5, 15.5))[0]?.yield).toBeGreaterThan(0.997);
    expect(rows(wish(14.51, 15.5))[0]).toMatchObject({ meets_rss: false });
  });

  // Two uniform parts of half-width .3 and .4: the share beyond ±.5 is 2 · (.2² / 2) / (.6 · .8) = 1/12.
  test('the chosen distribution decides the yield', () => {
    const uniform: ResolvedPart['falls'] = new Map([
      ['L1', 'uniform' as const],
      ['L2', 'uniform' as const],
    ]);
    expect(rows(wish(14.5, 15.5), uniform)[0]?.yield).toBeCloseTo(11 / 12, 4);
  });

  test('across groups nothing can be said; over a doubled loop only the worst case', () => {
    const open = { ...drawing('A B C', ['A-B 10']), requirements: [requirement(0, 'A', 'C', 0, 1)] };
    expect(rows(open)[0]).toEqual({
      id: 'R1',
      meets_worst: null,
      meets_rss: null,
      yield: null,
      contributions: [],
    });
    const doubled = drawing('A B C', ['A-B 10 ±.3', 'B-C 5 ±.4', 'A-C 15 ±.1']);
    const asked = { ...doubled, requirements: [requirement(0, 'A', 'C', 14.9e9, 15.1e9)] };
    expect(rows(asked)[0]).toMatchObject({ meets_worst: true, meets_rss: null, yield: null });
  });

  // Variance of an even length is half² / 3, of one that rises to its upper limit half² · 2 / 9: .3 and .4 give .03 and .0356.
  test('shares are of the variance as the lengths fall', () => {
    const falls: ResolvedPart['falls'] = new Map([
      ['L1', 'uniform' as const],
      ['L2', 'metal-safe' as const],
    ]);
    const [one, two] = rows(wish(14.5, 15.5), falls)[0]?.contributions ?? [];
    expect(one?.share).toBeCloseTo(0.03 / (0.03 + 0.32 / 9), 9);
    expect(two?.share).toBeCloseTo(0.32 / 9 / (0.03 + 0.32 / 9), 9);
  });

  test('exact lengths have no variance to share', () => {
    const exact = { ...drawing('A B', ['A-B 10']), requirements: [requirement(0, 'A', 'B', 10e9, 10e9)] };
    expect(rows(exact)[0]).toMatchObject({ yield: 1, contributions: [] });
  });
});

describe('diameters', () => {
  const mate = (min: number, max: number) => ({ text: '', min: pm(min * 1e9), max: pm(max * 1e9) });

  // GATE PI 2012 (S07 of data/stack-cases.json): shaft 25 +0.040/+0.010 in hole 25 +0.030/+0.020, interference at most 20 µm.
  test('a fit by its limits: at most 20 µm of interference', () => {
    const shaft = { ...cylinder(0, 'A', 'B', sizeOf('25.040/25.010', 'mm')), mate: mate(25.02, 25.03) };
    expect(diameters(drawing('A B', ['A-B 10'], { segments: [shaft] }))).toEqual([
      {
        ...{ segment: 's1', end: null, min_mm: 25.01, max_mm: 25.04, aim_mm: 25.025 },
        fit: { clearance_min_mm: -0.02, clearance_max_mm: 0.02 },
      },
    ]);
  });

  test('an aim toward the metal side lies a quarter of the limits below the upper one', () => {
    const shaft = { ...cylinder(0, 'A', 'B', sizeOf('25.040/25.000', 'mm')), metalSide: true };
    expect(diameters(drawing('A B', ['A-B 10'], { segments: [shaft] }))[0]).toMatchObject({ aim_mm: 25.03 });
  });

  test('a size that cannot be read gives nulls', () => {
    const shaft = { ...cylinder(0, 'A', 'B'), mate: mate(1, 2) };
    expect(diameters(drawing('A B', ['A-B 10'], { segments: [shaft] }))[0]).toEqual({
      ...{ segment: 's1', end: null, min_mm: null, max_mm: null, aim_mm: null, fit: null },
    });
  });

  const taper = (fields: Partial<Extract<ResolvedSegment, { form: 'taper' }>>): ResolvedSegment => ({
    ...{ id: 's1', index: 0, form: 'taper', left: 'A', right: 'B', role: null, mate: null },
    ...{
      start: null,
      end: null,
      angle: { tan: 1 / 20, ratio: { num: 1, den: 10 }, text: '1:10' },
      large: null,
    },
    ...fields,
  });
  const start = sizeOf('12', 'mm');

  test('one diameter, an angle and a length give the other; the given one is the large one unless said otherwise', () => {
    const lines = ['A-B 20 ±1'];
    const small = diameters(drawing('A B', lines, { segments: [taper({ start })] }));
    expect(small[1]).toMatchObject({ segment: 's1', end: 'end', min_mm: 9.9, max_mm: 10.1, aim_mm: 10 });
    const large = diameters(drawing('A B', lines, { segments: [taper({ start, large: 'end' })] }));
    expect(large[1]).toMatchObject({ min_mm: 13.9, max_mm: 14.1, aim_mm: 14 });
  });

  test('where the length is not known, or nothing would be left, the other diameter is null', () => {
    const open = diameters(drawing('A B C', ['B-C 5'], { segments: [taper({ start })] }));
    expect(open[1]).toMatchObject({ min_mm: null, max_mm: null, aim_mm: null });
    const long = diameters(drawing('A B', ['A-B 130'], { segments: [taper({ start })] }));
    expect(long[1]).toMatchObject({ min_mm: null });
  });
});
