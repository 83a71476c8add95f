import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { report } from '../../../src/core/report.ts';

type Land = { d: string; l: string } | { thread: string; l: string };

/** A shaft of these lands from the left, in mm, with whatever else the file has. */
function shaft(lands: Land[], more: object = {}, first: object = {}): Part {
  const faces = 'ABCDEFGH'.slice(0, lands.length + 1).split('');
  const read = readPart(
    JSON.stringify({
      shaftwright: 1,
      title: 'Warned of',
      unit: 'mm',
      material: 'mild-steel',
      general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
      faces: faces.map((id, sketched) => ({ id, sketched })),
      segments: lands.map((land, i) => ({
        id: `s${i + 1}`,
        ...('d' in land ? { form: 'cylinder', diameter: land.d } : { form: 'thread', thread: land.thread }),
        ...(i === 0 ? first : {}),
      })),
      lengths: lands.map(({ l }, i) => ({ id: `L${i + 1}`, from: faces[i], to: faces[i + 1], size: l })),
      ...more,
    }),
    'shaft',
  );
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

const on = (change: Partial<Lathe>): Lathe => ({ ...metricLathe, ...change });

/** Where a code is told of, among warnings and errors. */
function told(code: string, part: Part, lathe: Lathe = metricLathe): string[] {
  const { warnings, errors } = report(part, lathe);
  return [...warnings, ...errors].filter((note) => note.code === code).map((note) => note.where);
}

const step = [
  { d: '12', l: '20' },
  { d: '16', l: '25' },
];
const plain = shaft(step);

test('the plain step is planned, and warned of nothing that is tried here', () => {
  const { plan, errors } = report(plain, metricLathe);
  expect(errors).toEqual([]);
  expect(plan).not.toBeNull();
});

describe('each warning is told where it holds, and only there', () => {
  test('a centre hole takes nine tenths of its end', () => {
    const centred = (d: string) =>
      shaft([{ d, l: '20' }, { d: '16', l: '25' }], { holes: [{ id: 'h1', from: 'A', form: 'centre', size: 'A2.5' }] }); // prettier-ignore
    // ISO 866: the mouth of a 2.5 centre drill is 5.3 wide (from memory).
    expect(told('centre-too-wide', centred('5.5'))).toEqual(['h1']);
    expect(told('centre-too-wide', centred('12'))).toEqual([]);
  });

  test("a fillet is no smaller than the bearing's own corner", () => {
    // ISO 15: the corner of a 6001 is 0.3 at least (from memory).
    const seated = (radius: string) =>
      shaft(step, { edges: [{ id: 'e1', face: 'B', side: 'left', form: 'fillet', radius }] }, { mate: { bearing: '6001' } }); // prettier-ignore
    expect(told('corner-radius', seated('0.4'))).toEqual(['s1']);
    expect(told('corner-radius', seated('0.2'))).toEqual([]);
  });

  test('a cross hole goes to the axis where no hole runs along it', () => {
    const crossed = (drill_depth: string) =>
      shaft(step, {
        points: [{ id: 'P', sketched: 0.5 }],
        lengths: [
          { id: 'L1', from: 'A', to: 'B', size: '20' },
          { id: 'L2', from: 'B', to: 'C', size: '25' },
          { id: 'L3', from: 'A', to: 'P', size: '10' },
        ],
        holes: [{ id: 'h1', from: 'A', form: 'drill', diameter: '4', depth: drill_depth }],
        crossings: [{ id: 'x1', form: 'hole', at: 'P', diameter: '3', reaches: 'axis' }],
      });
    expect(told('hole-misses', crossed('8'))).toEqual(['x1']);
    expect(told('hole-misses', crossed('15'))).toEqual([]);
  });

  test('the largest diameter wants fewer turns than the slowest, the thinnest more than the fastest', () => {
    expect(told('lathe-speed', plain, on({ speeds: [1500, 2000] }))).toEqual(['speeds']);
    expect(told('lathe-speed', plain, on({ speeds: [100, 200] }))).toEqual(['speeds']);
    expect(told('lathe-speed', plain, on({ speeds: [100, 2500] }))).toEqual([]);
  });

  test('the thinnest bar that cleans up does not swing', () => {
    expect(told('out-of-swing', plain, on({ swing: '15' }))).toEqual(['swing']);
    expect(told('out-of-swing', plain)).toEqual([]);
  });

  test('the bar does not pass the spindle', () => {
    expect(told('bar-over-bore', plain, on({ spindle_bore: '10' }))).toEqual(['plan']);
    expect(told('bar-over-bore', plain, on({ spindle_bore: '30' }))).toEqual([]);
  });

  test('a thread is over four diameters long and cut by die', () => {
    const threaded = (l: string) =>
      shaft([
        { thread: 'M8', l },
        { d: '16', l: '25' },
      ]);
    expect(told('long-thread', threaded('33'))).toEqual(['s1']);
    expect(told('long-thread', threaded('31'))).toEqual([]);
    const cuts = { ...metricLathe, tools: [...metricLathe.tools, { id: 'T9', kind: 'thread' as const }] };
    expect(told('long-thread', threaded('33'), cuts)).toEqual([]);
  });

  test('a groove is narrower than every blade', () => {
    const grooved = (l: string) =>
      shaft([
        { d: '16', l: '20' },
        { d: '12', l },
        { d: '16', l: '20' },
      ]);
    expect(told('no-tool', grooved('0.8'))).toEqual(['s2']);
    expect(told('no-tool', grooved('4'))).toEqual([]);
  });
});
