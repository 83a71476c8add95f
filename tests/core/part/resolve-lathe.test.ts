import { describe, expect, test } from 'vitest';
import { toMm } from '../../../src/core/lengths/length.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';

const faults = (fields: Partial<Lathe>) =>
  resolveLathe({ ...firstLathe, ...fields }).errors.map(({ code, where }) => `${code} at ${where}`);

describe('a lathe with every text read', () => {
  const lathe = resolveLathe(firstLathe);

  test('inches are exact', () => {
    expect(toMm(lathe.swing)).toBe(177.8);
    expect(lathe.spindleBore).toBe((13 * 25_400_000_000) / 16);
    expect(lathe.collets?.close).toBe(127_000_000);
    expect(lathe.readout.resolution).toBe(12_700_000);
    expect(lathe.minGrip).toBe(9_525_000_000);
    expect(lathe.bars.diameters.map(({ text }) => text)).toEqual([
      '1/4',
      '5/16',
      '3/8',
      '7/16',
      '1/2',
      '5/8',
      '3/4',
      '1',
    ]);
  });

  test('a blade keeps its edge, its width and how well that is known', () => {
    expect(lathe.tools.find(({ id }) => id === 'T3')).toEqual({
      id: 'T3',
      kind: 'blade',
      width: 1_981_200_000,
      widthKnownTo: 12_700_000,
      reach: 11_430_000_000,
      edge: 'left',
    });
  });

  test('the metric one reads in millimetres, and its speeds without steps', () => {
    const metric = resolveLathe(metricLathe);
    expect([toMm(metric.collets?.step ?? lathe.swing), toMm(metric.readout.resolution)]).toEqual([0.5, 0.01]);
    expect(metric.speeds).toEqual({ min: 100, max: 2500 });
  });

  test('what is not said has its usual meaning', () => {
    const { min_grip, feeds, compound_travel, quill_travel, at_hand, ...rest } = firstLathe;
    expect([min_grip, feeds, compound_travel, quill_travel, at_hand].every((one) => one !== undefined)).toBe(
      true,
    );
    const bare = resolveLathe({ ...rest, collets: { min: '1/16', max: '3/4', step: '1/64' }, tools: [{ id: 'T', kind: 'turn', hand: 'right' }] }); // prettier-ignore
    expect(bare).toMatchObject({ minGrip: null, feeds: [], compoundTravel: null, quillTravel: null, taps: null, dies: null, drills: 'all', errors: [] }); // prettier-ignore
    expect(bare.collets).toMatchObject({ close: 0, runout: 0 });
    expect(bare.tools).toEqual([{ id: 'T', kind: 'turn', hand: 'right', nose: 0, trailingDeg: 30 }]);
  });

  test('steps, feeds and bars come in ascending order, however the file has them', () => {
    const mixed = resolveLathe({
      ...firstLathe,
      speeds: [500, 100],
      feeds: ['.004', '.002'],
      bars: { diameters: ['1', '1/2'], length: '12' },
    });
    expect(mixed.speeds).toEqual({ steps: [100, 500] });
    expect(mixed.feeds).toEqual([50_800_000, 101_600_000]);
    expect(mixed.bars.diameters.map(({ text }) => text)).toEqual(['1/2', '1']);
  });

  test('drills, taps and dies at hand', () => {
    const some = resolveLathe({ ...firstLathe, at_hand: { drills: ['1/8'], taps: ['M5x0.8'], dies: [] } });
    expect([some.drills, some.taps, some.dies]).toEqual([['1/8'], ['M5x0.8'], []]);
    expect(resolveLathe({ ...firstLathe, at_hand: { drills: 'No. 19' } }).drills).toEqual(['No. 19']);
  });
});

describe('what cannot be read is named with its place', () => {
  const [turn, , blade] = firstLathe.tools;
  if (turn?.kind !== 'turn' || blade?.kind !== 'blade') throw new Error('other tools');
  test.each([
    [{ swing: 'wide' }, 'size-unreadable at swing'],
    [{ swing: '0' }, 'size-zero at swing'],
    [{ between_centres: '14 ±1' }, 'plain-size-wanted at between_centres'],
    [{ tools: [turn, blade, { ...blade, id: 'T9', width: '' }] }, 'size-unreadable at tools[2].width'],
    [{ tools: [{ ...turn, trailing: '95°' }] }, 'angle-out-of-range at tools[0].trailing'],
    [{ tools: [{ ...turn, trailing: 'steep' }] }, 'angle-unreadable at tools[0].trailing'],
    [{ tools: [{ ...turn, nose: 'sharp' }] }, 'size-unreadable at tools[0].nose'],
    [{ collets: { min: '3/4', max: '1/16', step: '1/64' } }, 'limits-crossed at collets.min'],
    [{ chucks: [{ jaws: 3, min: '1/8', max: 'big' }] }, 'size-unreadable at chucks[0].max'],
    [{ speeds: [] }, 'no-speeds at speeds'],
    [{ speeds: { min: 500, max: 100 } }, 'limits-crossed at speeds.min'],
    [{ feeds: ['.002', 'slow'] }, 'size-unreadable at feeds[1]'],
    [{ bars: { diameters: ['1/2', '1/3'], length: '12' } }, 'size-unreadable at bars.diameters[1]'],
    [{ cut: { ...firstLathe.cut, finish_on_diameter: '' } }, 'size-unreadable at cut.finish_on_diameter'],
    [{ readout: { ...firstLathe.readout, resolution: '-' } }, 'size-unreadable at readout.resolution'],
    [{ compound_travel: '.001' }, 'lathe-too-fine at compound_travel'],
    [{ cut: { ...firstLathe.cut, rough_on_diameter: '.0001' } }, 'lathe-too-fine at cut.rough_on_diameter'],
    [
      { cut: { ...firstLathe.cut, finish_on_diameter: '.0000001' } },
      'lathe-too-fine at cut.finish_on_diameter',
    ],
    [
      { cut: { ...firstLathe.cut, allowance_on_diameter: '1' } },
      'too-many-cuts at cut.allowance_on_diameter',
    ],
  ] as [Partial<Lathe>, string][])('%j: %s', (fields, expected) => {
    expect(faults(fields)).toEqual([expected]);
  });

  test('a tool that cannot be read is left out, the others stay', () => {
    const lathe = resolveLathe({ ...firstLathe, tools: [turn, { ...blade, reach: 'far' }] });
    expect(lathe.tools.map(({ id }) => id)).toEqual([turn.id]);
  });
});
