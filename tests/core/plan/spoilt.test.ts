import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import type { Cut, Plan } from '../../../src/core/plan/types.ts';
import { replay } from '../../../src/core/plan/virtual-lathe.ts';
import { shapes } from './shapes.ts';
import { caught, cuts, holding, without } from './spoil.ts';
import type { Bench } from './spoil.ts';
import { planned, shaft, spoils } from './spoils-of-shaft.ts';

const done = (changed: unknown): undefined => void changed;

describe('the blower shaft, spoilt', () => {
  test.each(spoils)('%s: %s', (_name, code, spoil) => {
    expect(caught(shaft, () => undefined)).toEqual([]);
    expect(caught(shaft, spoil)).toContain(code);
  });
});

const benches: readonly (readonly [name: string, bench: Bench])[] = [
  ['the blower shaft', shaft],
  ...[firstLathe, metricLathe].flatMap((lathe) =>
    shapes.map(
      ({ name, unit, part }) => [`${name}, ${unit}, on the ${lathe.name}`, planned(part, lathe)] as const,
    ),
  ),
];
type Wanted = (c: Cut, earlier: readonly Cut[], later: readonly Cut[]) => boolean;
const numbersOf = ({ plan }: Bench, wanted: Wanted): number[] =>
  plan.holdings.flatMap((h) =>
    h.cuts.filter((c, i) => wanted(c, h.cuts.slice(0, i), h.cuts.slice(i + 1))).map((c) => c.n),
  );
const byNumber = (plan: Plan, n: number): Cut => {
  const found = plan.holdings.flatMap((h) => h.cuts).find((c) => c.n === n);
  if (!found) throw new Error(`no cut ${n}`);
  return found;
};

describe.each(benches)('%s', (_name, bench) => {
  const role = new Map(bench.outline.segments.map((s) => [s.id, s.role]));
  const taper = new Set(bench.outline.segments.filter((s) => s.form === 'taper').map((s) => s.id));
  const isFine = ({ segment }: Cut) =>
    role.get(segment ?? '') === 'journal' || role.get(segment ?? '') === 'seat';

  /** Steps that the rest of the plan can do without: what they take, a later one takes, or nothing is decided by them. */
  const isSpare: Wanted = (c, earlier, later) =>
    c.kind === 'rough' ||
    (c.kind === 'finish' && taper.has(c.segment ?? '')) ||
    ((c.kind === 'spring' || c.kind === 'measure') && !isFine(c)) ||
    // A steady that stands there as the holding begins: the step only says how it is set.
    (c.kind === 'support' && earlier.length === 0) ||
    (c.kind === 'touch' && earlier.some((e) => e.kind === 'touch' && e.tool === c.tool)) ||
    (c.kind === 'touch' && !later.some((l) => l.kind !== 'touch' && l.tool === c.tool));

  test('replays clean', () => expect(replay(bench.plan, bench.outline, bench.lathe)).toEqual([]));

  test('no step can be dropped unnoticed', () => {
    const dropped = numbersOf(bench, (...step) => !isSpare(...step));
    expect(dropped.length).toBeGreaterThan(10);
    for (const n of dropped)
      expect([n, caught(bench, (p) => without(p, byNumber(p, n)))]).not.toEqual([n, []]);
  });

  test('a thousandth of a millimetre too much or too little shows in the metal, not only in the readings', () => {
    const shaping = ['groove', 'taper', 'chamfer', 'face', 'drill', 'bore'];
    const last = (c: Cut) =>
      cuts(bench.plan, 'finish', c.segment ?? '').at(-1) === c && !taper.has(c.segment ?? '');
    const inMetal = /^(enters-part|outside-differs|hole-differs|ends-differ|hole-not-from-end|spring-cuts)$/;
    const numbers = numbersOf(bench, (c) => shaping.includes(c.kind) || (c.kind === 'finish' && last(c)));
    for (const n of numbers)
      for (const by of [0.001, -0.001])
        for (const figure of ['d0_mm', 'd1_mm'] as const) {
          const codes = caught(bench, (p) => {
            const c = byNumber(p, n);
            return done((c[figure] = (c[figure] ?? 0) + by));
          });
          if (byNumber(bench.plan, n).kind !== 'face')
            expect({ n, by, figure, codes, shows: codes.some((code) => inMetal.test(code)) }).toMatchObject({
              shows: true,
            });
        }
  });

  test('no reading can be wrong unnoticed', () => {
    const numbers = numbersOf(bench, (c) => c.readings.length > 0 && c.kind !== 'touch');
    for (const n of numbers)
      byNumber(bench.plan, n).readings.forEach((r, i) => {
        const by = r.axis === 'quill' ? 2 : 0.1;
        const codes = caught(bench, (p) => {
          const read = byNumber(p, n).readings[i];
          return done(read && (read.value_mm += by));
        });
        expect([n, i, codes]).not.toEqual([n, i, []]);
      });
  });

  test.each(['z_sign', 'headstock', 'stick_out_mm', 'zero_z_mm'] as const)(
    'no holding can have another %s',
    (field) => {
      for (const h of bench.plan.holdings) {
        const codes = caught(bench, (p) => {
          const held = holding(p, h.id);
          if (field === 'z_sign') held.z_sign = held.z_sign === 1 ? -1 : 1;
          else if (field === 'headstock') held.headstock = held.headstock === 'left' ? 'right' : 'left';
          else held[field] = (held[field] ?? 0) + 0.5;
          return undefined;
        });
        expect([h.id, codes]).not.toEqual([h.id, []]);
      }
    },
  );
});
