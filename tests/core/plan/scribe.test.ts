import { expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { report } from '../../../src/core/report.ts';

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

// Common practice, no source: what is in the collet cannot be brushed and scribed.
test('no line is scribed under a grip or behind it', () => {
  const read = readPart(JSON.stringify(plunger), 'part');
  if (!read.ok) throw new Error(read.problem.say);
  const holdings = report(read.value, firstLathe).plan?.holdings ?? [];
  const places = holdings.flatMap(({ id, headstock, grips, marks }) =>
    marks.map(({ station, z_mm }) => ({
      line: `${station} in ${id}`,
      gripped: grips !== null && (headstock === 'right' ? z_mm >= grips.z0_mm : z_mm <= grips.z1_mm),
    })),
  );
  expect(places.filter(({ gripped }) => gripped)).toEqual([]);
  expect(places.some(({ line }) => line.startsWith('p in '))).toBe(true);
});
