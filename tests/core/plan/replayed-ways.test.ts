import { expect, test } from 'vitest';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { report } from '../../../src/core/report.ts';
import { makeablePart, threeLathes } from './random-parts.ts';
import { anyPart } from './refused-parts.ts';
import { wildPart } from './wild-parts.ts';

/** `npm run long` sets a larger figure. */
const SEEDS = Number(process.env['PLAN_SEEDS'] ?? 40);

/** Beside the first seeds those that once failed. */
const makers: readonly (readonly [name: string, make: (seed: number) => Part, once: readonly number[]])[] = [
  ['parts that can be made', makeablePart, []],
  ['any parts', anyPart, [1497, 1958]],
  ['wild parts', wildPart, [528]],
];

/** What a planner that knows the rules of the virtual lathe never comes to: it is refused, or planned otherwise, before. */
test.each(makers)(
  'of %s no way is left only because its own replay stops',
  { timeout: 3_600_000 },
  (_name, make, once) => {
    let ways = 0;
    for (const seed of [...Array.from({ length: SEEDS }, (_, i) => i + 1), ...once])
      for (const lathe of threeLathes) {
        const { plan, errors } = report(make(seed), lathe);
        const told = [...(plan?.rejected ?? []).map(({ why }) => why), ...(errors[0]?.ways ?? [])];
        ways += told.length;
        expect(
          told.filter((why) => why.includes('its own replay')),
          `seed ${seed} on the ${lathe.name}`,
        ).toEqual([]);
      }
    expect(ways).toBeGreaterThan(SEEDS);
  },
);

const built = (segments: object[], lengths: string[], edges: object[] = []): Part => {
  const faces = lengths.map((_, i) => ({ id: `F${i}`, sketched: i }));
  const document = {
    ...{ shaftwright: 1, title: 'built', unit: 'mm', material: 'mild-steel' },
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces: [...faces, { id: `F${lengths.length}`, sketched: lengths.length }],
    segments: segments.map((s, i) => ({ id: `s${i}`, ...s })),
    lengths: lengths.map((size, i) => ({ id: `L${i}`, from: `F${i}`, to: `F${i + 1}`, size })),
    edges,
  };
  const read = readPart(JSON.stringify(document), 'built');
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
};

test.each([
  [
    'a taper drawn between equal diameters is turned as a cylinder',
    built(
      [
        { form: 'taper', start: '8', end: '8' },
        { form: 'cylinder', diameter: '12' },
      ],
      ['20', '40'],
    ),
  ],
  [
    'a long end chamfered to less than the centre hole of its diameter wants',
    built(
      [
        { form: 'cylinder', diameter: '3.5' },
        { form: 'cylinder', diameter: '7' },
      ],
      ['30', '90'],
      [{ id: 'e1', face: 'F0', side: 'right', form: 'chamfer', size: '1.2', angle: '45°' }],
    ),
  ],
])('%s', (_name, part) => {
  for (const lathe of threeLathes) {
    const { plan, errors } = report(part, lathe);
    expect(plan, JSON.stringify(errors)).not.toBeNull();
    expect(plan?.rejected.filter(({ why }) => why.includes('its own replay'))).toEqual([]);
  }
});
