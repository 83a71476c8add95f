import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { setPin } from '../../../src/core/part/part-commands.ts';
import { apply } from '../../../src/core/part/edit.ts';
import type { Part, Pins } from '../../../src/core/part/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

const hill = shapes.find((s) => s.name === 'a hill' && s.unit === 'in')?.part;
if (!hill) throw new Error('no hill among the shapes');

const pinned = <Key extends keyof Pins>(part: Part, key: Key, value: Pins[Key]): Part =>
  setPin(part, key, value).edits.reduce(apply, part);
const planOf = (part: Part) => report(part, firstLathe).plan;

describe('what the user settles is planned around', () => {
  test.each([
    ['right', 'A'],
    ['left', 'F'],
  ] as const)('the first end, %s drawn end toward the headstock', (headstock, first) => {
    expect(planOf(pinned(hill, 'first', first))?.holdings[0]?.headstock).toBe(headstock);
  });

  test('between centres', () => {
    expect(planOf(pinned(hill, 'way', 'centres'))?.holdings.some((h) => h.device === 'centres')).toBe(true);
  });

  test('the centre, or none', () => {
    const bar = pinned(hill, 'way', 'bar');
    const supports = (part: Part) =>
      planOf(part)?.holdings.flatMap((h) => h.cuts.flatMap((c) => c.support ?? []));
    expect(supports(pinned(bar, 'centre', true))).toContain('centre');
    expect(supports(pinned(bar, 'centre', false)) ?? []).not.toContain('centre');
  });

  test('the bar', () => {
    expect(planOf(pinned(hill, 'bar', '1'))?.stock.bar).toBe('1');
  });

  test('the land that is gripped', () => {
    const turned = planOf(pinned(hill, 'grip', 's3'))?.holdings.filter(
      (h) => h.grips?.on !== 'bar' && h.device !== 'centres',
    );
    expect(turned?.length).toBeGreaterThan(0);
    for (const holding of turned ?? []) expect(holding.grips?.on).toContain('s3');
  });

  test('what cannot be is said, with the place of the pins', () => {
    const { plan, errors } = report(pinned(hill, 'bar', '1/2'), firstLathe);
    expect(plan).toBeNull();
    expect(errors.map((e) => e.code)).toEqual(['no-bar']);
  });

  test('a pin that names what is gone binds nothing and is said', () => {
    const { plan, warnings } = report(pinned(hill, 'blade', 'T99'), firstLathe);
    expect(plan).not.toBeNull();
    expect(warnings.map((w) => w.where)).toContain('pins.blade');
  });
});
