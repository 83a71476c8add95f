import { describe, expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { mirrorPart } from '../../../src/core/part/mirror.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import type { Cut, Plan, Reading } from '../../../src/core/plan/types.ts';
import { replay } from '../../../src/core/plan/virtual-lathe.ts';
import { planPart } from '../../../src/core/plan/ways.ts';
import { makeablePart, threeLathes } from './random-parts.ts';

/** `npm run long` sets a larger figure. */
const SEEDS = Math.ceil(Number(process.env['PLAN_SEEDS'] ?? 40) / 4);
/** The last once had a way that came out of another bar when it was asked for. */
const seeds = [...Array.from({ length: SEEDS }, (_, i) => i + 1), 283];

function planned(part: Part, lathe: Lathe) {
  const resolved = resolvePart(part);
  return planPart(resolved, solveChains(resolved), resolveLathe(lathe));
}

/** Between two diameters, at a place. */
const along = (z0: number, z1: number, d0: number, d1: number, z: number): number =>
  d0 + ((d1 - d0) * (z - z0)) / (z1 - z0);

/** The plan of a part, its way settled, so that a change of the lathe file cannot make it take another. */
function fixed(part: Part, lathe: Lathe): { part: Part; plan: Plan } | null {
  const { plan } = planned(part, lathe);
  if (!plan?.way) return null;
  const pinned = { ...part, pins: plan.way.pins };
  const again = planned(pinned, lathe).plan;
  return again?.way?.name === plan.way.name ? { part: pinned, plan: again } : null;
}

/** The plans of the random parts on a lathe, their ways settled; most can be. */
function fixedOf(lathe: Lathe): { seed: number; part: Part; plan: Plan }[] {
  const found = seeds.flatMap((seed) => {
    const made = fixed(makeablePart(seed), lathe);
    return made ? [{ seed, ...made }] : [];
  });
  expect(found.length).toBeGreaterThan(0.9 * SEEDS);
  return found;
}

const cutsOf = (plan: Plan): Cut[] => plan.holdings.flatMap((h) => h.cuts);
const readingsOf = (plan: Plan, axis: Reading['axis']): Reading[] =>
  cutsOf(plan).flatMap((c) => c.readings.filter((r) => r.axis === axis));
const places = (plan: Plan): unknown[] =>
  cutsOf(plan).map((c) => [c.kind, c.segment, c.z0_mm, c.z1_mm, c.d0_mm, c.d1_mm, c.passes, c.tool]);
const withReadout = (lathe: Lathe, change: Partial<Lathe['readout']>): Lathe => ({
  ...lathe,
  readout: { ...lathe.readout, ...change },
});
const expectClose = (is: readonly number[], wanted: readonly number[], where: string): void => {
  expect(is.length, where).toBe(wanted.length);
  is.forEach((x, i) => expect(x, `${where}, ${i}`).toBeCloseTo(wanted[i] ?? NaN, 8));
};

describe.each(threeLathes.map((lathe) => [lathe.name, lathe] as const))('on the %s', (_name, lathe) => {
  test('every plan replays to the part, whoever asks', { timeout: 3_600_000 }, () => {
    for (const seed of seeds) {
      const { plan, outline } = planned(makeablePart(seed), lathe);
      if (plan && outline) expect(replay(plan, outline, resolveLathe(lathe)), `seed ${seed}`).toEqual([]);
    }
  });

  test('each way that was left is planned or refused as it says', { timeout: 3_600_000 }, () => {
    for (const seed of seeds) {
      const part = makeablePart(seed);
      for (const { way, why, pins } of planned(part, lathe).plan?.rejected ?? []) {
        const possible = /^It (can be done, but|is as good)/.test(why);
        const made = planned({ ...part, pins: pins ?? {} }, lathe).plan;
        expect(made?.way?.name, `seed ${seed}: ${way}: ${why}`).toBe(possible ? way : undefined);
      }
    }
  });

  test('the readout counting the other way only turns the signs of Z', { timeout: 3_600_000 }, () => {
    const sense = lathe.readout.z_positive === 'tailstock' ? 'headstock' : 'tailstock';
    for (const { seed, ...was } of fixedOf(lathe)) {
      const is = planned(was.part, withReadout(lathe, { z_positive: sense })).plan;
      if (!is) throw new Error(`seed ${seed}: no plan`);
      expect(places(is)).toEqual(places(was.plan));
      const of = (plan: Plan): number[] => readingsOf(plan, 'Z').map((r) => r.value_mm);
      expectClose(
        of(is),
        of(was.plan).map((z) => -z),
        `seed ${seed}`,
      );
    }
  });

  test('a readout of the other measure only halves or doubles X', { timeout: 3_600_000 }, () => {
    const [x, factor] =
      lathe.readout.x === 'radius' ? (['diameter', 2] as const) : (['radius', 0.5] as const);
    for (const { seed, ...was } of fixedOf(lathe)) {
      const is = planned(was.part, withReadout(lathe, { x })).plan;
      if (!is) throw new Error(`seed ${seed}: no plan`);
      expect(places(is)).toEqual(places(was.plan));
      const of = (plan: Plan, axis: Reading['axis']): number[] =>
        readingsOf(plan, axis).map((r) => r.value_mm);
      expectClose(
        of(is, 'X'),
        of(was.plan, 'X').map((d) => d * factor),
        `seed ${seed}`,
      );
      expectClose(of(is, 'Z'), of(was.plan, 'Z'), `seed ${seed}`);
    }
  });

  test(
    "touching the other edge off moves the blade's readings by its width and nothing else",
    { timeout: 3_600_000 },
    () => {
      const turned: Lathe = {
        ...lathe,
        tools: lathe.tools.map((t) =>
          t.kind === 'blade' ? { ...t, edge: t.edge === 'left' ? 'right' : 'left' } : t,
        ),
      };
      const blades = new Map(
        resolveLathe(lathe).tools.flatMap((t) =>
          t.kind === 'blade' ? [[t.id, t.width / 1e9] as const] : [],
        ),
      );
      for (const { seed, ...was } of fixedOf(lathe)) {
        const is = planned(was.part, turned).plan;
        if (!is) throw new Error(`seed ${seed}: no plan`);
        expect(places(is)).toEqual(places(was.plan));
        cutsOf(was.plan).forEach((cut, i) => {
          const other = cutsOf(is)[i]?.readings ?? [];
          cut.readings.forEach((r, k) => {
            const by = Math.abs((other[k]?.value_mm ?? NaN) - r.value_mm);
            const width = r.axis === 'Z' ? (blades.get(cut.tool ?? '') ?? 0) : 0;
            expect(by, `seed ${seed}, cut ${cut.n}`).toBeCloseTo(width, 8);
          });
        });
      }
    },
  );

  test(
    'a mirrored part is held the same, the headstock at its other drawn end',
    { timeout: 3_600_000 },
    () => {
      for (const { seed, ...was } of fixedOf(lathe)) {
        const is = planned(mirrorPart(was.part), lathe).plan;
        if (!is) throw new Error(`seed ${seed}: no plan mirrored`);
        const held = (plan: Plan, turn: boolean): unknown[] =>
          plan.holdings.map((h) => [
            h.device,
            (h.headstock === 'right') !== turn,
            h.support,
            h.cuts.map((c) => [c.kind, c.segment, c.passes, c.tool]),
          ]);
        expect(held(is, true), `seed ${seed}`).toEqual(held(was.plan, false));
        expect(is.stock.length_mm).toBeCloseTo(was.plan.stock.length_mm, 8);
      }
    },
  );

  test('roughing leaves its allowance on every land that it comes near', { timeout: 3_600_000 }, () => {
    const allowance = resolveLathe(lathe).cut.allowance / 1e9;
    for (const seed of seeds) {
      const { plan, outline } = planned(makeablePart(seed), lathe);
      for (const cut of plan ? cutsOf(plan) : []) {
        if (cut.kind !== 'rough' || cut.inside) continue;
        for (const s of outline?.segments ?? []) {
          const [from, to] = [Math.max(cut.z0_mm, s.z0 / 1e9), Math.min(cut.z1_mm, s.z1 / 1e9)];
          if (to - from <= 1e-9) continue;
          // A cone counts as it is at the place.
          for (const z of [from, to])
            expect(
              along(cut.z0_mm, cut.z1_mm, cut.d0_mm ?? 0, cut.d1_mm ?? 0, z) -
                along(s.z0 / 1e9, s.z1 / 1e9, s.d0 / 1e9, s.d1 / 1e9, z),
              `seed ${seed}, cut ${cut.n} over ${s.id}`,
            ).toBeGreaterThan(s.keepsSkin ? -1e-9 : allowance - 1e-8);
        }
      }
    }
  });
});
