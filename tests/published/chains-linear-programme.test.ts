// Spans and impossibility against a linear programme, solved by the general-purpose library yalps.
import { solve } from 'yalps';
import { describe, expect, test } from 'vitest';
import { solveChains } from '../../src/core/chains/solve.ts';
import type { ResolvedPart } from '../../src/core/part/resolved.ts';
import { lengthBy, partOf } from '../core/chains/drawing.ts';
import { seeded } from '../core/chains/random.ts';

const MICRON = 1e6;

/** A part with whole-micron sizes and limits, some lengths too many, all within what a sound or spoilt drawing may hold. */
function randomPart(random: () => number, spoilt: boolean): ResolvedPart {
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const places = [0];
  for (let k = whole(2, 9); k > 0; k--) places.push((places.at(-1) ?? 0) + whole(20, 5000));
  const faces = places.map((_, k) => `F${k}`);
  const pairs = places.slice(1).map((_, k): [number, number] => [whole(0, k), k + 1]);
  for (let k = whole(0, 5); k > 0; k--) {
    const a = whole(0, places.length - 2);
    pairs.push([a, whole(a + 1, places.length - 1)]);
  }
  const lengths = pairs.map(([a, b], i) => {
    const wrong = spoilt && random() < 0.2 ? whole(-15, 15) : 0;
    const nominal = Math.max(16, (places[b] ?? 0) - (places[a] ?? 0) + wrong);
    return lengthBy(i, `F${a}`, `F${b}`, nominal * MICRON, whole(0, 8) * MICRON);
  });
  return partOf(faces, lengths);
}

/** Largest `z_to - z_from` in microns that the limits and the order allow; null where they allow nothing. */
function largest(part: ResolvedPart, from: string, to: string): number | null {
  const constraints: Record<string, { min?: number; max?: number }> = { fixed: { min: 0, max: 0 } };
  const variables = new Map<string, Record<string, number>>(part.faces.map((face) => [face, {}]));
  const put = (face: string, row: string, factor: number) => {
    const column = variables.get(face);
    if (column) column[row] = (column[row] ?? 0) + factor;
  };
  for (const { id, from: a, to: b, size } of part.lengths) {
    constraints[id] = { min: size.min / MICRON, max: size.max / MICRON };
    put(b, id, 1);
    put(a, id, -1);
  }
  part.faces.slice(1).forEach((face, k) => {
    constraints[`order ${face}`] = { min: 0 };
    put(face, `order ${face}`, 1);
    put(part.faces[k] ?? '', `order ${face}`, -1);
  });
  put(part.faces[0] ?? '', 'fixed', 1);
  put(to, 'wanted', 1);
  put(from, 'wanted', -1);
  // Variables of the library start at 0: the first face stands there and the others to its right.
  const { status, result } = solve({ direction: 'maximize', objective: 'wanted', constraints, variables });
  if (status === 'infeasible') return null;
  expect(status).toBe('optimal');
  return result;
}

describe('against a linear programme', { timeout: 60_000 }, () => {
  test('spans of 1 000 random sound parts', () => {
    const random = seeded(20261125);
    for (let n = 0; n < 1000; n++) {
      const part = randomPart(random, false);
      const from = part.faces[Math.floor(random() * part.faces.length)] ?? '';
      const to = part.faces[Math.floor(random() * part.faces.length)] ?? '';
      const span = solveChains(part).span(from, to);
      expect((span?.max ?? NaN) / MICRON).toBeCloseTo(largest(part, from, to) ?? NaN, 5);
      expect(-(span?.min ?? NaN) / MICRON).toBeCloseTo(largest(part, to, from) ?? NaN, 5);
    }
  });

  test('which of 500 spoilt parts no limits allow', () => {
    const random = seeded(7);
    let impossible = 0;
    for (let n = 0; n < 500; n++) {
      const part = randomPart(random, true);
      const none = largest(part, part.faces[0] ?? '', part.faces.at(-1) ?? '') === null;
      impossible += none ? 1 : 0;
      expect(solveChains(part).report.impossible !== null).toBe(none);
    }
    expect(impossible).toBeGreaterThan(50);
    expect(impossible).toBeLessThan(450);
  });
});
