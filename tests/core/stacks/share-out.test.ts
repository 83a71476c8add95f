import { describe, expect, test } from 'vitest';
import { pm } from '../../../src/core/lengths/length.ts';
import { solveChains } from '../../../src/core/chains/solve.ts';
import type { ResolvedPart } from '../../../src/core/part/resolved.ts';
import { leftOut, shareOut } from '../../../src/core/stacks/share-out.ts';
import { drawing, lengthBy, partOf, requirement } from '../chains/drawing.ts';
import { seeded } from '../chains/random.ts';

const MICRON = 1e6;
const floors = (entries: Record<string, number>) =>
  new Map(Object.entries(entries).map(([id, mm]) => [id, pm(mm * 1e9)]));

/** The part with the limits that were shared out. */
function withLimits(part: ResolvedPart, sharing: ReturnType<typeof shareOut>): ResolvedPart {
  const limits = new Map(sharing?.limits.map((one) => [one.length, one]));
  const lengths = part.lengths.map((length) => {
    const { min, max } = limits.get(length.id) ?? length.size;
    return { ...length, size: { ...length.size, min, max } };
  });
  return { ...part, lengths };
}

describe('sharing out', () => {
  test('what one requirement allows is shared by floors, evenly about the written sizes', () => {
    const part = {
      ...drawing('A B C', ['A-B 10', 'B-C 5']),
      requirements: [requirement(0, 'A', 'C', 14.7e9, 15.3e9)],
    };
    const sharing = shareOut(part, floors({ L1: 0.02, L2: 0.01 }));
    expect(sharing?.scale).toBeCloseTo(10, 6);
    const [one, two] = sharing?.limits ?? [];
    expect([one?.min, one?.max].map((z) => Number(z) / 1e9)).toEqual([
      expect.closeTo(9.8, 6),
      expect.closeTo(10.2, 6),
    ]);
    expect([two?.min, two?.max].map((z) => Number(z) / 1e9)).toEqual([
      expect.closeTo(4.9, 6),
      expect.closeTo(5.1, 6),
    ]);
    expect(sharing).toMatchObject({ tightest: 'R1', worth: 'L1' });
  });

  test('a requirement off the middle gives limits to one side', () => {
    const part = { ...drawing('A B', ['A-B 10']), requirements: [requirement(0, 'A', 'B', 10e9, 10.3e9)] };
    const [limits] = shareOut(part, floors({ L1: 0.01 }))?.limits ?? [];
    expect(limits?.min).toBe(10e9);
    expect(Number(limits?.max) / 1e9).toBeCloseTo(10.3, 6);
  });

  test('lengths that a tight requirement does not hold back are widened on', () => {
    const wishes = [requirement(0, 'A', 'B', 9.99e9, 10.01e9), requirement(1, 'A', 'C', 14e9, 16e9)];
    const part = { ...drawing('A B C', ['A-B 10', 'B-C 5']), requirements: wishes };
    const sharing = shareOut(part, floors({ L1: 0.01, L2: 0.01 }));
    expect(sharing?.scale).toBeCloseTo(1, 6);
    expect(Number(sharing?.limits[1]?.max) / 1e9).toBeCloseTo(5.99, 5);
    expect(sharing?.tightest).toBe('R1');
  });

  // L1 to L3 in a row, L4 over the first two again: what R1 leaves, ±0.3, is shared among L4 and L3, the way of fewest lengths.
  test('where lengths are doubled, the way of fewest is shared out among', () => {
    const part = {
      ...drawing('A B C D', ['A-B 10 ±.01', 'B-C 5 ±.01', 'C-D 7', 'A-C 15']),
      requirements: [requirement(0, 'A', 'D', 21.7e9, 22.3e9)],
    };
    const sharing = shareOut(part, floors({ L1: 0.01, L2: 0.01, L3: 0.01, L4: 0.02 }));
    expect(sharing?.limits.map(({ length }) => length).sort()).toEqual(['L3', 'L4']);
    expect(Number(sharing?.limits.find((one) => one.length === 'L3')?.max) / 1e9).toBeCloseTo(7.1, 5);
    const shared = withLimits(part, sharing);
    const span = solveChains(shared).span('A', 'D');
    expect(Number(span?.min)).toBeGreaterThanOrEqual(21.7e9);
    expect(Number(span?.max)).toBeLessThanOrEqual(22.3e9);
  });

  test('what clashes or is not tied is left out, and said', () => {
    const clash = {
      ...drawing('A B C D', ['A-B 10', 'B-C 5', 'A-C 16']),
      requirements: [requirement(0, 'A', 'C', 14e9, 16e9), requirement(1, 'A', 'D', 14e9, 16e9)],
    };
    expect(shareOut(clash, floors({ L1: 0.01, L2: 0.01, L3: 0.01 }))).toBeNull();
    expect(leftOut(clash)).toEqual([
      { requirement: 'R1', why: 'clashing' },
      { requirement: 'R2', why: 'missing' },
    ]);
  });

  test('a requirement that the written sizes miss leaves nothing to share', () => {
    const part = { ...drawing('A B', ['A-B 10']), requirements: [requirement(0, 'A', 'B', 11e9, 12e9)] };
    expect(shareOut(part, floors({ L1: 0.01 }))).toMatchObject({ scale: 0, limits: [], tightest: 'R1' });
    expect(shareOut({ ...part, requirements: [] }, floors({ L1: 0.01 }))).toBeNull();
  });

  // Chase and Greenwood, from memory (S14 of data/stack-cases.json): floors of B, D, E, F, with A, C, G fixed at ±.0065 in all,
  // scale by (0.015 - 0.0065) / 0.018 = 0.47222.
  test('proportional scaling of a published stack', () => {
    const inch = (figure: number) => Math.round(figure * 25.4e9);
    const order: [sign: 1 | -1, nominal: number, half: number, free: boolean][] = [
      [1, 8, 0.008, true],
      [-1, 0.0505, 0.0015, false],
      [-1, 0.5093, 0.0025, false],
      [1, 0.4, 0.002, true],
      [-1, 7.711, 0.006, true],
      [1, 0.4, 0.002, true],
      [-1, 0.5093, 0.0025, false],
    ];
    const lengths = order.map(([sign, nominal, half], i) => {
      const [from, to] = sign === 1 ? [`F${i}`, `F${i + 1}`] : [`F${i + 1}`, `F${i}`];
      return lengthBy(i, from, to, inch(nominal), inch(half));
    });
    const faces = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => `F${i}`);
    const part = {
      ...partOf(faces, lengths),
      requirements: [requirement(0, 'F0', 'F7', inch(0.005), inch(0.035))],
    };
    const free = new Map(
      order.flatMap(([, , half, is], i) => (is ? [[`L${i + 1}`, pm(inch(half))] as const] : [])),
    );
    expect(shareOut(part, free)?.scale).toBeCloseTo(0.47222, 5);
  });

  /** A random tree of lengths with requirements whose windows are even about the placed distances, or not. */
  function randomCase(random: () => number, even: boolean) {
    const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
    const count = whole(3, 9);
    const places = [0];
    while (places.length < count) places.push((places.at(-1) ?? 0) + whole(2000, 30_000));
    const faces = places.map((_, k) => `F${k}`);
    const at = (k: number) => (places[k] ?? 0) * MICRON;
    const lengths = faces.slice(1).map((face, k) => {
      const from = whole(0, k);
      return lengthBy(k, `F${from}`, face, at(k + 1) - at(from), 0);
    });
    const wishes = Array.from({ length: whole(1, 4) }, (_, r) => {
      const a = whole(0, count - 2);
      const b = whole(a + 1, count - 1);
      const [below, above] = [whole(0, 400) * MICRON, whole(1, 400) * MICRON];
      return requirement(r, `F${a}`, `F${b}`, at(b) - at(a) - (even ? above : below), at(b) - at(a) + above);
    });
    const able = new Map(lengths.map(({ id }) => [id, pm(whole(5, 60) * MICRON)]));
    return { part: { ...partOf(faces, lengths), requirements: wishes }, able };
  }

  test('on random parts the shared limits hold every requirement at worst, and one of them to the full', () => {
    const random = seeded(11);
    for (let n = 0; n < 60; n++) {
      const { part, able } = randomCase(random, false);
      const { span } = solveChains(withLimits(part, shareOut(part, able)));
      const slack = part.requirements.flatMap(({ from, to, min, max }) => {
        const found = span(from, to);
        return found ? [found.min - min, max - found.max] : [NaN];
      });
      expect(Math.min(...slack)).toBeGreaterThanOrEqual(0);
      expect(Math.min(...slack) / MICRON).toBeLessThan(0.01);
    }
  });

  // With windows even about the written sizes the widest common multiple is plain: room over the sum of floors, at its least.
  test('on even windows the scale is the least room over the sum of floors', () => {
    const random = seeded(12);
    for (let n = 0; n < 60; n++) {
      const { part, able } = randomCase(random, true);
      const { report } = solveChains(part);
      const scales = part.requirements.map(({ from, to, min, max }) => {
        const ids = report.spans.find((span) => span.from === from && span.to === to)?.lengths ?? [];
        return (max - min) / 2 / ids.reduce((sum, id) => sum + (able.get(id) ?? 0), 0);
      });
      expect((shareOut(part, able)?.scale ?? NaN) / Math.min(...scales)).toBeCloseTo(1, 5);
    }
  });
});
