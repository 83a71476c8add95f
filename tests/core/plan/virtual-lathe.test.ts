import fc from 'fast-check';
import { expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { fromMm } from '../../../src/core/lengths/length.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Plan } from '../../../src/core/plan/types.ts';
import { replay } from '../../../src/core/plan/virtual-lathe.ts';
import { planPart } from '../../../src/core/plan/ways.ts';
import { handPlan, lathe, pin } from './hand-plan.ts';
import { numbered } from './spoil.ts';

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

test('places are exact: one picometre too long is found', () => {
  const plan = handPlan();
  const face = numbered(plan, 20);
  face.z0_mm = 50.000000001;
  expect(replay(plan, pin, lathe).map((p) => p.code)).toContain('ends-differ');
  expect(fromMm(50.000000001) - fromMm(50)).toBe(1);
});

// 16 to 12 over 40: a tool that goes down the cone rubs where its edge falls away behind its point by less than
// atan(2 / 40) = 2.86°. Arithmetic by hand.
test.each([
  ['2.8°', ['trailing-edge']],
  ['2.9°', []],
])('a cone under a swung compound, of 2.86°, with a tool whose edge falls away at %s', (trailing, wanted) => {
  const part = readPart(JSON.stringify(coned), 'cone');
  if (!part.ok) throw new Error(part.problem.say);
  const resolved = resolvePart(part.value);
  const { plan, outline } = planPart(resolved, solveChains(resolved), resolveLathe(metricLathe));
  if (!plan || !outline) throw new Error('no plan');
  const taper = plan.holdings.flatMap((h) => h.cuts).find((c) => c.kind === 'taper');
  const tools = metricLathe.tools.map((t) =>
    t.id === taper?.tool && t.kind === 'turn' ? { ...t, trailing } : t,
  );
  const flaws = replay(plan, outline, resolveLathe({ ...metricLathe, tools }));
  expect(flaws.filter((f) => f.where === `cut ${taper?.n}`).map((f) => f.code)).toEqual(wanted);
});

const rule = { rule: 'iso2768', class: 'm' };
const coned = {
  shaftwright: 1,
  title: 'cone',
  unit: 'mm',
  material: 'mild-steel',
  general: { lengths: rule, diameters: rule },
  faces: ['A', 'B', 'C'].map((id, sketched) => ({ id, sketched })),
  segments: [
    { id: 's1', form: 'cylinder', diameter: '16' },
    { id: 's2', form: 'taper', start: '16', end: '12' },
  ],
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '30' },
    { id: 'L2', from: 'B', to: 'C', size: '40' },
  ],
  pins: { way: 'bar', first: 'A' },
};
