import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromMm } from '../../../src/core/lengths/length.ts';
import type { Outline } from '../../../src/core/outline/types.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { replay, warningsOf } from '../../../src/core/plan/virtual-lathe.ts';
import { cut, handPlan, lathe, pin } from './hand-plan.ts';
import { ahead, holding, numbered } from './spoil.ts';

/** Every number in a plan, as a way to set it. */
function numbersIn(value: unknown): ((to: number) => void)[] {
  if (typeof value !== 'object' || value === null) return [];
  const box = value as Record<string, unknown>;
  return Object.keys(box).flatMap((key) =>
    typeof box[key] === 'number' ? [(to: number) => void (box[key] = to)] : numbersIn(box[key]),
  );
}

const anyFigure = fc.oneof(
  fc.constantFrom(NaN, Infinity, -Infinity, 1e300, -1e300, 1e5, -1e5, 0, -0, 5e-324),
  fc.double({ min: -200, max: 200, noNaN: true }),
);

test('never throws, whatever the figures, and always has a place and a sentence for what it finds', () => {
  const count = numbersIn(handPlan()).length;
  const change = fc.tuple(fc.nat(count - 1), anyFigure);
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 8 }), (changes) => {
      const plan = handPlan();
      const set = numbersIn(plan);
      for (const [i, to] of changes) set[i]?.(to);
      for (const p of replay(plan, pin, lathe)) {
        expect(p.where).not.toBe('');
        expect(p.say).toMatch(/\.$/);
      }
      warningsOf(plan, pin, lathe);
    }),
    { numRuns: 400 },
  );
});

test('an empty plan is no plan of the part', () => {
  const plan: Plan = { ...handPlan(), holdings: [], off_lathe: [] };
  const codes = replay(plan, pin, lathe).map((p) => p.code);
  expect(codes).toEqual(
    expect.arrayContaining(['end-not-faced', 'hole-missing', 'ends-differ', 'outside-differs']),
  );
});

test('looks at nothing but its arguments, and changes none of them', () => {
  const plan = handPlan();
  replay(plan, pin, lathe);
  expect(plan).toEqual(handPlan());
  expect(replay(plan, pin, lathe)).toEqual(replay(handPlan(), pin, lathe));
});

const drawn = (change: Partial<Outline>): Outline => ({ ...pin, ...change });
const codes = (plan: Plan, outline: Outline = pin) =>
  warningsOf(plan, outline, lathe).map((p) => [p.code, p.where]);

test('a sound plan of this pin has nothing to warn of', () => {
  expect(codes(handPlan())).toEqual([]);
});

test('a centre hole that the drawing lacks is told, one in a drawn hole is not', () => {
  const plan = handPlan();
  ahead(plan, numbered(plan, 20), cut(0, 'face', [50, 50.5], { tool: 'T1', rpm: 600, d: 0 }));
  holding(plan, 'H2').cuts.push(cut(20.5, 'centre-drill', [48, 50], { d: 5, inside: true, rpm: 600 }));
  expect(codes(plan)).toEqual([['centre-left', 'C']]);
  const hole = pin.holes.map((h) => ({ ...h, from: 'last' as const }));
  expect(codes(plan, drawn({ holes: hole }))).toEqual([]);
});

test('a centre hole in a stub that is faced off is gone', () => {
  const plan = handPlan();
  ahead(plan, numbered(plan, 20), cut(0, 'centre-drill', [50.2, 50.5], { d: 0.5, inside: true, rpm: 600 }));
  expect(codes(plan)).toEqual([]);
});

test('matched diameters finished in two holdings are told, in one they are not', () => {
  const matched = drawn({ matched: [['s1', 's2']] });
  expect(codes(handPlan(), matched)).toEqual([]);
  const plan = handPlan();
  const late = numbered(plan, 13);
  holding(plan, 'H1').cuts = holding(plan, 'H1').cuts.filter((c) => c !== late);
  holding(plan, 'H2').cuts.push(late);
  expect(codes(plan, matched)).toEqual([['matched-apart', 's1']]);
});

test('a finished seat in hard jaws wants a shim', () => {
  const seat = drawn({ segments: pin.segments.map((s) => (s.id === 's1' ? { ...s, role: 'seat' } : s)) });
  const plan = handPlan();
  holding(plan, 'H2').device = 'chuck';
  expect(replay(plan, seat, lathe)).toEqual([]);
  expect(codes(plan, seat)).toEqual([['seat-in-jaws', 'H2']]);
});

test('places are exact: one picometre too long is found', () => {
  const plan = handPlan();
  const face = numbered(plan, 20);
  face.z0_mm = 50.000000001;
  expect(replay(plan, pin, lathe).map((p) => p.code)).toContain('ends-differ');
  expect(fromMm(50.000000001) - fromMm(50)).toBe(1);
});
