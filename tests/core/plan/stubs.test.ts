import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { renameId } from '../../../src/core/part/feature-commands.ts';
import { applyAll } from '../../../src/core/part/edit.ts';
import type { Part, Stub } from '../../../src/core/part/types.ts';
import type { Cut, Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';
import { caught } from './spoil.ts';
import { bench, spoils } from './spoils-of-stubs.ts';

const shape = (name: string, unit: 'in' | 'mm' = 'mm'): Part => {
  const found = shapes.find((s) => s.name === name && s.unit === unit)?.part;
  if (!found) throw new Error(`no ${name}`);
  return found;
};
const keeping = (part: Part, ...stubs: Stub[]): Part => ({ ...part, stubs });
const planned = (part: Part): Plan => {
  const { plan, errors } = report(part, part.unit === 'mm' ? metricLathe : firstLathe);
  if (!plan) throw new Error(errors.map((e) => e.say).join('\n'));
  return plan;
};
const cutsOf = (plan: Plan): Cut[] => plan.holdings.flatMap((h) => h.cuts);

describe('a stub that stays', () => {
  const spigot = keeping(shape('rising steps'), { end: 'A', length: '15', diameter: '6', centre: true });

  // The part is 16 + 12 + 20 + 14 = 62 long; its first face stays zero, so that the stub runs from -15 to 0.
  test('thinner than the land beside it: it is turned, and end A is a shoulder at 0 and at Z 0', () => {
    const plan = planned(spigot);
    expect(plan.stubs).toMatchObject([{ end: 'A', z0_mm: -15, z1_mm: 0, d_mm: 6, centre: true }]);
    const finish = cutsOf(plan).find((c) => c.kind === 'finish' && c.makes === 'stub');
    expect(finish).toMatchObject({ segment: null, z0_mm: -15, z1_mm: 0, d0_mm: 6, d1_mm: 6 });
    expect(finish?.readings).toContainEqual(
      expect.objectContaining({ axis: 'Z', station: 'A', value_mm: 0 }),
    );
    expect(cutsOf(plan).some((c) => c.kind === 'face' && c.z1_mm === 0)).toBe(false);
    expect(cutsOf(plan).filter((c) => c.kind === 'centre-drill')).toMatchObject([
      { makes: 'stub', z0_mm: -15 },
    ]);
  });

  test('the drawing reads as without it: the same Z on every face of the part', () => {
    const faces = (plan: Plan) =>
      new Map(
        cutsOf(plan).flatMap((c) =>
          c.kind === 'finish' ? c.readings.flatMap((r) => (r.station ? [[r.station, r.value_mm]] : [])) : [],
        ) as [string, number][],
      );
    const with_ = faces(planned({ ...spigot, pins: { first: 'A', way: 'bar' } }));
    // A at 0, then 16, 12, 20 toward the headstock, negative on a readout that counts up toward the tailstock.
    expect([...with_]).toEqual(
      expect.arrayContaining([
        ['A', 0],
        ['B', -16],
        ['C', -28],
        ['D', -48],
      ]),
    );
  });

  test('of the bar at the headstock end: parted off beyond it, and not turned round to face it', () => {
    const plan = planned(keeping(shape('falling steps'), { end: 'A', length: '20' }));
    const off = cutsOf(plan).find((c) => c.kind === 'part-off');
    // The metric lathe's blade is 2 wide: the kerf is the 2 mm beyond the 20 mm stub.
    expect(off).toMatchObject({ z0_mm: -22, z1_mm: -20 });
    expect(plan.holdings.every((h) => h.headstock === 'left')).toBe(true);
    expect(cutsOf(plan).filter((c) => c.kind === 'face')).toHaveLength(1);
  });

  test.each(shapes.map((s) => [`${s.name} in ${s.unit}`, s] as const))(
    '%s: at either end and at both',
    (_name, s) => {
      const [first, last] = [s.part.faces[0]?.id ?? '', s.part.faces.at(-1)?.id ?? ''];
      const length = s.unit === 'mm' ? '12' : '1/2';
      for (const ends of [[first], [last], [first, last]]) {
        const free = ends.filter((end) => s.part.holes.every(({ from }) => from !== end));
        const { plan, errors } = report(
          keeping(s.part, ...free.map((end) => ({ end, length }))),
          s.unit === 'mm' ? metricLathe : firstLathe,
        );
        expect({ ends, errors, stubs: plan?.stubs?.length ?? 0 }).toMatchObject({
          errors: [],
          stubs: free.length,
        });
      }
    },
  );

  test('what cannot be is said, with its place', () => {
    const codes = (part: Part) => {
      const { errors, warnings } = report(part, metricLathe);
      return [...errors, ...warnings]
        .filter((p) => /stub|size|plain/.test(p.code))
        .map((p) => [p.code, p.where]);
    };
    const steps = shape('rising steps');
    const stub = { end: 'A', length: '10' };
    expect(codes(keeping(steps, stub, stub))).toContainEqual(['stub-twice', 'stubs[1]']);
    expect(codes(keeping(steps, { end: 'C', length: '10' }))).toContainEqual(['stub-void', 'stubs[0].end']);
    expect(codes(keeping(steps, { end: 'A', length: 'x' }))).toContainEqual([
      'size-unreadable',
      'stubs[0].length',
    ]);
    expect(codes(keeping(steps, { end: 'A', length: '10 ±0.1' }))).toContainEqual([
      'plain-size-wanted',
      'stubs[0].length',
    ]);
    expect(codes(keeping(shape('a tapped and chamfered end'), stub))).toContainEqual([
      'stub-over-hole',
      'stubs[0]',
    ]);
    expect(codes(keeping(steps, stub))).toContainEqual(['stub-covers', 'A']);
    expect(codes(spigot)).not.toContainEqual(['stub-covers', 'A']);
  });

  test('it goes with its face when that gets another name', () => {
    expect(applyAll(spigot, renameId(spigot, 'A', 'Z')).stubs).toMatchObject([{ end: 'Z', length: '15' }]);
  });
});

describe('a plan that takes a stub away is caught', () => {
  test('as planned it stands', () => expect(caught(bench, () => undefined)).toEqual([]));
  test.each(spoils)('%s', (_name, code, spoil) => expect(caught(bench, spoil)).toContain(code));
});
