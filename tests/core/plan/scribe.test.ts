import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part } from '../../../src/core/part/types.ts';
import type { Holding, Plan } from '../../../src/core/plan/types.ts';
import { report } from '../../../src/core/report.ts';
import { threeLathes } from './random-parts.ts';

/** A part that is drawn out of the bar in stages, so that its cross hole is in the collet at first. */
const plunger = {
  shaftwright: 1,
  title: 'Feed-pump plunger',
  unit: 'mm',
  material: 'stainless-303',
  general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
  faces: [
    { id: 'A', sketched: 0 },
    { id: 'B', sketched: 30 },
    { id: 'C', sketched: 33 },
    { id: 'D', sketched: 60 },
    { id: 'E', sketched: 78 },
    { id: 'F', sketched: 92 },
  ],
  segments: [
    { id: 'ram', form: 'cylinder', diameter: { size: '10', tol: 'g6' }, role: 'journal' },
    { id: 'ring', form: 'cylinder', diameter: '7.5' },
    { id: 'body', form: 'cylinder', diameter: { size: '14', tol: 'h9' } },
    { id: 'cone', form: 'taper', start: '12', end: '9' },
    { id: 'nut', form: 'thread', thread: 'M8' },
  ],
  points: [{ id: 'p', sketched: 50 }],
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '30', tol: '±0.05' },
    { id: 'L2', from: 'B', to: 'C', size: '3' },
    { id: 'L3', from: 'A', to: 'D', size: '60' },
    { id: 'L4', from: 'D', to: 'E', size: '18' },
    { id: 'L5', from: 'E', to: 'F', size: '14' },
    { id: 'L6', from: 'D', to: 'F', size: '32', role: 'reference' },
    { id: 'L7', from: 'A', to: 'p', size: '46' },
  ],
  edges: [
    { id: 'e1', face: 'A', side: 'right', form: 'chamfer', size: '0.5', angle: '45°' },
    { id: 'e2', face: 'F', side: 'left', form: 'chamfer', size: '1', angle: '45°' },
  ],
  holes: [],
  crossings: [{ id: 'x', at: 'p', form: 'hole', diameter: '4', angle: '0°', reaches: 'through' }],
  requirements: [{ id: 'R1', from: 'B', to: 'D', min: '29.7', max: '30.3', why: 'stroke' }],
  matched: [],
  stubs: [{ end: 'A', length: '12', diameter: '8' }],
};

/** With a keyseat as well, both its ends on the same land as the cross hole. */
const keyed = {
  ...plunger,
  points: [...plunger.points, { id: 'k1', sketched: 40 }, { id: 'k2', sketched: 44 }],
  lengths: [
    ...plunger.lengths,
    { id: 'L8', from: 'k1', to: 'F', size: '52' },
    { id: 'L9', from: 'k1', to: 'k2', size: '8' },
  ],
  crossings: [
    ...plunger.crossings,
    { id: 'key', at: 'k1', to: 'k2', form: 'keyseat', width: '3', depth: '1.5', angle: '90°' },
  ],
};

/** Across the cone, which is turned to its blank first. */
const onCone = {
  ...plunger,
  lengths: plunger.lengths.map((l) => (l.id === 'L7' ? { ...l, size: '70' } : l)),
  points: [{ id: 'p', sketched: 70 }],
};

function partFrom(document: object): Part {
  const read = readPart(JSON.stringify(document), 'part');
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

/** The plan of a part, and those of every other way that can be done. */
function everyPlan(part: Part, lathe: Lathe): { way: string; plan: Plan }[] {
  const { plan } = report(part, lathe);
  expect((plan?.rejected ?? []).filter(({ why }) => /its own replay/.test(why))).toEqual([]);
  const others = (plan?.rejected ?? [])
    .filter(({ why }) => /^It (can be done, but|is as good)/.test(why))
    .map(({ pins }) => report({ ...part, pins: pins ?? {} }, lathe).plan);
  return [plan, ...others].flatMap((p) => (p ? [{ way: p.way?.name ?? '', plan: p }] : []));
}

const isGripped = ({ grips, headstock }: Holding, z_mm: number): boolean =>
  grips !== null && (headstock === 'right' ? z_mm >= grips.z0_mm : z_mm <= grips.z1_mm);

// Common practice, no source: what is in the collet cannot be brushed and scribed.
test('no line is scribed under a grip or behind it', () => {
  const { plan } = report(partFrom(plunger), firstLathe);
  const places = (plan?.holdings ?? []).flatMap((h) =>
    h.marks.map(({ station, z_mm }) => ({ line: `${station} in ${h.id}`, gripped: isGripped(h, z_mm) })),
  );
  expect(places.filter(({ gripped }) => gripped)).toEqual([]);
  expect(places.some(({ line }) => line.startsWith('p in '))).toBe(true);
});

// Common practice, no source: one line for one place, and what is scribed must still be there at the drill or the mill.
describe.each(threeLathes.map((lathe) => [lathe.name, lathe] as const))('on the %s', (_name, lathe) => {
  test.each([
    ['a cross hole', plunger, ['p']],
    ['a cross hole in a cone', onCone, ['p']],
    ['a cross hole and a keyseat', keyed, ['k1', 'k2', 'p']],
  ] as const)(
    '%s: each place is scribed once, where it is out, and no later cut takes it away',
    (_part, document, points) => {
      const plans = everyPlan(partFrom(document), lathe);
      expect(plans.length).toBeGreaterThan(1);
      for (const { way, plan } of plans) {
        const lines = plan.holdings.flatMap((h) =>
          h.marks.filter((m) => m.waste === 'none').map((m) => ({ h, ...m })),
        );
        expect(lines.map((m) => m.station).sort(), way).toEqual(points);
        for (const { h, z_mm, before, station } of lines) {
          expect(isGripped(h, z_mm), `${way}: ${station}`).toBe(false);
          const over = plan.holdings
            .flatMap(({ cuts }) => cuts)
            .filter((c) => c.n >= before && !c.inside && c.z0_mm < z_mm && z_mm < c.z1_mm);
          expect(
            over.map((c) => [c.n, c.kind]),
            `${way}: ${station}`,
          ).toEqual([]);
        }
      }
    },
  );
});

// Turned and parted off in H1 with zero at A, gripped on the thick land and faced at C in H2: p is out both times.
test('of two holdings the one whose zero is the face that the place is dimensioned from', () => {
  const steps = {
    ...{ faces: plunger.faces.slice(0, 3), points: [{ id: 'p', sketched: 31 }] },
    ...{ stubs: [], edges: [], requirements: [] },
    segments: [
      { id: 'a', form: 'cylinder', diameter: '14' },
      { id: 'b', form: 'cylinder', diameter: '10' },
    ],
    pins: { way: 'bar', first: 'A', bar: '5/8', centre: false },
  };
  const holdingOf = (from: string, to: string, size: string): string[] => {
    const lengths = [
      { id: 'L1', from: 'A', to: 'B', size: '25' },
      { id: 'L2', from: 'B', to: 'C', size: '8' },
      { id: 'L3', from, to, size },
    ];
    const { plan } = report(partFrom({ ...plunger, ...steps, lengths }), firstLathe);
    return (plan?.holdings ?? []).flatMap((h) => h.marks.flatMap((m) => (m.station === 'p' ? [h.id] : [])));
  };
  expect(holdingOf('A', 'p', '29')).toEqual(['H1']);
  expect(holdingOf('p', 'C', '4')).toEqual(['H2']);
});

// Nothing is turned on it, so no holding finishes anything: the line waits at least till a tool was touched off.
test('a cross hole through the skin of the bar is scribed when the zero of the holding is set', () => {
  const pin = {
    ...{ ...plunger, faces: plunger.faces.slice(0, 2), stubs: [], edges: [], requirements: [] },
    points: [{ id: 'p', sketched: 10 }],
    segments: [{ id: 'a', form: 'cylinder', diameter: '12' }],
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size: '30' },
      { id: 'L2', from: 'A', to: 'p', size: '8' },
    ],
  };
  const { plan } = report(partFrom({ ...pin, pins: { bar: '12' } }), metricLathe);
  const lines = (plan?.holdings ?? []).flatMap((h) =>
    h.marks
      .filter((m) => m.waste === 'none')
      .map((m) => [m.station, h.cuts.filter((c) => c.n < m.before)] as const),
  );
  expect(lines.map(([station]) => station)).toEqual(['p']);
  expect(lines[0]?.[1].some((c) => c.kind === 'touch')).toBe(true);
});
