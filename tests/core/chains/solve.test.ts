import { describe, expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import type { ResolvedPart, ResolvedSegment } from '../../../src/core/part/resolved.ts';
import { cylinder, drawing, requirement, sizeOf } from './drawing.ts';

const solve = (part: ResolvedPart) => solveChains(part).report;
const codes = (part: ResolvedPart) => solveChains(part).errors.map(({ code, where }) => `${code} ${where}`);
const z = (part: ResolvedPart) =>
  Object.entries(solve(part).stations).map(([id, s]) => [id, s.z_mm, s.aim_mm]);

describe('open, closed and doubled', () => {
  test('a tree of lengths is closed, its places count from the first face and its aims are at mid-limits', () => {
    const part = drawing('A B C', ['A-C 20 +0/-.2', 'B-C 8 ±.1']);
    expect(solve(part).state).toBe('closed');
    expect(z(part)).toEqual([
      ['A', 0, 0],
      ['B', 12, 11.9],
      ['C', 20, 19.9],
    ]);
    expect(solveChains(part)).toMatchObject({ placeable: true, errors: [], warnings: [] });
  });

  test('what hangs in two is open, and the missing length lies between neighbours', () => {
    const part = drawing('A B C D', ['A-C 20', 'B-D 18']);
    expect(solve(part)).toMatchObject({
      state: 'open',
      groups: [
        ['A', 'C'],
        ['B', 'D'],
      ],
      missing: [{ between: ['A', 'B'] }],
    });
    expect(z(part).slice(1)).toEqual([
      ['B', null, null],
      ['C', 20, 20],
      ['D', null, null],
    ]);
    expect(codes(part)).toEqual(['open A']);
  });

  test('a loose point wants a length to the nearest face as sketched, from the left', () => {
    const sketched = { A: 0, B: 10, C: 30, p: 28 };
    const part = drawing('A B C', ['A-B 10', 'B-C 20'], { points: 'p', sketched });
    expect(solve(part).missing.map(({ between }) => between)).toEqual([['p', 'C']]);
    expect(solve(part).groups).toEqual([['A', 'B', 'C'], ['p']]);
  });

  test('points stand in their group where they were sketched', () => {
    const sketched = { A: 0, B: 10, C: 30, p: 8, q: 12 };
    const part = drawing('A B C', ['A-B 10', 'B-C 20', 'q-C 18', 'A-p 8'], { points: 'q p', sketched });
    expect(solve(part).groups).toEqual([['A', 'p', 'B', 'q', 'C']]);
  });

  test('a length too many that agrees is doubled, and the tightest limits place the faces', () => {
    const part = drawing('A B C', ['A-B 10 ±.5', 'B-C 10 ±.1', 'A-C 20 ±.1']);
    expect(solve(part)).toMatchObject({ state: 'doubled', doubled: [{ lengths: ['L1', 'L2', 'L3'] }] });
    expect(solve(part).spans[0]).toMatchObject({
      from: 'A',
      to: 'B',
      min_mm: 9.8,
      max_mm: 10.2,
      rss_min_mm: null,
    });
    expect(solveChains(part).placeable).toBe(true);
  });

  test('a part without faces, or with one, is solved and not placeable', () => {
    expect(solveChains(drawing('A', []))).toMatchObject({ placeable: false, report: { groups: [['A']] } });
    expect(solveChains({ ...drawing('A', []), faces: [] })).toMatchObject({
      placeable: false,
      report: { groups: [] },
    });
  });

  test('stations named after parts of a prototype are stations', () => {
    const part = drawing('__proto__ constructor toString', [
      '__proto__-constructor 10',
      'constructor-toString 5',
    ]);
    expect(JSON.parse(JSON.stringify(solve(part))).stations.toString).toEqual({ z_mm: 15, aim_mm: 15 });
    expect(Object.keys(solve(part).stations)).toEqual(['__proto__', 'constructor', 'toString']);
    expect(JSON.stringify(solve(part).stations)).toContain('"__proto__":{"z_mm":0,"aim_mm":0}');
  });
});

describe('clashes', () => {
  test('a loop that misses is a clash with its exact gap; what hangs on it has no place, what does not has', () => {
    const part = drawing('A B C D', ['A-B 10', 'B-C 20.001', 'A-C 30', 'C-D 5']);
    expect(solve(part).clashes).toEqual([
      { lengths: ['L1', 'L2', 'L3'], gap_mm: 0.001, within_limits: false },
    ]);
    expect(z(part).map(([, place]) => place)).toEqual([0, null, null, null]);
    const before = drawing('A B C D', ['A-B 5', 'B-C 10', 'C-D 20.001', 'B-D 30']);
    expect(z(before).map(([, place]) => place)).toEqual([0, 5, null, null]);
  });

  test('limits that can take the gap up are said so, and the spans use them', () => {
    const part = drawing('A B C', ['A-B 20 ±.1', 'B-C 30.05 ±.1', 'A-C 50 ±.1']);
    expect(solve(part).clashes[0]).toMatchObject({ gap_mm: 0.05, within_limits: true });
    expect(solve(part).impossible).toBeNull();
    expect(solve(part).spans[0]).toMatchObject({ nominal_mm: null, min_mm: 19.9, max_mm: 20.1 });
    expect(codes(part)).toEqual(['clashing L2']);
  });

  test('a clash beyond its limits is impossible, and the loop is the proof', () => {
    const part = drawing('A B C', ['A-B 20 ±.1', 'B-C 31 ±.1', 'A-C 50 ±.1']);
    expect(solve(part).impossible).toEqual({
      lengths: ['L1', 'L2', 'L3'],
      faces: ['A', 'B', 'C'],
      short_by_mm: 0.7,
    });
    expect(solveChains(part).span('A', 'B')).toBeNull();
  });

  test('loops that agree at nominal can still be impossible by limits that leave the nominal out', () => {
    const part = drawing('A B C', ['A-B 25 +.04/+.01', 'B-C 25 +.04/+.01', 'A-C 50 ±.001']);
    expect(solve(part)).toMatchObject({ state: 'doubled', impossible: { short_by_mm: 0.019 } });
    expect(codes(part)).toEqual(['impossible L1']);
  });

  test('of two loops that share a length, each is shown at its shortest', () => {
    const part = drawing('A B C D E', ['A-B 10', 'B-C 10', 'C-D 10', 'D-E 10', 'A-D 31', 'A-E 40']);
    const { doubled, clashes } = solve(part);
    expect(clashes.map(({ lengths }) => lengths)).toEqual([
      ['L4', 'L5', 'L6'],
      ['L1', 'L2', 'L3', 'L5'],
    ]);
    expect(doubled).toEqual([]);
  });

  test('the same length twice is a loop of two', () => {
    const part = drawing('A B C', ['A-B 10', 'A-B 10', 'A-B 11', 'B-C 1']);
    expect(solve(part).doubled).toEqual([{ lengths: ['L1', 'L2'] }]);
    expect(solve(part).clashes).toEqual([{ lengths: ['L1', 'L3'], gap_mm: 1, within_limits: false }]);
  });

  test('open and clashing at once: the worst is told, the lists are all filled', () => {
    const part = drawing('A B C D', ['A-B 10', 'A-B 11', 'C-D 5']);
    expect(solve(part)).toMatchObject({ state: 'clashing', missing: [{ between: ['B', 'C'] }] });
  });
});

describe('order of the faces', () => {
  test('a tree can be impossible through the order alone', () => {
    const part = drawing('A B C', ['A-B 10', 'A-C 9']);
    expect(solve(part)).toMatchObject({ state: 'closed', impossible: { short_by_mm: 1 } });
    expect(solve(part).impossible?.lengths.sort()).toEqual(['L1', 'L2']);
    expect(codes(part)).toEqual(['order s2']);
    expect(solveChains(part).placeable).toBe(false);
    expect(z(part)).toEqual([
      ['A', 0, 0],
      ['B', 10, 10],
      ['C', 9, 9],
    ]);
  });

  test('a segment of no length names its chain', () => {
    const part = drawing('A B C', ['A-B 10 ±1', 'A-C 10 ±1']);
    expect(solve(part).impossible).toBeNull();
    expect(solveChains(part).errors).toMatchObject([
      { code: 'order', where: 's2', facts: { lengths: ['L1', 'L2'] } },
    ]);
  });

  test('limits that leave the nominal order impossible are an order error', () => {
    const part = drawing('A B C', ['A-B 10', 'A-C 10.5 -1/-2']);
    expect(codes(part)).toEqual(['order s2']);
  });

  test('a segment that would vanish with its lengths at mid-limits cannot be planned', () => {
    const part = drawing('A B C', ['A-B 10 +1/-0', 'A-C 10.4 +0/-1']);
    expect(codes(part)).toEqual(['order s2']);
  });

  test('a point beyond the end falls off the part', () => {
    const part = drawing('A B', ['A-B 10', 'A-p 11'], { points: 'p' });
    expect(codes(part)).toEqual(['order p']);
    expect(solve(part).impossible).toMatchObject({ short_by_mm: 1 });
  });

  test('the order tightens a span that the lengths alone would leave wider', () => {
    const part = drawing('A B C', ['A-B 10 ±1', 'A-C 10.5 ±1']);
    expect(solve(part).spans[1]).toMatchObject({
      from: 'B',
      to: 'C',
      min_mm: 0,
      max_mm: 2.5,
      lengths: ['L1', 'L2'],
    });
  });
});

describe('references and spans', () => {
  const warnings = (part: ResolvedPart) =>
    solveChains(part).warnings.map(({ code, where }) => `${code} ${where}`);

  test('a reference binds nothing and is compared to half a unit of its last decimal', () => {
    expect(warnings(drawing('A B C', ['A-B 10.004', 'B-C 5', '(A-C 15.00)']))).toEqual([]);
    expect(warnings(drawing('A B C', ['A-B 10.005', 'B-C 5', '(A-C 15.00)']))).toEqual([]);
    expect(warnings(drawing('A B C', ['A-B 10.00501', 'B-C 5', '(A-C 15.00)']))).toEqual([
      'reference-differs L3',
    ]);
    expect(solve(drawing('A B C', ['A-B 10', 'B-C 5', '(A-C 16)'])).state).toBe('closed');
  });

  test('a reference written as a fraction must agree exactly', () => {
    const inch = { unit: 'in' } as const;
    expect(warnings(drawing('A B', ['A-B .625', '(A-B 5/8)'], inch))).toEqual([]);
    expect(warnings(drawing('A B', ['A-B .6251', '(A-B 5/8)'], inch))).toEqual(['reference-differs L2']);
  });

  test('every requirement, reference and segment has a span; across groups its figures are null', () => {
    const part = {
      ...drawing('A B C', ['A-B 10 ±.3', '(A-C 15)']),
      requirements: [requirement(0, 'B', 'C', 1, 2)],
    };
    expect(solve(part).spans.map(({ from, to }) => from + to)).toEqual(['BC', 'AC', 'AB']);
    expect(solve(part).spans[0]).toEqual({
      from: 'B',
      to: 'C',
      nominal_mm: null,
      min_mm: null,
      max_mm: null,
      rss_min_mm: null,
      rss_max_mm: null,
      lengths: [],
    });
  });

  test('a span backwards is the span forwards turned round', () => {
    const { span } = solveChains(drawing('A B C', ['A-B 10 ±1', 'B-C 5 ±1']));
    expect(span('A', 'C')).toEqual({ min: 13e9, max: 17e9 });
    expect(span('C', 'A')).toEqual({ min: -17e9, max: -13e9 });
    expect(span('A', 'nowhere')).toBeNull();
  });

  test('root-sum-square goes about the mid-limits, not the nominal', () => {
    const part = drawing('A B C', ['A-B 10 +.3/-0', 'B-C 5 +0/-.4', '(A-C 15)']);
    expect(solve(part).spans[0]).toMatchObject({
      nominal_mm: 15,
      min_mm: 14.6,
      max_mm: 15.3,
      rss_min_mm: 14.7,
      rss_max_mm: 15.2,
    });
  });
});

describe('tapers', () => {
  const taper = (
    angle: { tan: number; ratio: { num: number; den: number } | null },
    start: string,
    end: string,
  ) => [
    cylinder(0, 'A', 'B'),
    {
      ...{ id: 'cone', index: 1, form: 'taper', left: 'B', right: 'C', role: null, mate: null, large: null },
      ...{ start: sizeOf(start, 'mm'), end: sizeOf(end, 'mm'), angle: { ...angle, text: '' } },
    } as ResolvedSegment,
  ];
  const ratio = { tan: 1 / 20, ratio: { num: 1, den: 10 } };
  const degrees = { tan: Math.tan(Math.PI / 60), ratio: null };

  test('both diameters and a ratio are a length named by the segment, limits by corners, RSS by derivatives', () => {
    const part = drawing('A B C', ['A-B 10'], { segments: taper(ratio, '12 ±.03', '10 ±.04') });
    expect(solve(part).spans[1]).toMatchObject({
      from: 'B',
      to: 'C',
      nominal_mm: 20,
      min_mm: 19.3,
      max_mm: 20.7,
      lengths: ['cone'],
    });
    expect(solve(part).spans[1]).toMatchObject({ rss_min_mm: 19.5, rss_max_mm: 20.5 });
  });

  test('an over-described taper with a ratio agrees to the picometre or clashes; it is never a suspect', () => {
    const segments = taper(ratio, '12', '10');
    expect(solve(drawing('A B C', ['A-B 10', 'A-C 30'], { segments })).doubled).toEqual([
      { lengths: ['L1', 'L2', 'cone'] },
    ]);
    const off = solve(drawing('A B C', ['A-B 10', 'A-C 30.01'], { segments }));
    expect(off.clashes).toEqual([{ lengths: ['L1', 'L2', 'cone'], gap_mm: 0.01, within_limits: false }]);
    expect(off.suspects.map(({ length }) => length)).not.toContain('cone');
  });

  // tan 3° = 0.0524077793: (12 - 10) / (2 tan 3°) = 19.0811367; corners with ±.01: ±0.02 / (2 tan 3°) = ±0.1908.
  test('an angle whose tangent is irrational closes within its corner limits; places follow the written length', () => {
    const segments = taper(degrees, '12 ±.01', '10 ±.01');
    const near = drawing('A B C', ['A-B 10', 'B-C 19.1'], { segments });
    expect(solve(near)).toMatchObject({ state: 'doubled', doubled: [{ lengths: ['L2', 'cone'] }] });
    expect(solve(near).stations.C).toMatchObject({ z_mm: 29.1 });
    const far = drawing('A B C', ['A-B 10', 'B-C 19.3'], { segments });
    expect(solve(far).state).toBe('clashing');
    expect(solve(far).clashes[0]?.gap_mm).toBeCloseTo(0.2188633, 6);
  });

  test('a suspect beside an irrational taper is the size a slip of the eye explains', () => {
    const segments = taper(degrees, '12 ±.01', '10 ±.01');
    const part = drawing('A B C', ['A-B 10', 'B-C 91.1'], { segments });
    expect(solve(part).suspects[0]).toMatchObject({ length: 'L2', closes_at_mm: 19.1 });
  });
});
