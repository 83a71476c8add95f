import { expect, test } from 'vitest';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { report } from '../../../src/core/report.ts';

type More = { d?: string; edges?: object[]; cone?: readonly [start: string, end: string, length: string] };

/** A cone, from 12 to 6 over 30 mm where nothing else is said, then 20 mm of `d`; bored from A. */
function errorsOf(
  hole: object | null,
  { d = '16', edges = [], cone = ['12', '6', '30'] }: More = {},
): unknown[] {
  const [start, end, size] = cone;
  const document = {
    ...{ shaftwright: 1, title: 'walls', unit: 'mm', material: 'mild-steel' },
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces: ['A', 'B', 'C'].map((id, sketched) => ({ id, sketched })),
    segments: [
      { id: 's1', form: 'taper', start, end },
      { id: 's2', form: 'cylinder', diameter: d },
    ],
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size },
      { id: 'L2', from: 'B', to: 'C', size: '20' },
    ],
    edges,
    holes: hole ? [{ id: 'h1', ...hole }] : [],
  };
  const read = readPart(JSON.stringify(document), 'walls');
  if (!read.ok) throw new Error(read.problem.say);
  return report(read.value, metricLathe).errors.map(({ code, where }) => [code, where]);
}

const drill = (diameter: string, depth: string, from = 'A') => ({ from, form: 'drill', diameter, depth });
const refused = [['no-outline', 'h1']];

// By hand: the cone loses 0.2 on the diameter for each millimetre, so 8 is what it has left 20 mm from A.
test('a hole that comes out of the side of the part gives no body', () => {
  expect(errorsOf(drill('8', '20.5'))).toEqual(refused);
  expect(errorsOf(drill('8', '20'))).toEqual(refused);
  expect(errorsOf(drill('8', '19.5'))).not.toEqual(refused);
  expect(errorsOf(drill('6', '20', 'C'))).not.toEqual(refused);
  expect(errorsOf(drill('6', '20.5', 'C'))).toEqual(refused);
});

test('nor does one that meets a chamfer at its mouth', () => {
  const edges = [{ id: 'e1', face: 'C', side: 'left', form: 'chamfer', size: '4', angle: '45°' }];
  expect(errorsOf(drill('7.5', '10', 'C'), { edges })).not.toEqual(refused);
  expect(errorsOf(drill('8', '10', 'C'), { edges })).toEqual(refused);
});

// By hand: a cone from 6 to 16 over 5 mm rises by 45°, as a chamfer of 45° does; one of 60° to the axis falls by 1.73 where the
// cone falls by 1.
test.each([
  ['5', '45°', true],
  ['4', '45°', true],
  ['6', '45°', false],
  ['5', '60°', false],
])('a chamfer on a cone %s mm long, cut at %s: nothing to cut is %s', (length, angle, idle) => {
  const edges = [{ id: 'e1', face: 'A', side: 'right', form: 'chamfer', size: '0.5', angle }];
  const errors = errorsOf(null, { edges, cone: ['6', '16', length] });
  if (idle) expect(errors).toEqual([['no-outline', 'e1']]);
  else expect(errors).not.toContainEqual(['no-outline', 'e1']);
});
