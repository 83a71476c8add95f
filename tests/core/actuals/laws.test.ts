import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  addActual,
  clearActuals,
  correctActual,
  dropActual,
  tickStep,
  untickStep,
} from '../../../src/core/actuals/commands.ts';
import { readShown } from '../../../src/core/actuals/read-actual.ts';
import { actualsOf } from '../../../src/core/actuals/section.ts';
import { placedSteps } from '../../../src/core/actuals/step-name.ts';
import type { ActualsReport } from '../../../src/core/actuals/types.ts';
import { applyAll, invertAll } from '../../../src/core/part/edit.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Actual, Part } from '../../../src/core/part/types.ts';
import { writePart } from '../../../src/core/part/write-part.ts';
import { report } from '../../../src/core/report.ts';
import type { Report } from '../../../src/core/report-types.ts';

// The law: whatever a planner made of a real part, what is measured and ticked must not disturb without cause.
const radii: Lathe = {
  ...firstLathe,
  readout: { ...firstLathe.readout, x: 'radius', z_positive: 'headstock' },
};
let part: Part;
const reports = new Map<Lathe, Report>();
beforeAll(() => {
  const example = new URL('../../../static/examples/blower-shaft.json', import.meta.url);
  const read = readPart(readFileSync(example, 'utf8'), 'example');
  if (!read.ok) throw new Error(read.problem.say);
  part = read.value;
  for (const lathe of [firstLathe, metricLathe, radii]) reports.set(lathe, report(part, lathe));
}, 120_000);

const madeOn = (lathe: Lathe): Report => {
  const made = reports.get(lathe);
  if (!made?.plan) throw new Error('the example is planned');
  return made;
};
const stepsOn = (lathe: Lathe) => {
  const { plan } = madeOn(lathe);
  return plan ? placedSteps(plan) : [];
};
const sectionOn = (lathe: Lathe, actuals: readonly Actual[]): ActualsReport => {
  const found = actualsOf({ ...part, actuals: [...actuals] }, lathe, madeOn(lathe));
  if (!found) throw new Error('the example is solved');
  return found;
};
const tickAll = (lathe: Lathe): Actual[] =>
  stepsOn(lathe).map(({ name, cut }) => ({ what: 'done', step: name, cut: cut.n }));
const mm = (value: number) => `${value.toFixed(9)} mm`;

describe.each([
  ['an inch readout of diameters', firstLathe],
  ['a metric lathe', metricLathe],
  ['a readout of radii that counts toward the headstock', radii],
])('on %s', (_, lathe) => {
  test('every step has a name of its own', () => {
    const names = stepsOn(lathe).map(({ name }) => JSON.stringify(name));
    expect(new Set(names).size).toBe(names.length);
  });

  test('ticked to the end, every face and point is cut, at its aim, and nothing changes', () => {
    const found = sectionOn(lathe, tickAll(lathe));
    expect(found.stations.filter(({ state }) => state !== 'cut')).toEqual([]);
    expect(found.stations.filter(({ moved_mm }) => moved_mm !== 0)).toEqual([]);
    expect(found).toMatchObject({ readings: [], marks: [], shifts: [], stop: null, notes: [] });
    expect(found.done).toHaveLength(stepsOn(lathe).length);
  });

  test('every face at its aim and every diameter at its reading change nothing', () => {
    const faces = madeOn(lathe).chains.stations;
    const actuals = [
      ...Object.entries(faces).flatMap(([of, { aim_mm }]): Actual[] =>
        of === 'A' || aim_mm === null
          ? []
          : [{ what: 'face', of, from: 'A', text: mm(aim_mm), set: 'readings' }],
      ),
      ...stepsOn(lathe).flatMap(({ cut, name }): Actual[] => {
        const x = cut.readings.find(({ axis }) => axis === 'X');
        if (cut.kind !== 'measure' || !x || cut.segment === null) return [];
        const text = mm(
          ((readShown(x.text, lathe.unit) ?? 0) / 1e9) * (lathe.readout.x === 'radius' ? 2 : 1),
        );
        return [{ what: 'diameter', of: cut.segment, text, step: name, cut: cut.n }];
      }),
    ];
    const found = sectionOn(lathe, actuals);
    expect(found.shifts.length).toBeGreaterThan(5);
    expect(found.shifts.filter(({ set }) => set !== 'none')).toEqual([]);
    expect(found.readings.filter(({ why }) => !why.includes('aim'))).toEqual([]);
    expect(found).toMatchObject({ marks: [], stop: null });
    expect(found.stations.filter(({ moved_mm }) => moved_mm !== 0)).toEqual([]);
  });

  test('wherever one face comes out, readings lead to where faces now are, to half a count', () => {
    const { plan, chains } = madeOn(lathe);
    const faces = Object.keys(chains.stations).filter((id) => id !== 'A' && /^[A-Z]$/.test(id));
    fc.assert(
      fc.property(fc.constantFrom(...faces), fc.integer({ min: -300, max: 300 }), (of, off) => {
        const aim = chains.stations[of]?.aim_mm ?? 0;
        const found = sectionOn(lathe, [{ what: 'face', of, from: 'A', text: mm(aim + off / 1000) }]);
        const place = new Map(found.stations.map(({ station, z_mm }) => [station, z_mm]));
        expect(place.get(of)).toBeCloseTo(aim + off / 1000, 8);
        const count = lathe.unit === 'in' ? 0.0127 : 0.01;
        const texts = new Map(found.readings.map(({ n, at, text }) => [`${n} ${at}`, text]));
        const aims = (id: string) => chains.stations[id]?.aim_mm ?? 0;
        for (const { cuts, datum, z_sign } of plan?.holdings ?? [])
          for (const cut of cuts)
            cut.readings.forEach(({ axis, station, value_mm, text }, at) => {
              if (axis !== 'Z' || !station) return;
              const apart = (place.get(station) ?? 0) - (place.get(datum.station) ?? 0);
              const asDrawn = aims(station) - aims(datum.station);
              const wanted = value_mm + (apart - asDrawn) * z_sign;
              const shown = readShown(texts.get(`${cut.n} ${at}`) ?? text, lathe.unit);
              expect(Math.abs((shown ?? Number.NaN) / 1e9 - wanted)).toBeLessThanOrEqual(count / 2 + 1e-8);
            });
      }),
      { numRuns: 30 },
    );
  }, 60_000);
});

test('planned anew for another lathe, ticks and sizes find their steps or are named', () => {
  const actuals = tickAll(firstLathe);
  const found = sectionOn(metricLathe, actuals);
  const gone = found.notes.filter(({ code }) => code === 'step-gone').length;
  expect(found.done.length + gone).toBe(actuals.length);
  expect(found.done.length).toBeGreaterThan(actuals.length / 2);
});

test('a part with what was measured comes back from its file as it was', () => {
  const measured: Actual = {
    what: 'face',
    of: 'B',
    from: 'A',
    text: '12.62',
    unit: 'mm',
    cut: 4,
    shown: '-.5',
    set: 'readings',
  };
  const written = { ...part, actuals: [measured, ...tickAll(firstLathe)] };
  const read = readPart(writePart(written), 'again');
  expect(read.ok && read.value).toEqual(written);
});

describe('edits', () => {
  const size: Actual & { what: 'diameter' } = { what: 'diameter', of: 'left', text: '.3936', unit: 'in' };
  const step = { of: 'left', kind: 'finish', pass: 1 };

  test('what is added, corrected, ticked and taken back stands in the order it was done', () => {
    let now = applyAll(part, addActual(part, size));
    now = applyAll(now, tickStep(now, step, 17));
    now = applyAll(now, addActual(now, { ...size, text: '.3935' }));
    now = applyAll(now, correctActual(now, 0, '.3937'));
    expect(now.actuals).toEqual([
      { ...size, text: '.3937' },
      { what: 'done', step, cut: 17 },
      { ...size, text: '.3935' },
    ]);
    now = applyAll(now, dropActual(now, 0));
    now = applyAll(now, untickStep(now, step));
    expect(now.actuals).toEqual([{ ...size, text: '.3935' }]);
    now = applyAll(now, clearActuals(now));
    expect(now).toEqual(part);
  });

  test('each is taken back by its own reverse, and survives JSON', () => {
    const before = applyAll(part, addActual(part, size));
    for (const change of [
      addActual(before, size),
      tickStep(before, step, 17),
      correctActual(before, 0, '.3937'),
      dropActual(before, 0),
      clearActuals(before),
    ]) {
      const after = applyAll(before, JSON.parse(JSON.stringify(change)) as typeof change);
      expect(after).not.toEqual(before);
      expect(applyAll(after, invertAll(change))).toEqual(before);
    }
  });

  test.each([
    ['a second tick', () => tickStep({ ...part, actuals: [{ what: 'done', step }] }, step, 17)],
    ['a tick that is not there', () => untickStep(part, step)],
    ['an entry that is not there', () => dropActual(part, 3)],
    ['a figure for a tick', () => correctActual({ ...part, actuals: [{ what: 'done', step }] }, 0, '1')],
  ])('%s changes nothing', (_, change) => expect(change().edits).toEqual([]));
});
