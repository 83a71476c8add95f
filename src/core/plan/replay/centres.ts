import type { Problem } from '../../problem.ts';
import { outsideAt } from '../bar.ts';
import { flaw } from './flaw.ts';
import { between } from '../profile.ts';
import { at, freeEnd } from './scene.ts';
import type { Frame, Held, Mouths, Scene, Side, Step } from './scene.ts';

const NEEDS_THE_END = new Set(['face', 'centre-drill', 'drill', 'bore', 'tap', 'part-off', 'sever']);

/**
 * Live and dead centres. Codes: `no-centre-hole` (a centre is brought up where no 60° mouth stands, or it was drilled
 * away; between centres at either end), `mouth-breaks-out` (the mouth is as wide as the end it stands in),
 * `prove-blocked` (a fit is tried where something thicker stands in front, or not at the size that stands there),
 * `centre-in-the-way` (facing, a hole, a die, parting off with the centre in place or between centres).
 */
export function centreFlaws(scene: Scene): Problem[] {
  return scene.held.flatMap((held) => [
    ...mouthFlaws(held),
    ...held.steps.flatMap(wayFlaws),
    ...held.steps.flatMap(proveFlaws),
  ]);
}

function mouthFlaws(held: Held): Problem[] {
  const sides: readonly Side[] = ['left', 'right'];
  if (held.holding.device === 'centres')
    return sides.flatMap((s) => seatFlaws(held, s, held.mouths, held.where));
  const start = held.holding.support.includes('centre')
    ? seatFlaws(held, held.free, held.mouths, held.where)
    : [];
  const later = held.steps
    .filter((s) => s.cut.kind === 'support' && s.cut.support?.includes('centre'))
    .flatMap((s) => seatFlaws({ ...held, bar: s.before }, held.free, s.mouths, s.where));
  return [...start, ...later, ...held.steps.flatMap(turnedAway)];
}

function seatFlaws(frame: Frame, side: Side, mouths: Mouths, where: string): Problem[] {
  const mouth = mouths[side];
  if (mouth === null)
    return [
      flaw(
        'no-centre-hole',
        where,
        `In ${where} a centre is brought up to the ${side} end, where no centre hole stands.`,
      ),
    ];
  const [l, r] = outsideAt(frame.bar, freeEnd(frame.bar, side));
  const end = (side === 'left' ? r : l) ?? 0;
  return end > mouth
    ? []
    : [flaw('mouth-breaks-out', where, `The centre hole of ${where} is as wide as the end it stands in.`)];
}

/** An end turned down, with the centre in it, to no more than the mouth. */
function turnedAway(step: Step): Problem[] {
  const { held, after, mouths, where } = step;
  const mouth = mouths[held.free];
  if (mouth === null || !step.curve || step.inside || !hasCentre(step)) return [];
  const [l, r] = outsideAt(after, freeEnd(after, held.free));
  const end = (held.free === 'left' ? r : l) ?? 0;
  return end > mouth
    ? []
    : [flaw('mouth-breaks-out', where, `${where} turns the end down to the width of its centre hole.`)];
}

const hasCentre = (step: Step): boolean =>
  step.held.holding.device === 'centres' || step.support.includes('centre');

/** The mate comes over the free end: nothing on the way may be thicker than what it is tried on. */
function proveFlaws(step: Step): Problem[] {
  const { cut, held, before, z0, where } = step;
  if (cut.kind !== 'prove') return [];
  const [l, r] = outsideAt(before, z0);
  const here = Math.max(l ?? 0, r ?? 0);
  const from = freeEnd(before, held.free);
  const way = held.free === 'left' ? between(before.outside, from, z0) : between(before.outside, z0, from);
  const blocked =
    way.some((p) => Math.max(p.d0, p.d1) > here) || here !== at(cut.d0_mm ?? 0) || hasCentre(step);
  return blocked
    ? [flaw('prove-blocked', where, `The mate cannot be tried on where ${where} has it tried.`)]
    : [];
}

function wayFlaws(step: Step): Problem[] {
  const { cut, where } = step;
  const die = cut.kind === 'thread' && (cut.tool === null || Boolean(cut.setting?.die));
  if (!hasCentre(step) || !(NEEDS_THE_END.has(cut.kind) || die)) return [];
  return [
    flaw('centre-in-the-way', where, `The ${cut.kind} of ${where} cannot be done with the centre in place.`),
  ];
}
