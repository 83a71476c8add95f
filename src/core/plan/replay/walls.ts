import type { Length } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';
import { outsideAt } from '../bar.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene, Side, Step } from './scene.ts';
import { slopeDeg, toolOf } from './tools.ts';

const TURNING = new Set(['face', 'rough', 'finish', 'taper', 'spring', 'fillet']);

/**
 * Faces that a turning tool cannot make. A right-hand tool makes those that look to the tailstock, a left-hand one
 * those that look to the headstock, a neutral one neither; a wall no higher than the roughing allowance counts as
 * none. Codes: `wrong-hand`, `trailing-edge` (descending more steeply than its trailing edge lets it).
 */
export function wallFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => {
    const tool = toolOf(scene, step.cut);
    if (tool?.kind !== 'turn' || step.inside || !step.curve || !TURNING.has(step.cut.kind)) return [];
    const allowance = scene.lathe.cut.allowance;
    const tail = step.held.free;
    const head: Side = tail === 'left' ? 'right' : 'left';
    const toTail = heightAt(step, head) > allowance;
    const toHead = heightAt(step, tail) > allowance;
    const wrong = (toTail && tool.hand !== 'right') || (toHead && tool.hand !== 'left');
    if (wrong)
      return [
        flaw(
          'wrong-hand',
          step.where,
          `${tool.id} is ${tool.hand}-hand and cannot make the ${toHead ? 'headstock' : 'tailstock'}-side face of ${step.where}.`,
        ),
      ];
    return descentFlaws(step, tool.hand, tool.trailingDeg, tool.id);
  });
}

/**
 * Height on the diameter of the face that this cut makes at one of its ends: as high as the metal that stands beyond
 * it, but no higher than the metal it takes off there.
 */
function heightAt(step: Step, side: Side): number {
  const { curve, before, after, cut } = step;
  if (!curve) return 0;
  if (cut.kind === 'face') return facedAt(step, side);
  const z: Length = side === 'left' ? curve.z0 : curve.z1;
  const left = side === 'left';
  const was = outsideAt(before, z)[left ? 1 : 0] ?? 0;
  const beyond = outsideAt(after, z)[left ? 0 : 1] ?? 0;
  return Math.min(was, beyond) - (left ? curve.d0 : curve.d1);
}

/** Facing leaves one face, at its inner end, all the way to the axis. */
function facedAt({ after, held }: Step, side: Side): number {
  if (side === held.free) return 0;
  return held.free === 'left' ? (after.outside[0]?.d0 ?? 0) : (after.outside.at(-1)?.d1 ?? 0);
}

/** A right-hand tool feeds to the headstock and descends where the work gets thinner that way. */
function descentFlaws(
  step: Step,
  hand: 'right' | 'left' | 'neutral',
  trailing: number,
  id: string,
): Problem[] {
  const { curve, held, cut } = step;
  if (!curve || curve.d0 === curve.d1 || cut.setting?.compound_deg !== undefined) return [];
  const thinnerToHead = held.toHead > 0 ? curve.d1 < curve.d0 : curve.d0 < curve.d1;
  const descends = hand === 'neutral' || (hand === 'right') === thinnerToHead;
  const steep = cut.kind === 'fillet' ? 90 : slopeDeg(step);
  return descends && steep > trailing
    ? [
        flaw(
          'trailing-edge',
          step.where,
          `${id} would rub: ${step.where} descends over ${inMm(curve.z1 - curve.z0)} more steeply than its trailing edge.`,
        ),
      ]
    : [];
}
