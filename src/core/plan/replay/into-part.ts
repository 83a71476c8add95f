import { ZERO } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';
import { between, clip, whole } from '../profile.ts';
import type { Curve, Profile } from '../profile.ts';
import { most, rounding, sideBySide } from './compare.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene, Step } from './scene.ts';

type Span = { readonly z0: Length; readonly z1: Length };

/**
 * Cuts that take away what must stay. Codes: `enters-part` (below the finished surface, or wider or deeper than a
 * finished hole), `allowance-missing` (roughing that leaves less than the allowance on a diameter, or less than half
 * of it on a face), `cuts-nothing` (a cut where no metal stands).
 */
export function partFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => {
    const { curve, cut, where } = step;
    if (!curve || curve.z0 >= curve.z1) return [];
    const spans = removed(step, curve);
    if (spans.length === 0 && cut.kind !== 'spring')
      return [flaw('cuts-nothing', where, `Where the ${cut.kind} of ${where} cuts, no metal stands.`)];
    if (entersPart(scene, step, curve, spans))
      return [flaw('enters-part', where, `The ${cut.kind} of ${where} cuts into the finished part.`)];
    return cut.kind === 'rough' && !step.inside ? allowanceFlaws(scene, step, curve, spans) : [];
  });
}

/** Where a cut takes metal off. */
function removed(step: Step, curve: Curve): readonly Span[] {
  const was: Profile = step.inside ? step.before.inside : step.before.outside;
  const sign = step.inside ? -1 : 1;
  return sideBySide(was, [whole(curve)]).filter((s) => most(sign, s) > 0);
}

function entersPart({ target, outline }: Scene, step: Step, curve: Curve, spans: readonly Span[]): boolean {
  if (step.cut.kind === 'centre-drill') return false;
  const wanted = step.inside ? between(target.inside, ZERO, outline.length) : target.outside;
  const below = step.inside ? 1 : -1;
  const fresh = whole(curve);
  return spans.some(({ z0, z1 }) =>
    sideBySide([clip(fresh, z0, z1)], wanted).some((s) => most(below, s) > rounding(s.a, s.b)),
  );
}

function allowanceFlaws(
  { target, lathe }: Scene,
  step: Step,
  curve: Curve,
  spans: readonly Span[],
): Problem[] {
  const { allowance } = lathe.cut;
  const out: Problem[] = [];
  const fresh = whole(curve);
  const thin = spans.some(({ z0, z1 }) =>
    sideBySide([clip(fresh, z0, z1)], target.outside).some((s) => s.b.d0 > 0 && most(-1, s) > 2 - allowance),
  );
  if (thin)
    out.push(
      flaw(
        'allowance-missing',
        step.where,
        `${step.where} leaves less than ${inMm(allowance)} on a diameter.`,
      ),
    );
  const half = Math.floor(allowance / 2);
  const close = target.walls.some((wall) => {
    const [from, to] = wall.lowSide === 'left' ? [wall.z - half, wall.z] : [wall.z, wall.z + half];
    const near = spans.filter((s) => s.z0 < to && s.z1 > from);
    return near.length > 0 && Math.min(curve.d0, curve.d1) < wall.high;
  });
  if (close)
    out.push(
      flaw('allowance-missing', step.where, `${step.where} leaves less than ${inMm(half)} on a face.`),
    );
  return out;
}
