import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nextCut } from '../../../src/core/actuals/next-cut.ts';
import { fromInches, pm } from '../../../src/core/lengths/length.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';

const lathe = (x: 'diameter' | 'radius') =>
  resolveLathe({
    ...firstLathe,
    readout: { ...firstLathe.readout, x, resolution: '.0005' },
    cut: { ...firstLathe.cut, finish_on_diameter: '.010' },
  });
const inches = (measured: number, aim: number, tolerance: number) => ({
  measured: fromInches(measured),
  aim: fromInches(aim),
  min: fromInches(aim - tolerance),
  max: fromInches(aim + tolerance),
});
const next = (...figures: [number, number, number]) => nextCut(inches(...figures), pm(0), lathe('diameter'));

describe('how much to take next, finishing cuts of at most .010', () => {
  // left = measured − aim; passes = ⌈left / .010⌉; each takes left / passes. Source: arithmetic.
  test.each([
    [0.525, 0.5, 3, ['.5170', '.5085', '.5000']], // .025 in 3 of .00833; .51667 and .50833 up to the next count
    [0.508, 0.5, 1, ['.5000']],
    [0.51, 0.5, 1, ['.5000']],
    [0.5105, 0.5, 2, ['.5055', '.5000']], // .0105 / 2 = .00525; .50525 up
  ])('%d to %d in %d', (measured, aim, count, readings) => {
    const { passes, finding } = next(measured, aim, 0.001);
    expect(finding).toBe('cut');
    expect(passes).toHaveLength(count);
    expect(passes.map(({ reading }) => reading)).toEqual(readings);
  });

  test('a journal takes two that are alike', () => {
    const { passes } = nextCut(inches(0.508, 0.5, 0.0002), pm(0), lathe('diameter'), { journal: true });
    expect(passes.map(({ take }) => take)).toEqual([fromInches(0.004), fromInches(0.004)]);
  });

  test('a readout that is off by .002 is gone by: .500 is where it shows .498', () => {
    const { passes } = nextCut(inches(0.508, 0.5, 0.001), fromInches(0.002), lathe('diameter'));
    expect(passes.at(-1)?.reading).toBe('.4980');
  });

  test('on a readout of radii: .500 is where it shows .250', () => {
    expect(nextCut(inches(0.508, 0.5, 0.001), pm(0), lathe('radius')).passes.at(-1)?.reading).toBe('.2500');
  });

  test('a bore grows to its aim: .492 in .008 to .500', () => {
    const { passes } = nextCut(inches(0.492, 0.5, 0.001), pm(0), lathe('diameter'), { inside: true });
    expect(passes).toMatchObject([{ take: fromInches(0.008), to: fromInches(0.5), reading: '.5000' }]);
  });

  test.each([
    ['within limits and at the aim', 0.5003, 0.5, 0.001, 'stop'],
    ['under the aim yet within limits', 0.4995, 0.5, 0.001, 'stop'],
    ['over by less than the readout can show', 0.5004, 0.5, 0.0002, 'polish'],
    ['under the least limit', 0.4985, 0.5, 0.001, 'spoilt'],
  ] as const)('%s: %d for %d', (_, measured, aim, tolerance, finding) => {
    expect(next(measured, aim, tolerance)).toMatchObject({ finding, passes: [] });
  });

  test('spoilt by what lies beyond the limit: .499 − .4985 = .0005', () => {
    expect(next(0.4985, 0.5, 0.001).by).toBe(fromInches(0.0005));
  });

  test('a bore past its greatest is spoilt, under its least is not', () => {
    const bore = (measured: number) =>
      nextCut(inches(measured, 0.5, 0.001), pm(0), lathe('diameter'), { inside: true }).finding;
    expect([bore(0.502), bore(0.49)]).toEqual(['spoilt', 'cut']);
  });

  test('the passes add up to what is left, none over the finishing cut, the last one at the aim', () => {
    fc.assert(
      fc.property(fc.integer({ min: 13_000_000, max: 5_000_000_000 }), fc.boolean(), (left, journal) => {
        const aim = fromInches(0.5);
        const size = { measured: pm(aim + left), aim, min: aim, max: aim };
        const { passes } = nextCut(size, pm(0), lathe('diameter'), { journal });
        expect(passes.reduce((sum, { take }) => sum + take, 0)).toBe(left);
        expect(passes.at(-1)?.to).toBe(aim);
        for (const { take } of passes) expect(take).toBeLessThanOrEqual(fromInches(0.01) + 1);
      }),
    );
  });
});
