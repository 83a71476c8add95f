import type { Problem } from '../../problem.ts';
import { isApart, removesMetal } from '../bar.ts';
import { between } from '../profile.ts';
import { differences, sideBySide } from './compare.ts';
import { flaw } from './flaw.ts';
import type { Scene, Step } from './scene.ts';

/**
 * Free length over diameter beyond which nobody turns without the centre for which a hole stands ready (common practice
 * says 3 to 5), and beyond which nobody turns without support at all (from 12 on a shaft counts as flexible).
 */
const WITH_A_HOLE_READY = 6;
const AT_MOST = 12;
const AT_A_PLACE = new Set(['touch', 'measure', 'prove']);
const PUSHES = new Set(['rough', 'finish', 'spring', 'taper', 'groove', 'undercut', 'fillet']);

/**
 * Cuts that run into the holder, or where nothing holds the work. Codes: `cut-under-grip`, `cut-in-device` (inboard
 * of the grip), `touch-gripped` (a tool is touched off, a line scribed along the axis, a size measured or a mate tried on
 * in the holder or behind it), `cut-under-steady`, `cut-through` (the bar falls apart in turning, or a hole comes out of its side),
 * `die-past-steady` (a die is run on from the free end over a steady),
 * `unsupported` (cutting far from the grip without a centre or a steady).
 */
export function clearanceFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => {
    if (AT_A_PLACE.has(step.cut.kind)) return touchFlaws(step);
    const works = removesMetal(step.cut) || step.cut.kind === 'thread';
    if (!works) return [];
    return [...holderFlaws(step), ...throughFlaws(step), ...supportFlaws(scene, step)];
  });
}

function holderFlaws(step: Step): Problem[] {
  const { held, where, z0, z1, cut } = step;
  if (step.inside || z0 >= z1) return [];
  const out: Problem[] = [];
  if (held.grip) {
    const { grip } = held;
    const beyond = held.toHead > 0 ? z1 > grip.z1 : z0 < grip.z0;
    if (z0 < grip.z1 && z1 > grip.z0)
      out.push(
        flaw('cut-under-grip', where, `The ${cut.kind} of ${where} runs under the grip of ${held.where}.`),
      );
    else if (beyond)
      out.push(
        flaw('cut-in-device', where, `The ${cut.kind} of ${where} lies inside the ${held.holding.device}.`),
      );
  }
  const byHand = cut.kind === 'thread' && cut.tool === null;
  const behind = step.steadyAt !== null && (held.toHead > 0 ? z1 > step.steadyAt : z0 < step.steadyAt);
  if (byHand && behind)
    out.push(
      flaw(
        'die-past-steady',
        where,
        `The die of ${where} would have to pass over the steady of ${held.where}.`,
      ),
    );
  if (step.steadyAt !== null && z0 < step.steadyAt && step.steadyAt < z1)
    out.push(flaw('cut-under-steady', where, `The ${cut.kind} of ${where} runs through the steady.`));
  return out;
}

/** A measuring tool or a tool's point comes only to what stands out of the holder. */
function touchFlaws({ held, where, z0, z1, cut }: Step): Problem[] {
  const { grip, toHead } = held;
  const inboard = grip && (toHead > 0 ? z1 > grip.z0 : z0 < grip.z1);
  return inboard
    ? [flaw('touch-gripped', where, `The ${cut.kind} of ${where} is inboard of the grip of ${held.where}.`)]
    : [];
}

function throughFlaws({ cut, where, before, after, curve }: Step): Problem[] {
  if (!curve || cut.kind === 'part-off' || cut.kind === 'sever') return [];
  const apart = isApart(after) && !isApart(before);
  const open = sideBySide(between(after.outside, curve.z0, curve.z1), after.inside).some(
    (stretch) => (stretch.b.d0 > 0 || stretch.b.d1 > 0) && differences(stretch).some((wall) => wall <= 0),
  );
  return apart || open
    ? [flaw('cut-through', where, `${where} leaves no metal standing between hole and outside.`)]
    : [];
}

function supportFlaws({ lathe }: Scene, step: Step): Problem[] {
  const { held, where, before, z0, z1 } = step;
  const alone = held.grip !== null && held.holding.device !== 'centres' && step.support.length === 0;
  if (step.inside || !held.grip || !alone || !PUSHES.has(step.cut.kind)) return [];
  const [from, to] = held.toHead > 0 ? [z0, held.grip.z0] : [held.grip.z1, z1];
  const out = between(before.outside, from, to);
  const thick = Math.max(0, ...out.map((p) => Math.max(p.d0, p.d1)));
  const ready = step.mouths[held.free] !== null && lathe.support.includes('centre');
  const most = ready ? WITH_A_HOLE_READY : AT_MOST;
  return thick > 0 && to - from > most * thick
    ? [
        flaw(
          'unsupported',
          where,
          `${where} cuts over ${most} diameters from the grip, with neither centre nor steady.`,
        ),
      ]
    : [];
}
