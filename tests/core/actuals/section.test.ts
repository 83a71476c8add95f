import { describe, expect, test } from 'vitest';
import { actualsOf } from '../../../src/core/actuals/section.ts';
import { placedSteps } from '../../../src/core/actuals/step-name.ts';
import type { ActualsReport } from '../../../src/core/actuals/types.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Actual, StepName } from '../../../src/core/part/types.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { lathe, made, plan, reportedDiameters, shaft } from './small-plan.ts';

const nameOf = (n: number): StepName => {
  const step = placedSteps(plan).find(({ cut }) => cut.n === n);
  if (!step) throw new Error(`no cut ${n}`);
  return step.name;
};
const at = (n: number) => ({ step: nameOf(n), cut: n, unit: 'mm' as const });
const diameter = (of: string, text: string, n: number, more: object = {}): Actual => ({
  what: 'diameter',
  of,
  text,
  ...at(n),
  ...more,
});
const face = (of: string, from: string, text: string, n: number, more: object = {}): Actual => ({
  what: 'face',
  of,
  from,
  text,
  ...at(n),
  ...more,
});
const done = (n: number): Actual => ({ what: 'done', step: nameOf(n), cut: n });

function section(actuals: readonly Actual[], on: Lathe = lathe): ActualsReport {
  const found = actualsOf(shaft(actuals), on, made);
  if (!found) throw new Error('no section');
  return found;
}

/** Readings that are no longer as planned: `9 Z -22.64 (+.06 face)`. */
const changed = ({ readings }: ActualsReport) =>
  readings.map(({ n, axis, text, by, why }) => `${n} ${axis} ${text} (${by} ${why.join(' ')})`);
const moved = ({ stations }: ActualsReport) =>
  Object.fromEntries(stations.map(({ station, moved_mm }) => [station, Math.round(moved_mm * 1e6) / 1e6]));
const inspected = ({ inspection }: ActualsReport) =>
  inspection
    .filter(({ verdict }) => verdict !== 'not measured')
    .map(({ of, size, measured_mm, verdict, by_mm }) => `${of} ${size} ${measured_mm} ${verdict} ${by_mm}`);

test('the diameters of the plan made by hand are the ones reported', () => {
  expect(reportedDiameters()).toEqual(made.diameters);
});

test('with nothing measured nothing is changed, and all of the record is still to be measured', () => {
  const empty = section([]);
  expect(empty).toMatchObject({
    done: [],
    shifts: [],
    readings: [],
    marks: [],
    aims: [],
    notes: [],
    stop: null,
  });
  expect(empty.inspection.map(({ of, size }) => `${of} ${size}`)).toEqual(
    // Every size of the drawing that has limits. Source: the drawing.
    'h1 diameter,h1 depth,e1 size,s1 diameter,s2 diameter,s3 diameter,L1 length,L2 length,L3 length,L4 length,R1 requirement'
      .split(',')
      .sort((a, b) => 'sheLR'.indexOf(a[0] ?? '') - 'sheLR'.indexOf(b[0] ?? '')),
  );
  expect(new Set(empty.inspection.map(({ verdict }) => verdict))).toEqual(new Set(['not measured']));
});

// All figures below: source arithmetic, in millimetres.
describe('a diameter measured at a reading', () => {
  test('10.26 where X showed 10.20: all later X readings of the tool go .06 down, until it is touched off again', () => {
    expect(changed(section([diameter('s1', '10.26', 6)]))).toEqual([
      '7 X 9.94 (-0.06 readout)',
      '8 X 9.94 (-0.06 readout)',
      '9 X 15.94 (-0.06 readout)',
      '10 X 15.94 (-0.06 readout)',
    ]);
  });

  test('half of it on a readout of radii: 10.26 / 2 − 10.20 / 2 = .03', () => {
    const radii = { ...lathe, readout: { ...lathe.readout, x: 'radius' as const } };
    const { shifts } = section([diameter('s1', '10.26', 6, { shown: '5.10' })], radii);
    expect(shifts[0]?.by_mm).toBeCloseTo(-0.03, 9);
  });

  test('the readout set to 10.26, later readings stay as planned', () => {
    const set = section([diameter('s1', '10.26', 6, { set: 'readout' })]);
    expect(changed(set)).toEqual([]);
    expect(set.shifts).toMatchObject([
      { set: 'readout', enter: '10.26', tool: 'T1', holding: 'H1', after: 6 },
    ]);
  });

  test('X stood elsewhere than was told: 10.26 at 10.18 is .08', () => {
    expect(changed(section([diameter('s1', '10.26', 6, { shown: '10.18' })]))[0]).toBe(
      '7 X 9.92 (-0.08 readout)',
    );
  });

  test('measured again at the shifted reading 9.94 and 10.00 found, nothing more', () => {
    const both = section([diameter('s1', '10.26', 6), diameter('s1', '10.00', 8)]);
    expect(changed(both).at(-1)).toBe('10 X 15.94 (-0.06 readout)');
    expect(both.shifts.map(({ set }) => set)).toEqual(['readings', 'none']);
  });

  test('typed twice at one step, the last figure holds', () => {
    const both = section([diameter('s1', '10.62', 6), diameter('s1', '10.26', 6)]);
    expect(changed(both)[0]).toBe('7 X 9.94 (-0.06 readout)');
  });

  test('touching off on a measured diameter corrects likewise: 18.02 where X showed 18.00', () => {
    const touched = section([{ what: 'touch', of: 'T1', text: '18.02', ...at(1) }]);
    expect(changed(touched)[0]).toBe('3 X 10.48 (-0.02 readout)');
    expect(changed(touched).at(-1)).toBe('10 X 15.98 (-0.02 readout)');
  });

  test('what was cut before keeps its readings', () => {
    expect(changed(section([done(7), diameter('s1', '10.26', 6)]))[0]).toBe('8 X 9.94 (-0.06 readout)');
  });

  test('spring is named where no spring pass went before: cut 10 follows a finishing cut, cut 6 a spring pass', () => {
    const codes = (actual: Actual) => section([actual]).notes.map(({ code, where }) => `${code} ${where}`);
    expect(codes(diameter('s2', '16.05', 10))).toEqual(['no-spring-pass actuals[0]']);
    expect(codes(diameter('s1', '10.26', 6))).toEqual([]);
  });
});

describe('a face that came out elsewhere', () => {
  // B at 12.62 is .08 short of 12.70. C hangs by L2 ±.1 and L3 ±.3: (.08 − x) / .1 = x / .3 gives x = .06.
  const short = face('B', 'A', '12.62', 6);

  test('12.62 for 12.70: B stays there, C goes .06 nearer, D with it', () => {
    expect(moved(section([short]))).toEqual({ A: 0, B: -0.08, C: -0.06, D: -0.06 });
  });

  test('the readings that remain follow, the one roughing before the wall too', () => {
    expect(changed(section([short]))).toEqual([
      '3 Z -12.37 (+0.08 face)', // .25 before the wall, as planned
      '4 Z -12.62 (+0.08 face)',
      '5 Z -12.62 (+0.08 face)',
      '7 Z -12.62 (+0.08 face)',
      '9 Z -22.64 (+0.06 face)',
      '12 Z -22.64 (+0.06 face)',
    ]);
  });

  test('turned round and measured from D, C is as far from it as ever', () => {
    expect(changed(section([short])).filter((line) => line.startsWith('16'))).toEqual([]);
  });

  test('turned round, D faced at 31.70 and ticked before that came to light, C is .05 farther from it', () => {
    const found = section([done(14), short]);
    expect(moved(found)).toMatchObject({ A: 0, B: -0.08, D: 0 });
    // C moves by c: (.08 − c) / .1 against c / .2, the narrower of L3 and L4: c = .16 / 3 = .0533.
    expect(moved(found)['C']).toBeCloseTo(-0.053333, 5);
    expect(changed(found).filter((line) => line.startsWith('16 Z'))).toEqual(['16 Z -9.05 (-0.05 face)']);
  });

  test('a readout that counts toward the headstock has the other sign', () => {
    const turned = { ...plan, holdings: plan.holdings.map((h) => ({ ...h, z_sign: -h.z_sign as 1 | -1 })) };
    const found = actualsOf(shaft([short]), lathe, { ...made, plan: turned });
    expect(found?.readings.find(({ n }) => n === 9)?.by).toBe('-0.06');
  });

  test('the mark is scribed where the face now goes: −22.70 + .06', () => {
    expect(section([short]).marks).toEqual([
      { holding: 'H1', station: 'C', text: '-22.64', reading_mm: -22.64 },
    ]);
    expect(section([short, done(9)]).marks).toEqual([]);
  });

  test('because the tool was off: Z showed −12.70 at −12.62, so −22.64 is where it shows −22.72', () => {
    const off = section([face('B', 'A', '12.62', 6, { set: 'readings' })]);
    expect(changed(off).find((line) => line.startsWith('9'))).toBe('9 Z -22.72 (-0.02 readout face)');
    expect(off.shifts).toMatchObject([
      { axis: 'Z', tool: 'T1', holding: 'H1', set: 'readings', enter: '-12.62' },
    ]);
  });

  test('because the tool was off, and Z was set to −12.62: −22.64', () => {
    const set = section([face('B', 'A', '12.62', 6, { set: 'readout' })]);
    expect(changed(set).find((line) => line.startsWith('9'))).toBe('9 Z -22.64 (+0.06 face)');
  });

  test('what is ticked stands where it was to be cut by then', () => {
    // C is cut at 22.64 and ticked (16 is its last cut: the shoulder belongs to the thinner s3); then D is 9.05 from it.
    const { stations } = section([short, done(16), face('D', 'C', '9.05', 17)]);
    expect(stations.map(({ station, state, z_mm }) => `${station} ${state} ${z_mm}`)).toEqual([
      'A cut 0',
      'B measured 12.62',
      'C cut 22.64',
      'D measured 31.69',
    ]);
  });

  test('in the other order: ticked at 22.70 before B was measured, C stays at 22.70', () => {
    expect(moved(section([done(16), short]))).toEqual({ A: 0, B: -0.08, C: 0, D: 0 });
  });

  test('measured from a face that was measured: 12.62 + 10.05, and again after cutting back: 10.02', () => {
    const places = (...more: Actual[]) => moved(section([short, ...more]));
    expect(places(face('C', 'B', '10.05', 9))).toMatchObject({ B: -0.08, C: -0.03 });
    expect(places(face('C', 'B', '10.05', 9), face('C', 'B', '10.02', 10))).toMatchObject({
      B: -0.08,
      C: -0.06,
    });
  });

  test('two pairs measured apart, then tied: the pairs keep their lengths', () => {
    const tied = section([short, face('D', 'C', '9.05', 14), face('C', 'A', '22.60', 14)]);
    const row = (of: string) => tied.inspection.find((one) => one.of === of)?.measured_mm;
    expect([row('L1'), row('L4'), row('L3')]).toEqual([12.62, 9.05, 22.6]);
    expect(row('L2')).toBeCloseTo(9.98, 9); // 22.60 − 12.62
  });

  test('two faces that were measured stay where they are when a single one is tied to them', () => {
    expect(moved(section([short, face('A', 'D', '31.75', 14)]))).toMatchObject({ A: 0, B: -0.08, D: 0.05 });
  });

  test('every length that can be kept is kept, and says how it stands', () => {
    const { lengths, stop } = section([short]);
    expect(stop).toBeNull();
    expect(
      lengths.map(({ length, state, ok, now_mm }) => `${length} ${state} ${ok} ${now_mm.toFixed(3)}`),
    ).toEqual([
      'L1 cut true 12.620',
      'L2 open true 10.020', // 22.64 − 12.62
      'L3 open true 22.640',
      'L4 open true 9.000',
    ]);
  });
});

describe('a blade touched off by its other edge', () => {
  // A blade 2 wide: with its left edge at −13.00 its right edge makes the wall at −11.00, and reads so itself.
  const bladed: Plan = {
    ...plan,
    holdings: plan.holdings.map((h) => ({
      ...h,
      cuts: h.cuts.map((cut) =>
        [9, 10, 11, 12].includes(cut.n)
          ? {
              ...cut,
              tool: cut.n === 10 ? null : 'T3',
              readings: cut.readings.map((reading) =>
                reading.axis === 'X'
                  ? reading
                  : {
                      ...reading,
                      edge: 'left' as const,
                      other: {
                        edge: 'right' as const,
                        value_mm: reading.value_mm + 2,
                        text: (reading.value_mm + 2).toFixed(2),
                      },
                    },
              ),
            }
          : cut,
      ),
    })),
  };
  const bySaying = (...log: Actual[]) => {
    const found = actualsOf(shaft(log), lathe, { ...made, plan: bladed });
    if (!found) throw new Error('no section');
    return found;
  };
  const edge = (side: 'left' | 'right', n: number): Actual => ({
    what: 'touch',
    of: 'T3',
    edge: side,
    text: '',
    ...at(n),
    ...(n === 11 ? { step: { of: 'T3', kind: 'touch', pass: 1 } } : {}),
  });

  test('all its readings in that holding are the other ones: −22.70 + 2.00', () => {
    const { readings, notes } = bySaying(edge('right', 9));
    expect(notes).toEqual([]);
    expect(readings.map(({ n, text, edge, other, why }) => [n, text, edge, other?.text, why])).toEqual([
      [9, '-20.70', 'right', '-22.70', ['edge']],
      [12, '-20.70', 'right', '-22.70', ['edge']],
    ]);
  });

  test('by the planned edge, or back to it, nothing changes', () => {
    expect(bySaying(edge('left', 9)).readings).toEqual([]);
    expect(bySaying(edge('right', 9), edge('left', 9)).readings).toEqual([]);
  });

  test('from the step on where it was touched off so', () =>
    expect(bySaying(edge('right', 11)).readings.map(({ n }) => n)).toEqual([12]));

  test('a face that moved moves both: −22.64 + 2.00', () => {
    const { readings } = bySaying(edge('right', 9), face('B', 'A', '12.62', 6));
    const wall = readings.find(({ n }) => n === 12);
    expect([wall?.text, wall?.other?.text, wall?.why]).toEqual(['-20.64', '-22.64', ['edge', 'face']]);
  });

  test('a face measured afterwards corrects the readout as it was read: −20.70 for 22.72 is .02', () => {
    const { shifts } = bySaying(edge('right', 9), face('C', 'A', '22.72', 10, { set: 'readings' }));
    expect(shifts).toMatchObject([{ axis: 'Z', tool: 'T3', set: 'readings' }]);
    expect(shifts[0]?.shown_mm).toBeCloseTo(-20.7, 9);
    expect(shifts[0]?.true_mm).toBeCloseTo(-20.72, 9);
  });

  test('a diameter may be typed with it', () => {
    const both: Actual = {
      what: 'touch',
      of: 'T3',
      edge: 'right',
      text: '16.02',
      step: { of: 'T3', kind: 'touch', pass: 1 },
    };
    expect(changed(bySaying(both)).filter((line) => line.startsWith('12'))).toEqual([
      '12 X 15.98 (-0.02 readout)',
      '12 Z -20.70 (+2.00 edge)',
    ]);
  });
});

describe('a clear stop', () => {
  test('B at 12.52 is .08 under 12.60; it can be cut back, as the shoulder is higher beyond it', () => {
    const { stop, lengths } = section([face('B', 'A', '12.52', 6)]);
    expect(stop).toMatchObject({ lengths: ['L1'] });
    expect(stop?.total_mm).toBeCloseTo(0.08, 9);
    expect(lengths[0]).toMatchObject({ length: 'L1', state: 'cut', ok: false, recut: 'B' });
    expect(lengths[0]?.beyond_mm).toBeCloseTo(-0.08, 9);
    expect(stop?.say).toContain('0.080');
  });

  test('B at 12.88 is .08 over 12.80: only the end A can be cut back', () => {
    expect(section([face('B', 'A', '12.88', 6)]).lengths[0]).toMatchObject({ ok: false, recut: 'A' });
  });

  test('B at 12.32 and A–C at 22.45: L2 10.13 is .03 over, between faces that stand', () => {
    const { stop } = section([face('B', 'A', '12.62', 6), face('C', 'A', '22.75', 10)]);
    expect(stop?.lengths).toEqual(['L2']); // 22.75 − 12.62 = 10.13
    expect(stop?.total_mm).toBeCloseTo(0.03, 9);
  });

  test('not all can be kept: the least is given up, before C is cut', () => {
    // B at 13.15: L1 is .35 over. C wants 23.05 for L2 at least, L3 allows 23.00: .05 is lost at the least.
    const { stop, lengths } = section([face('B', 'A', '13.15', 6)]);
    expect(stop?.total_mm).toBeCloseTo(0.35 + 0.05, 9);
    expect(lengths.filter(({ ok }) => !ok).map(({ length, state }) => `${length} ${state}`)).toEqual([
      'L1 cut',
      'L3 open', // the wider of L2 and L3 gives way
    ]);
  });

  describe('names every length that cannot be kept, and the ways on, the least loss first', () => {
    const micrometres = (mm: number) => Math.round(mm * 1000);
    const choices = ({ stop }: ActualsReport) =>
      stop?.choices.map(({ recut, lengths, total_mm }) => [
        ...recut.map(({ station, by_mm }) => `back ${station} ${micrometres(by_mm)}`),
        ...lengths.map(({ length, beyond_mm }) => `${length} ${micrometres(beyond_mm)}`),
        `in all ${micrometres(total_mm)}`,
      ]);

    test('B at 12.52 is .08 under: cut back by .18 to 12.70 nothing is lost', () => {
      const found = section([face('B', 'A', '12.52', 6)]);
      expect(choices(found)).toEqual([
        ['back B 180', 'in all 0'],
        ['L1 -80', 'in all 80'],
      ]);
      expect(found.stop?.cannot.map(({ length, say }) => [length, say])).toEqual([
        ['L1', 'L1 is under its least by 0.080 mm.'],
      ]);
      expect(found.stop?.say).toContain('cut B back by 0.180 mm more');
    });

    test('B at 13.15: A cut back by .45; else L1 .35 over with L3 .05 over (C at 23.05) or L2 .05 under (C at 23.00)', () => {
      expect(choices(section([face('B', 'A', '13.15', 6)]))).toEqual([
        ['back A 450', 'in all 0'],
        ['L1 350', 'L3 50', 'in all 400'],
        ['L1 350', 'L2 -50', 'in all 400'],
      ]);
    });

    test('a way that keeps another length says which face goes where: C at 23.00, not at 23.05', () => {
      const { stop } = section([face('B', 'A', '13.15', 6)]);
      expect(stop?.choices[2]?.say).toMatch(/^keep L3 instead, with C, D 0.050 mm further to the left/);
    });

    test('L2 .03 over: B cut back to half way between its aims from A, 12.70, and from C, 22.75 − 10 = 12.75', () => {
      expect(choices(section([face('B', 'A', '12.62', 6), face('C', 'A', '22.75', 10)]))?.[0]).toEqual([
        'back B 105', // 12.725 − 12.62
        'in all 0',
      ]);
    });
  });

  test('faces that stand in the wrong order', () => {
    expect(section([face('B', 'A', '12.7', 6), face('C', 'A', '12.1', 10)]).stop?.lengths).toEqual([]);
  });
});

describe('aims that are carried over', () => {
  const aims = ({ aims }: ActualsReport) =>
    aims.map(({ segment, aim_mm, why, from }) => `${segment} ${aim_mm} ${why} ${from}`);

  test('the measured size of the first journal is the aim of its match, and its readings follow', () => {
    const matched = section([diameter('s1', '10.02', 8)]);
    expect(aims(matched)).toEqual(['s3 10.02 matched s1']);
    expect(changed(matched).filter((line) => line.includes('aim'))).toEqual([
      '15 X 10.22 (+0.02 aim)',
      '16 X 10.02 (+0.02 aim)',
      '17 X 10.02 (+0.02 aim)',
    ]);
  });

  test('a test cut is no finished size', () =>
    expect(aims(section([diameter('s1', '10.21', 6)]))).toEqual([]));

  test('a first one that came out beyond the limits gives the limit: 10.05', () => {
    expect(aims(section([diameter('s1', '10.09', 8)]))).toEqual(['s3 10.05 matched s1']);
  });

  test('the match that is finished itself keeps what it is', () => {
    expect(aims(section([diameter('s1', '10.02', 8), diameter('s3', '9.99', 17)]))).toEqual([]);
  });

  test('a fit that was proved remembers its size, for its match as well', () => {
    const fit: Actual = { what: 'fit', of: 's1', text: '9.98', unit: 'mm' };
    expect(aims(section([fit]))).toEqual(['s1 9.98 fit s1', 's3 9.98 fit s1']);
    expect(changed(section([fit]))).toContain('7 X 9.98 (-0.02 aim)');
    expect(aims(section([fit, diameter('s1', '9.97', 8)]))).toEqual(['s3 9.97 matched s1']);
  });
});

describe('the inspection record', () => {
  // Limits: s1 9.95 to 10.05, s2 15.9 to 16.1, L1 12.6 to 12.8, hole 3.9 to 4.1 and 7.5 to 8.5 deep, chamfer .4 to .6.
  test.each([
    ['in limits', diameter('s1', '10.02', 8), ['s1 diameter 10.02 in 0']],
    ['at its greatest', diameter('s1', '10.05', 8), ['s1 diameter 10.05 in 0']],
    ['over by .01', diameter('s1', '10.06', 8), ['s1 diameter 10.06 over 0.01']],
    ['under by .05', diameter('s2', '15.85', 10), ['s2 diameter 15.85 under 0.05']],
    ['a length over by .1', face('B', 'A', '12.9', 6), ['L1 length 12.9 over 0.1']],
    ['measured the other way round', face('A', 'B', '12.9', 6), ['L1 length 12.9 over 0.1']],
    ['a hole', { what: 'diameter', of: 'h1', text: '4.15', unit: 'mm' }, ['h1 diameter 4.15 over 0.05']],
    ['its depth', { what: 'size', of: 'h1', field: 'depth', text: '7.4' }, ['h1 depth 7.4 under 0.1']],
    ['a chamfer', { what: 'size', of: 'e1', field: 'size', text: '.5' }, ['e1 size 0.5 in 0']],
    [
      'in inches, 25.4 mm each: .4 in = 10.16',
      diameter('s1', '.4', 8, { unit: 'in' }),
      ['s1 diameter 10.16 over 0.11'],
    ],
  ] as [string, Actual, string[]][])('%s', (_, actual, rows) => {
    expect(inspected(section([actual]))).toEqual(rows);
  });

  test('a length over faces between follows: 12.62 + 10.05 = 22.67; the requirement 9.95 to 10.05 is met at its limit', () => {
    const both = section([face('B', 'A', '12.62', 6), face('C', 'B', '10.05', 9)]);
    expect(inspected(both)).toEqual([
      'L1 length 12.62 in 0',
      'L2 length 10.05 in 0',
      'L3 length 22.67 in 0',
      'R1 requirement 10.05 in 0',
    ]);
    expect(both.inspection.map(({ of, typed }) => [of, typed])).toContainEqual(['L1', '12.62']);
    expect(both.inspection.map(({ of, typed }) => [of, typed])).toContainEqual(['L3', null]);
  });

  describe('a diameter measured before its last pass has no verdict', () => {
    const s1 = (...log: Actual[]) => section(log).inspection.find(({ of }) => of === 's1');
    test('10.21 before the last .20 is taken: not measured yet, and said so', () =>
      expect(s1(diameter('s1', '10.21', 6))).toMatchObject({
        verdict: 'not measured',
        measured_mm: null,
        typed: null,
        midway: '10.21',
      }));
    test('nor has one that lies in limits by then, as metal still comes off', () =>
      expect(s1(diameter('s1', '10.04', 6))).toMatchObject({ verdict: 'not measured', midway: '10.04' }));
    test('9.90 then is .05 under for good', () =>
      expect(s1(diameter('s1', '9.90', 6))).toMatchObject({ verdict: 'under', typed: '9.90', midway: null }));
    test('after the last pass it counts, and so does what is measured off the lathe', () => {
      expect(s1(diameter('s1', '10.21', 6), diameter('s1', '10.01', 8))).toMatchObject({ verdict: 'in' });
      const off: Actual = { what: 'diameter', of: 's1', text: '10.06', unit: 'mm' };
      expect(s1(diameter('s1', '10.21', 6), off)).toMatchObject({ verdict: 'over', midway: null });
    });
  });

  test('what was only ticked was not measured', () =>
    expect(inspected(section([done(7), done(16)]))).toEqual([]));
});

describe('what cannot be counted is said, and the rest counts', () => {
  test.each([
    ['no size', diameter('s1', '10..2', 6), 'size-unreadable actuals[0].text'],
    ['a tolerance', diameter('s1', '10 h6', 6), 'plain-size-wanted actuals[0].text'],
    ['no such face', face('Q', 'A', '12', 6), 'unknown-station actuals[0].of'],
    ['measured from itself', face('B', 'B', '12', 6), 'unknown-station actuals[0].of'],
    [
      'a step that is gone',
      { what: 'done', step: { of: 's9', kind: 'finish', pass: 1 } },
      'step-gone actuals[0].step',
    ],
    [
      'a turn of the thimble off: 13.2 for 12.7',
      face('B', 'A', '13.2', 6),
      'measured-far-off actuals[0].text',
    ],
  ] as [string, Actual, string][])('%s', (_, actual, note) => {
    const found = section([actual, diameter('s1', '10.02', 8)]);
    expect(found.notes.map(({ code, where }) => `${code} ${where}`)).toContain(note);
    expect(inspected(found)).toContain('s1 diameter 10.02 in 0');
  });

  test('a part whose lengths do not close has no section', () => {
    const open = shaft();
    expect(actualsOf({ ...open, lengths: open.lengths.slice(1, 2) }, lathe, made)).toBeNull();
  });

  test('without a plan what was measured still has its verdict', () => {
    const found = actualsOf(shaft([diameter('s1', '10.06', 8)]), lathe, { ...made, plan: null });
    expect(found && inspected(found)).toEqual(['s1 diameter 10.06 over 0.01']);
    expect(found?.notes).toEqual([]);
  });
});
