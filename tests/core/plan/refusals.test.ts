import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { report } from '../../../src/core/report.ts';
import { makeablePart, threeLathes } from './random-parts.ts';
import { verdictOn } from './refusal-check.ts';
import { largestBar } from './refusal-drawing.ts';
import { anyPart, MAKERS, refusedFor } from './refused-parts.ts';

/** `npm run long` sets a larger figure. */
const SEEDS = Number(process.env['PLAN_SEEDS'] ?? 40);
/** The last two once had a grip on two lands alike with a long groove between them, which its replay stopped. */
const seeds = [...Array.from({ length: SEEDS }, (_, i) => i + 1), 1497, 1958];
const each = threeLathes.map((lathe) => [lathe.name, lathe] as const);

type Told = { readonly way: string; readonly why: string };

/** The reasons for which ways were not taken: of a plan's list, or one by one, asked for by their pins. */
const refusedWays = (part: Part, lathe: Lathe): Told[] =>
  report(part, lathe).plan?.rejected.filter(({ why }) => !/^It (can be done, but|is as good)/.test(why)) ??
  [];

/** "2 of 4 ways: why. Name of one: why. 1 more: other reasons." taken apart; which way is meant is not always said. */
const clauses = (say: string): string[] =>
  say
    .replace(/^No way .*? was found\. /, '')
    .split(/\.(?: |$)/)
    .map((clause) => clause.replace(/^(?:\d+ of \d+ ways|[^:]*(?:bar|blank)[^:]*): /, ''))
    .filter((clause) => clause !== '' && !/^\d+ more: other reasons$/.test(clause));

describe.each(each)('on the %s', (_name, lathe) => {
  test.each(Object.keys(MAKERS))('%s: that is the reason given', (reason) => {
    for (let seed = 1; seed <= Math.max(5, SEEDS / 20); seed++) {
      const made = refusedFor(reason, seed, lathe);
      const { plan, errors } = report(made.part, made.lathe);
      expect(plan, `seed ${seed}`).toBeNull();
      expect([errors[0]?.code, errors[0]?.where], `seed ${seed}`).toEqual([made.code, made.where]);
      expect(errors[0]?.say, `seed ${seed}`).toMatch(made.say);
      // The planner knows it itself, and does not leave it to the virtual lathe.
      expect(errors[0]?.say, `seed ${seed}`).not.toMatch(/its own replay/);
    }
  });

  test('every reason for which a way is left is so', { timeout: 3_600_000 }, () => {
    let told = 0;
    for (const seed of seeds)
      for (const part of [makeablePart(seed), anyPart(seed)])
        for (const { way, why } of refusedWays(part, lathe)) {
          told++;
          expect(verdictOn({ part, lathe, way }, why), `seed ${seed}, ${part.title}: ${way}: ${why}`).toBe(
            'so',
          );
        }
    expect(told).toBeGreaterThan(SEEDS);
  });

  test('every reason for which a part is refused is so', { timeout: 3_600_000 }, () => {
    let refused = 0;
    for (const seed of seeds) {
      const part = anyPart(seed);
      const { plan, errors } = report(part, lathe);
      if (plan) continue;
      refused++;
      for (const { code, where, say } of errors) {
        if (code !== 'no-way') {
          expect(verdictOn({ part, lathe, way: '' }, `${code} ${where}`), `seed ${seed}: ${say}`).toBe('so');
          continue;
        }
        for (const why of clauses(say))
          expect(verdictOn({ part, lathe, way: largestBar(lathe) }, why), `seed ${seed}: ${why}`).toBe('so');
      }
    }
    expect(refused).toBeGreaterThan(SEEDS / 10);
  });
});
