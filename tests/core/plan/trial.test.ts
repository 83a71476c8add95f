import { expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

const shape = (name: string): Part => {
  const found = shapes.find((s) => s.name === name && s.unit === 'in')?.part;
  if (!found) throw new Error(`no ${name}`);
  return found;
};
const withTrial = (part: Part, id: string): Part => ({
  ...part,
  segments: part.segments.map((s) =>
    s.id === id ? { ...s, mate: { bore: '.5005/.5000', trial: true } } : s,
  ),
});
const cutsOf = (part: Part) => report(part, firstLathe).plan?.holdings.flatMap((h) => h.cuts) ?? [];

test('a fit is proved in waste at the free end before anything of the part is turned, and the waste is gone then', () => {
  const cuts = cutsOf(withTrial(shape('a valley between two large lands'), 's2'));
  const own = cuts.filter((c) => c.makes === 'trial');
  expect(own.map((c) => c.kind)).toEqual(['rough', 'finish', 'prove', 'face']);
  const aim = report(shape('a valley between two large lands'), firstLathe).diameters[1]?.aim_mm;
  expect(own.find((c) => c.kind === 'prove')).toMatchObject({ segment: 's2', d0_mm: aim });
  const turned = cuts.findIndex((c) => c.segment !== null && c.kind === 'finish');
  expect(cuts.findIndex((c) => c.kind === 'face' && c.makes === 'trial')).toBeLessThan(turned);
});

test('without being asked for there is none', () => {
  expect(cutsOf(shape('a valley between two large lands')).some((c) => c.makes === 'trial')).toBe(false);
});

test('whether the mate goes on the land itself is said: not behind what is thicker', () => {
  const say = (part: Part): string => cutsOf(part).find((c) => c.kind === 'prove')?.say ?? '';
  expect(say(withTrial(shape('a valley between two large lands'), 's2'))).toMatch(
    /cannot be tried on s2 itself/,
  );
  const free = report({ ...withTrial(shape('rising steps'), 's2'), pins: { first: 'A' } }, firstLathe);
  const prove = free.plan?.holdings.flatMap((h) => h.cuts).find((c) => c.kind === 'prove');
  expect(prove?.say).toMatch(/goes on s2 itself/);
});

test('a line along the axis is scribed where something is clocked, or where it was asked for', () => {
  const lined = (part: Part) =>
    cutsOf(part)
      .filter((c) => c.kind === 'touch' && /along the axis/.test(c.say))
      .map((c) => c.segment);
  const hill = shape('a hill');
  expect(lined(hill)).toEqual([]);
  expect(
    lined({ ...hill, segments: hill.segments.map((s) => (s.id === 's4' ? { ...s, index_line: true } : s)) }),
  ).toEqual(['s4']);
});
