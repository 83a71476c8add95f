// Places, groups and clashes beside linear algebra by the library ml-matrix: places solve the lengths as equations, groups are the
// unknowns less the rank, and a clash is a residue that no places take away.
import { Matrix, SingularValueDecomposition, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { solveChains } from '../../src/core/chains/solve.ts';
import type { ResolvedPart } from '../../src/core/part/resolved.ts';
import { lengthBy, partOf } from '../core/chains/drawing.ts';
import { seeded } from '../core/chains/random.ts';

const MICRON = 1e6;
type Spoil = 'sound' | 'misread' | 'gap';

/** A part of 3 to 25 faces in whole microns with some lengths too many; one of them misread, or some left out. */
function randomPart(random: () => number, spoil: Spoil): ResolvedPart {
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const places = [0];
  for (let k = whole(2, 24); k > 0; k--) places.push((places.at(-1) ?? 0) + whole(20, 20_000));
  const pairs = places.slice(1).map((_, k): [number, number] => [whole(0, k), k + 1]);
  for (let k = whole(1, 5); k > 0; k--) {
    const a = whole(0, places.length - 2);
    pairs.push([a, whole(a + 1, places.length - 1)]);
  }
  const wrong = spoil === 'misread' ? whole(0, pairs.length - 1) : -1;
  const lengths = pairs.flatMap(([a, b], i) => {
    if (spoil === 'gap' && random() < 0.25) return [];
    const size = (places[b] ?? 0) - (places[a] ?? 0) + (i === wrong ? whole(1, 9000) : 0);
    return lengthBy(i, `F${a}`, `F${b}`, size * MICRON);
  });
  return partOf(
    places.map((_, k) => `F${k}`),
    lengths,
  );
}

/** One row for each length, one column for each face, in microns. */
function equations({ faces, lengths }: ResolvedPart): { left: Matrix; right: Matrix } {
  const left = Matrix.zeros(lengths.length, faces.length);
  const right = Matrix.zeros(lengths.length, 1);
  lengths.forEach(({ from, to, size }, row) => {
    left.set(row, faces.indexOf(to), 1).set(row, faces.indexOf(from), -1);
    right.set(row, 0, size.nominal / MICRON);
  });
  return { left, right };
}

/** Least squares with the first face at 0, and the largest residue. */
function leastSquares(part: ResolvedPart): { places: number[]; residue: number } {
  const { left, right } = equations(part);
  const start = Matrix.zeros(1, part.faces.length).set(0, 0, 1);
  const found = solve(
    new Matrix([...left.to2DArray(), ...start.to2DArray()]),
    new Matrix([...right.to2DArray(), [0]]),
  );
  const residue = Matrix.sub(left.mmul(found), right).abs().max();
  return { places: found.to1DArray(), residue };
}

describe('beside linear algebra', { timeout: 60_000 }, () => {
  test('places of 300 random sound parts', () => {
    const random = seeded(31);
    for (let turn = 0; turn < 300; turn++) {
      const part = randomPart(random, 'sound');
      const { places, residue } = leastSquares(part);
      const solved = solveChains(part);
      expect(residue).toBeLessThan(1e-6);
      expect(solved.report.state).toBe('doubled');
      part.faces.forEach((face, s) => {
        expect((solved.places.get(face)?.nominal ?? NaN) / MICRON).toBeCloseTo(places[s] ?? NaN, 5);
      });
    }
  });

  test('300 parts with one length misread: a clash is found where no places fit, and only there', () => {
    const random = seeded(32);
    const seen = { clashing: 0, doubled: 0 };
    for (let turn = 0; turn < 300; turn++) {
      const part = randomPart(random, 'misread');
      const { report } = solveChains(part);
      const clashing = leastSquares(part).residue > 1e-3;
      expect(report.state).toBe(clashing ? 'clashing' : 'doubled');
      seen[clashing ? 'clashing' : 'doubled']++;
    }
    expect(Math.min(seen.clashing, seen.doubled)).toBeGreaterThan(20);
  });

  test('300 parts with lengths left out: as many groups as unknowns that stay free', () => {
    const random = seeded(33);
    let open = 0;
    for (let turn = 0; turn < 300; turn++) {
      const part = randomPart(random, 'gap');
      const { left } = equations(part);
      const rank =
        part.lengths.length === 0 ? 0 : new SingularValueDecomposition(left, { autoTranspose: true }).rank;
      const { report } = solveChains(part);
      expect(report.groups).toHaveLength(part.faces.length - rank);
      expect(report.missing).toHaveLength(part.faces.length - rank - 1);
      if (report.state === 'open') open++;
    }
    expect(open).toBeGreaterThan(100);
  });
});
