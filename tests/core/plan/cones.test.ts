import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { random } from './random-parts.ts';

type Land =
  | { readonly d: string; readonly l: string }
  | { readonly start: string; readonly end: string; readonly l: string };

/** A plan of three lands in millimetres, out of the bar with end A at the tailstock; throws with the reasons where there is none. */
function planOf(lands: readonly Land[], lathe: Lathe): Plan {
  const rule = { rule: 'iso2768', class: 'm' };
  const document = {
    ...{ shaftwright: 1, title: 'cone', unit: 'mm', material: 'mild-steel' },
    general: { lengths: rule, diameters: rule },
    faces: ['A', 'B', 'C', 'D'].map((id, sketched) => ({ id, sketched })),
    segments: lands.map((land, i) =>
      'd' in land
        ? { id: `s${i + 1}`, form: 'cylinder', diameter: land.d }
        : { id: `s${i + 1}`, form: 'taper', start: land.start, end: land.end },
    ),
    lengths: lands.map(({ l }, i) => ({ id: `L${i + 1}`, from: 'ABC'[i], to: 'BCD'[i], size: l })),
    pins: { way: 'bar', first: 'A' },
  };
  const read = readPart(JSON.stringify(document), 'cone');
  if (!read.ok) throw new Error(read.problem.say);
  const { plan, errors } = report(read.value, lathe);
  if (!plan) throw new Error(errors.map((e) => e.say).join('\n'));
  return plan;
}

/**
 * The point of a tool whose edge falls away at 30° needs a wall that stands h over it on the diameter h / (2 tan 30°) =
 * h / 1.1547 behind it. A cone that rises by s on the diameter for each millimetre: x mm from its large end, going down,
 * x = (W - D - 0.5) / (1.1547 - s); from its small end, going up, x = (W - d - 0.5) / (1.1547 + s). 0.5 is the
 * allowance on the diameter, which does no harm. Arithmetic by hand.
 */
describe('a cone between walls of 20; the edges of the metric lathe, T1 and T2, fall away at 30°', () => {
  const between = (start: string, end: string, l: string): Land[] => [
    { d: '20', l: '30' },
    { start, end, l },
    { d: '20', l: '30' },
  ];
  const turned = (
    start: string,
    end: string,
    l: string,
  ): [string, string | null, number, number, number, number][] =>
    planOf(between(start, end, l), metricLathe)
      .holdings.flatMap((h) => h.cuts)
      .filter(
        (c) => c.segment === 's2' && (c.kind === 'taper' || (c.kind === 'rough' && c.d0_mm !== c.d1_mm)),
      )
      .map((c) => [c.kind, c.tool, ...[c.z0_mm, c.z1_mm, c.d0_mm ?? 0, c.d1_mm ?? 0].map(rounded)] as const)
      .map(([kind, tool, z0 = 0, z1 = 0, d0 = 0, d1 = 0]) => [kind, tool, z0, z1, d0, d1]);
  const rounded = (x: number): number => Math.round(x * 1000) / 1000;

  // s = 4 / 20 = 0.2: x = 5.5 / 0.9547 = 5.761, where the cone is 14 - 0.2 x = 12.848; the way down to 0.5 over it, from
  // 14, is (14 - 13.348) / 1.1547 = 0.565 long. From the small end 9.5 / 1.3547 = 7.013: 5.761 + 7.013 < 20.
  test('14 to 10 over 20: a way down, then to the small end with one tool, and the rest with the other', () => {
    expect(turned('14', '10', '20')).toEqual([
      ['rough', 'T1', 35.196, 35.761, 14, 13.348],
      ['taper', 'T1', 35.761, 50, 12.848, 10],
      ['taper', 'T2', 30, 35.761, 14, 12.848],
    ]);
  });

  test('10 to 14 over 20: the same with the hands changed', () => {
    expect(turned('10', '14', '20')).toEqual([
      ['rough', 'T2', 44.239, 44.804, 13.348, 14],
      ['taper', 'T2', 30, 44.239, 10, 12.848],
      ['taper', 'T1', 44.239, 50, 12.848, 14],
    ]);
  });

  // s = 0.05: x = 5.5 / 1.1047 = 4.979, where the cone lies 0.249 under its blank, less than the allowance.
  test('14 to 13 over 20: so flat that no way down is wanted', () => {
    expect(turned('14', '13', '20').map(([kind, tool]) => [kind, tool])).toEqual([
      ['taper', 'T1'],
      ['taper', 'T2'],
    ]);
  });

  // s = 4 / 12 = 0.333: 5.5 / 0.8214 = 6.696 and 9.5 / 1.4880 = 6.384: 13.080 > 12. At 35° (1.4004): 5.154 + 6.384 < 12.
  test('14 to 10 over 12: the two tools do not meet, and one of 35° in place of the first would', () => {
    expect(() => planOf(between('14', '10', '12'), metricLathe)).toThrow(
      /nor two together, get at all of s2 .*; a right-hand tool whose edge falls away behind its point at 35° or more would/,
    );
    const slim = metricLathe.tools.map((t) => (t.id === 'T1' ? { ...t, trailing: '35°' } : t));
    expect(
      planOf(between('14', '10', '12'), { ...metricLathe, tools: slim as Lathe['tools'] }).holdings,
    ).not.toHaveLength(0);
  });

  // 18 to 10 over 6: atan(4 / 6) = 33.7°, steeper than both edges.
  test('18 to 10 over 6: steeper than the edge of the tool that would go down it', () => {
    expect(() => planOf(between('18', '10', '6'), metricLathe)).toThrow(/nor two together/);
  });
});

// Whether the two meet is reckoned as above, for walls and cones of any size: cut where they do, refused where not.
test('random cones between random walls are cut where the two tools meet, and only there', () => {
  const edge = 2 * Math.tan(Math.PI / 6);
  const told = { cut: 0, refused: 0 };
  for (let seed = 1; seed <= 60; seed++) {
    const next = random(seed);
    const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
    const [large, l] = [int(20, 36) / 2, int(4, 30)];
    const small = large - int(2, 12) / 2;
    const [wallLarge, wallSmall] = [int(2 * large + 2, 38) / 2, int(2 * large + 2, 38) / 2];
    const slope = (large - small) / l;
    const room = (wallLarge - large - 0.5) / (edge - slope) + (wallSmall - small - 0.5) / (edge + slope);
    const meets = slope < edge && room < l;
    const lands = [
      { d: String(wallLarge), l: '24' },
      { start: String(large), end: String(small), l: String(l) },
      { d: String(wallSmall), l: '24' },
    ];
    const turned = lands.map((land) =>
      'start' in land ? { ...land, start: land.end, end: land.start } : land,
    );
    for (const drawn of [lands, turned.reverse()]) {
      const plan = (): Plan => planOf(drawn as Land[], metricLathe);
      if (meets) expect(plan().holdings.length, `seed ${seed}`).toBeGreaterThan(0);
      else expect(plan, `seed ${seed}`).toThrow(/nor two together/);
    }
    told[meets ? 'cut' : 'refused']++;
  }
  expect(Math.min(told.cut, told.refused)).toBeGreaterThan(3);
});
