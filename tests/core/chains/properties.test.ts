import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromMm, pm } from '../../../src/core/lengths/length.ts';
import { solveChains } from '../../../src/core/chains/solve.ts';
import type { ResolvedLength, ResolvedPart } from '../../../src/core/part/resolved.ts';
import { lengthBy, partOf } from './drawing.ts';

/** Faces placed first, at whole microns; the drawing is then made to fit them. */
type Planted = { places: number[]; faces: string[]; lengths: ResolvedLength[]; part: ResolvedPart };

const MICRON = 1e6;

/** A part whose faces stand at known places, dimensioned by a random tree and some lengths more. */
function planted(extra: number, tol = 0): fc.Arbitrary<Planted> {
  return fc
    .record({
      steps: fc.array(fc.integer({ min: 500, max: 60_000 }), { minLength: 1, maxLength: 11 }),
      seeds: fc.array(fc.nat(), { minLength: 12, maxLength: 12 }),
      more: fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: extra }),
      tols: fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 30, maxLength: 30 }),
      order: fc.array(fc.nat(), { minLength: 30, maxLength: 30 }),
    })
    .map(({ steps, seeds, more, tols, order }) => {
      const places = [0];
      for (const step of steps) places.push((places.at(-1) ?? 0) + step * MICRON);
      const faces = places.map((_, k) => `F${k}`);
      const pairs = places.slice(1).map((_, k): [number, number] => [(seeds[k] ?? 0) % (k + 1), k + 1]);
      for (const [a, b] of more) {
        const [p, q] = [a % places.length, b % places.length];
        if (p !== q) pairs.push([Math.min(p, q), Math.max(p, q)]);
      }
      const shuffled = pairs.map((pair, i) => ({ pair, key: order[i] ?? 0 })).sort((p, q) => p.key - q.key);
      const lengths = shuffled.map(({ pair: [a, b] }, i) => {
        const nominal = (places[b] ?? 0) - (places[a] ?? 0);
        return lengthBy(i, `F${a}`, `F${b}`, nominal, tol * (tols[i] ?? 0));
      });
      return { places, faces, lengths, part: partOf(faces, lengths) };
    });
}

/** Every loop of a small drawing, as the sorted numbers of its lengths: subsets in which every face has none or two. */
function allLoops(lengths: readonly ResolvedLength[]): number[][] {
  const loops: number[][] = [];
  for (let set = 1; set < 1 << lengths.length; set++) {
    const chosen = lengths.filter((_, i) => set & (1 << i));
    const degree = new Map<string, number>();
    for (const { from, to } of chosen) for (const f of [from, to]) degree.set(f, (degree.get(f) ?? 0) + 1);
    if ([...degree.values()].some((d) => d !== 2)) continue;
    const reached = new Set([chosen[0]?.from]);
    for (let grown = -1; grown !== reached.size;) {
      grown = reached.size;
      for (const { from, to } of chosen) {
        if (reached.has(from) || reached.has(to)) reached.add(from).add(to);
      }
    }
    if (reached.size === degree.size) loops.push(chosen.map(({ index }) => index));
  }
  return loops;
}

/** The shortest independent set by trying all loops: by count, then by the first length in which two differ. */
function shortestSet(lengths: readonly ResolvedLength[]): string[][] {
  const sorted = allLoops(lengths).sort((p, q) => {
    if (p.length !== q.length) return p.length - q.length;
    const i = p.findIndex((length, k) => length !== q[k]);
    return (p[i] ?? 0) - (q[i] ?? 0);
  });
  const rows: number[] = [];
  const taken: string[][] = [];
  for (const loop of sorted) {
    let bits = loop.reduce((sum, i) => sum | (1 << i), 0);
    for (const row of rows) bits = Math.min(bits, bits ^ row);
    if (bits === 0) continue;
    rows.push(bits);
    rows.sort((a, b) => b - a);
    taken.push(loop.map((i) => `L${i + 1}`));
  }
  return taken;
}

const turned = (rows: readonly number[][] | null): (number | undefined)[][] | null =>
  rows && rows.map((_, i) => rows.map((row) => row[i]));

/** Tightest spans by Floyd and Warshall, limits and the order of faces together; null where they contradict themselves. */
function floydWarshall({ places, part }: Planted): number[][] | null {
  const n = places.length;
  const far = places.map((_, i) => places.map((__, j) => (i === j ? 0 : Infinity)));
  const tighten = (i: number, j: number, weight: number) => {
    const row = far[i];
    if (row && weight < (row[j] ?? Infinity)) row[j] = weight;
  };
  for (const { from, to, size } of part.lengths) {
    const [i, j] = [part.faces.indexOf(from), part.faces.indexOf(to)];
    tighten(i, j, size.max);
    tighten(j, i, -size.min);
  }
  for (let k = 1; k < n; k++) tighten(k, k - 1, 0);
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) tighten(i, j, (far[i]?.[k] ?? Infinity) + (far[k]?.[j] ?? Infinity));
  return far.some((row, i) => (row[i] ?? 0) < 0) ? null : far;
}

describe('laws on random drawings', { timeout: 60_000 }, () => {
  test('the distance between any two faces is what it was placed at, however the part is dimensioned', () => {
    fc.assert(
      fc.property(planted(0), fc.nat(), fc.nat(), ({ places, part }, a, b) => {
        const solved = solveChains(part);
        expect(solved.report.state).toBe('closed');
        expect(solved.errors).toEqual([]);
        const [i, j] = [a % places.length, b % places.length];
        const distance = (places[j] ?? 0) - (places[i] ?? 0);
        expect(solved.span(`F${i}`, `F${j}`)).toEqual({ min: distance, max: distance });
        expect(solved.places.get(`F${i}`)).toEqual({ nominal: places[i], aim: places[i] });
      }),
    );
  });

  test('lengths beyond a tree are doubled, one independent loop each, and nothing is suspected', () => {
    fc.assert(
      fc.property(planted(6), ({ places, part }) => {
        const { report } = solveChains(part);
        expect(report.doubled.length).toBe(part.lengths.length - places.length + 1);
        expect(report.suspects).toEqual([]);
        expect(report.clashes).toEqual([]);
      }),
    );
  });

  test('the loops are the shortest independent set, as found by trying every loop', () => {
    fc.assert(
      fc.property(
        planted(6).filter(({ lengths }) => lengths.length <= 13),
        ({ lengths, part }) => {
          expect(solveChains(part).report.doubled.map((loop) => loop.lengths)).toEqual(shortestSet(lengths));
        },
      ),
      { numRuns: 150 },
    );
  });

  test('spans are those of Floyd and Warshall on 1 000 random parts, and aims keep all limits', () => {
    fc.assert(
      fc.property(planted(6, MICRON), (drawn) => {
        const far = floydWarshall(drawn);
        const { span, report, places } = solveChains(drawn.part);
        expect(far).not.toBeNull();
        expect(report.impossible).toBeNull();
        const spans = drawn.faces.map((from) => drawn.faces.map((to) => span(from, to)));
        expect(spans.map((row) => row.map((one) => one?.max))).toEqual(far);
        expect(spans.map((row) => row.map((one) => -(one?.min ?? NaN) + 0))).toEqual(turned(far));
        for (const { from, to, size } of drawn.lengths) {
          const distance = (places.get(to)?.aim ?? NaN) - (places.get(from)?.aim ?? NaN);
          expect(distance >= size.min && distance <= size.max).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('the part turned end for end has the same spans, and its places count from the other end', () => {
    fc.assert(
      fc.property(planted(4, MICRON), ({ faces, lengths, part }) => {
        const turned = {
          ...partOf(
            [...faces].reverse(),
            lengths.map((length) => ({ ...length, from: length.to, to: length.from })),
          ),
        };
        const [one, other] = [solveChains(part), solveChains(turned)];
        for (const from of faces)
          for (const to of faces) expect(other.span(to, from)).toEqual(one.span(from, to));
        expect(other.report.doubled).toEqual(one.report.doubled);
      }),
    );
  });

  test('one length made wrong is among the suspects, with its true size, and every suspect closes all loops', () => {
    fc.assert(
      fc.property(
        planted(6),
        fc.nat(),
        fc.integer({ min: 1, max: 400 }),
        ({ faces, lengths, part }, pick, microns) => {
          const wrong = lengths[pick % lengths.length];
          fc.pre(wrong !== undefined && lengths.length >= faces.length);
          if (!wrong) return;
          const spoil = (length: ResolvedLength, nominal: number): ResolvedLength => ({
            ...length,
            size: { ...length.size, nominal: pm(nominal), min: pm(nominal), max: pm(nominal) },
          });
          const swap = (by: ResolvedLength) =>
            partOf(
              faces,
              part.lengths.map((l) => (l.index === by.index ? by : l)),
            );
          const spoilt = swap(spoil(wrong, wrong.size.nominal + microns * MICRON));
          const { report } = solveChains(spoilt);
          const onLoop = solveChains(part).report.doubled.some((loop) => loop.lengths.includes(wrong.id));
          expect(report.clashes.length > 0).toBe(onLoop);
          if (onLoop) {
            const suspect = report.suspects.find(({ length }) => length === wrong.id);
            expect(suspect?.closes_at_mm).toBe(wrong.size.nominal / 1e9);
          }
          for (const { length, closes_at_mm } of report.suspects) {
            const mended = spoilt.lengths.map((l) => (l.id === length ? spoil(l, fromMm(closes_at_mm)) : l));
            expect(solveChains(partOf(faces, mended)).report.clashes).toEqual([]);
          }
        },
      ),
    );
  });

  test('limits that no part can keep are proved by a walk whose limits and order add up to less than nothing', () => {
    fc.assert(
      fc.property(
        planted(6, MICRON),
        fc.nat(),
        fc.integer({ min: -3000, max: 3000 }),
        (drawn, pick, microns) => {
          const index = pick % drawn.lengths.length;
          const lengths = drawn.lengths.map((length, i) => {
            const shift = i === index ? Math.max(microns * MICRON, 1 - length.size.min) : 0;
            const { nominal, min, max } = length.size;
            const moved = { nominal: pm(nominal + shift), min: pm(min + shift), max: pm(max + shift) };
            return { ...length, size: { ...length.size, ...moved } };
          });
          const part = partOf(drawn.faces, lengths);
          const possible = floydWarshall({ ...drawn, part }) !== null;
          const { impossible } = solveChains(part).report;
          expect(impossible === null).toBe(possible);
          if (impossible) expect(shortfall(part, impossible.lengths, impossible.faces)).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });
});

/** Whether the named lengths and the order of the named faces, and nothing else, already contradict themselves. */
function shortfall(part: ResolvedPart, ids: readonly string[], named: readonly string[]): boolean {
  const faces = part.faces.filter((face) => named.includes(face));
  const lengths = part.lengths.filter(({ id }) => ids.includes(id));
  return floydWarshall({ places: faces.map(() => 0), faces, lengths, part: partOf(faces, lengths) }) === null;
}
