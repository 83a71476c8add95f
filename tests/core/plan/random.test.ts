import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { makeablePart, threeLathes } from './random-parts.ts';

/** `npm run long` sets a larger figure. */
const SEEDS = Number(process.env['PLAN_SEEDS'] ?? 40);

/** The outside that a plan leaves on each land, read off its cuts alone. */
function finishedAt(plan: Plan, segment: string): number | null {
  const cuts = plan.holdings.flatMap((h) => h.cuts);
  const last = cuts.filter((c) => c.segment === segment && ['finish', 'groove'].includes(c.kind)).at(-1);
  return last?.d0_mm ?? null;
}

describe.each(threeLathes.map((lathe) => [lathe.name, lathe] as const))('on the %s', (_name, lathe) => {
  test(
    `of ${SEEDS} parts that can be made, at least 95 % are planned, each to its aims`,
    { timeout: 3_600_000 },
    () => {
      let planned = 0;
      for (let seed = 1; seed <= SEEDS; seed++) {
        const { plan, diameters, errors } = report(makeablePart(seed), lathe);
        if (!plan) {
          // A refusal names every way that was tried.
          expect(errors[0]?.code, `seed ${seed}`).toMatch(/no-way|no-bar/);
          continue;
        }
        planned++;
        for (const row of diameters) {
          const d = finishedAt(plan, row.segment);
          if (d !== null && row.end === null)
            expect(d, `seed ${seed}, ${row.segment}`).toBeCloseTo(row.aim_mm ?? NaN, 9);
        }
        const numbers = [...plan.holdings.flatMap((h) => h.cuts), ...plan.off_lathe].map((c) => c.n);
        expect(numbers).toEqual(numbers.map((_, i) => i + 1));
      }
      expect(planned / SEEDS).toBeGreaterThanOrEqual(0.95);
    },
  );
});
