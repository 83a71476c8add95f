import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { apply } from '../../../src/core/part/edit.ts';
import { placeOf } from '../../../src/core/part/edit-place.ts';
import { setPin, setTitle } from '../../../src/core/part/part-commands.ts';
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
    const rising = shapes.find((s) => s.name === 'rising steps' && s.unit === 'in')?.part ?? hill;
    const bar = pinned(rising, 'way', 'bar');
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

  test('each choice is a step of undo of its own, however quickly one follows another', () => {
    const [edit] = setPin(hill, 'way', 'bar').edits;
    expect(edit && placeOf(edit)).toBeNull();
    const [typed] = setTitle(hill, 'another').edits;
    expect(typed && placeOf(typed)).not.toBeNull();
  });

  test('no parting off: no blade cuts the work from the bar, and the end is faced all the same', () => {
    const plan = planOf(pinned(hill, 'part_off', false));
    const kinds = plan?.holdings.flatMap((h) => h.cuts.map((c) => c.kind)) ?? [];
    expect(kinds).not.toContain('part-off');
    expect(kinds.filter((k) => k === 'face').length).toBeGreaterThan(1);
  });

  test('without any blade at all, once nothing is parted off', () => {
    const bladeless = { ...firstLathe, tools: firstLathe.tools.filter((t) => t.kind !== 'blade') };
    const rising = shapes.find((s) => s.name === 'rising steps' && s.unit === 'in')?.part ?? hill;
    const bar = pinned(rising, 'way', 'bar');
    expect(report(bar, bladeless).plan).toBeNull();
    expect(report(pinned(bar, 'part_off', false), bladeless).plan).not.toBeNull();
  });

  test.each(['stub', 'left'] as const)("the centre's seat, %s", (seat) => {
    const plan = planOf(pinned(hill, 'seat', seat));
    expect(plan?.way?.pins.seat).toBe(seat);
    const made = plan?.holdings[0]?.cuts.find((c) => c.kind === 'centre-drill')?.makes;
    expect(made).toBe(seat === 'stub' ? 'centre-stub' : null);
  });

  // Lands s1 to s5 between faces A to F; a face is made with the lower land beside it.
  test.each([
    ['B', ['s1'], ['s2', 's3', 's4', 's5']],
    ['C', ['s1', 's2'], ['s3', 's4', 's5']],
    ['D', ['s1', 's2', 's3'], ['s4', 's5']],
  ])('the split between two holdings at %s', (split, before, after) => {
    const plan = planOf(pinned(pinned(hill, 'split', split), 'first', 'A'));
    expect(plan?.way?.pins.way).toBe('both-ends');
    const finished = (from: 'right' | 'left') =>
      (plan?.holdings ?? [])
        .filter((h) => h.headstock === from)
        .flatMap((h) => h.cuts.filter((c) => c.kind === 'finish').map((c) => c.segment ?? ''));
    expect([...new Set(finished('right'))].sort()).toEqual(before);
    expect([...new Set(finished('left'))].sort()).toEqual(after);
  });

  test.each(['A', 'F'])('a single face, cut with end %s at the tailstock', (from) => {
    for (const face of ['B', 'C', 'D', 'E']) {
      const plan = planOf(pinned(hill, 'faces', [{ face, from }]));
      const makers = (plan?.holdings ?? []).filter((h) =>
        h.cuts.some((c) => c.kind === 'finish' && c.readings.some((r) => r.station === face)),
      );
      expect(makers.at(-1)?.headstock).toBe(from === 'A' ? 'right' : 'left');
    }
  });

  test('the place of a grip, on the bar, on a finished land, and of the dog', () => {
    const at = (way: 'bar' | 'both-ends' | 'centres', holding: string, out: string) => {
      const settled = pinned(pinned(pinned(hill, 'way', way), 'first', 'A'), 'grips', [{ holding, out }]);
      return planOf(settled)?.holdings.find((h) => h.id === holding)?.grips;
    };
    expect(at('bar', 'H2', '4')?.z0_mm).toBeCloseTo(101.6, 9); // 4 in from end A, which is 0
    expect(at('both-ends', 'H3', '1 1/2')?.z1_mm).toBeCloseTo(79.375 - 38.1, 9); // from end F, at 3 1/8 in
    expect(at('centres', 'H3', '3 3/4')?.z0_mm).toBeCloseTo(95.25, 9);
  });

  test('two faces of which each can be had alone', () => {
    const faces = [
      { face: 'D', from: 'A' },
      { face: 'B', from: 'F' },
    ];
    const { plan, errors } = report(pinned(hill, 'faces', faces), firstLathe);
    expect(plan).toBeNull();
    expect(errors.map(({ code, where }) => [code, where])).toEqual([
      ['no-way', 'pins'],
      ['pin-not-kept', 'pins.faces[0]'],
      ['pin-not-kept', 'pins.faces[1]'],
    ]);
  });

  test('a grip where it is cut cannot be kept, and the room that is wanted is said', () => {
    const settled = pinned(pinned(hill, 'way', 'bar'), 'grips', [{ holding: 'H2', out: '1' }]);
    const { plan, errors } = report(settled, firstLathe);
    expect(plan).toBeNull();
    expect(errors[0]?.say).toMatch(
      /grip of H2 cannot stand 1\.0000 in from the end: it must leave 3\.\d+ in free/,
    );
    expect(errors.map((e) => e.where)).toContain('pins.grips[0]');
  });

  test('a grip that is no size is refused at its place', () => {
    const { errors } = report(pinned(hill, 'grips', [{ holding: 'H2', out: '1..5' }]), firstLathe);
    expect(errors.map(({ code, where }) => [code, where])).toEqual([
      ['size-unreadable', 'pins.grips[0].out'],
    ]);
  });

  test('each way that was left names what brings it about, and the second best is told', () => {
    const plan = planOf(hill);
    expect(plan?.rejected.map((r) => r.runner_up)).toEqual((plan?.rejected ?? []).map((_, i) => i === 0));
    for (const { way, why, pins } of plan?.rejected ?? []) {
      const again = planOf({ ...hill, pins: pins ?? {} });
      const possible = /^It (can be done, but|is as good)/.test(why);
      expect(again?.way?.name).toBe(possible ? way : undefined);
    }
  });

  test('what cannot be is said, with the place of the pins', () => {
    const { plan, errors } = report(pinned(hill, 'bar', '1/2'), firstLathe);
    expect(plan).toBeNull();
    expect(errors.map(({ code, where }) => [code, where])).toEqual([
      ['no-bar', 'pins.bar'],
      ['pin-not-kept', 'pins.bar'],
    ]);
  });

  test.each([
    ['blade', { blade: 'T99' }, 'pins.blade'],
    ['split', { split: 'A' }, 'pins.split'],
    ['face', { faces: [{ face: 'Z', from: 'A' }] }, 'pins.faces[0]'],
    ['land', { grip: 'gone' }, 'pins.grip'],
    ['length', { measured: ['L99'] }, 'pins.measured[0]'],
  ] as const)('a pin that names a %s that is gone binds nothing and is said', (_name, pins, where) => {
    const { plan, warnings } = report({ ...hill, pins: pins as Pins }, firstLathe);
    expect(plan).not.toBeNull();
    expect(warnings.filter((w) => w.code === 'pin-void').map((w) => w.where)).toEqual([where]);
  });
});
