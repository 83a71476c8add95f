import type { Problem } from '../../problem.ts';
import { isApart, removesMetal } from '../bar.ts';
import { between } from '../profile.ts';
import { sideBySide } from './compare.ts';
import { flaw } from './flaw.ts';
import { freeEnd } from './scene.ts';
import type { Scene, Step } from './scene.ts';

/** Free length over diameter beyond which nobody cuts without a centre or a steady; common practice says 3 to 5, 8 is the end. */
const FREE_DIAMETERS = 8;

/**
 * Cuts that run into the holder, or where nothing holds the work. Codes: `cut-under-grip`, `cut-in-device` (inboard
 * of the grip), `cut-under-steady`, `cut-through` (the bar falls apart in turning, or a hole comes out of its side),
 * `unsupported` (cutting far from the grip without a centre or a steady).
 */
export function clearanceFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => {
    const works = removesMetal(step.cut) || step.cut.kind === 'thread';
    if (!works) return [];
    return [...holderFlaws(step), ...throughFlaws(step), ...supportFlaws(step)];
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
  if (step.steadyAt !== null && z0 < step.steadyAt && step.steadyAt < z1)
    out.push(flaw('cut-under-steady', where, `The ${cut.kind} of ${where} runs through the steady.`));
  return out;
}

function throughFlaws({ cut, where, before, after, curve }: Step): Problem[] {
  if (!curve || cut.kind === 'part-off' || cut.kind === 'sever') return [];
  const apart = isApart(after) && !isApart(before);
  const open = sideBySide(between(after.outside, curve.z0, curve.z1), after.inside).some(
    ({ a, b }) => (b.d0 > 0 || b.d1 > 0) && (a.d0 <= b.d0 || a.d1 <= b.d1),
  );
  return apart || open
    ? [flaw('cut-through', where, `${where} leaves no metal standing between hole and outside.`)]
    : [];
}

function supportFlaws(step: Step): Problem[] {
  const { held, where, before } = step;
  if (step.inside || held.grip === null || held.holding.device === 'centres') return [];
  if (step.support.length > 0 || step.cut.kind === 'sever') return [];
  const edge = held.toHead > 0 ? held.grip.z0 : held.grip.z1;
  const far = held.toHead > 0 ? Math.min(step.z0, step.z1) : Math.max(step.z0, step.z1);
  const reach = Math.abs(edge - Math.min(Math.max(far, before.z0), before.z1));
  const [z0, z1] = far < edge ? [far, edge] : [edge, far];
  const out = between(before.outside, z0 as Step['z0'], z1 as Step['z0']);
  const thick = Math.max(...out.map((p) => Math.max(p.d0, p.d1)), 0);
  return thick > 0 && reach > FREE_DIAMETERS * thick && freeEnd(before, held.free) !== edge
    ? [
        flaw(
          'unsupported',
          where,
          `${where} cuts more than ${FREE_DIAMETERS} diameters from the grip, with neither centre nor steady.`,
        ),
      ]
    : [];
}
