import type { ResolvedTool } from '../../part/resolved.ts';
import type { Problem } from '../../problem.ts';
import { between } from '../profile.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene, Step } from './scene.ts';
import { slopeDeg, toolOf } from './tools.ts';

const TURNING = new Set(['face', 'rough', 'finish', 'taper', 'spring', 'fillet']);

/**
 * Places that a turning tool cannot reach. A right-hand tool makes faces that look to the tailstock and needs room on
 * its tailstock side, a left-hand one the other way round, a neutral one needs room on both sides; a wall no higher
 * than the roughing allowance counts as none. Codes: `wrong-hand` (a wall stands right behind the tool),
 * `trailing-edge` (it descends more steeply than its trailing edge, or that edge meets a wall farther off).
 */
export function wallFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => {
    const tool = toolOf(scene, step.cut);
    if (tool?.kind !== 'turn' || step.inside || !step.curve || !TURNING.has(step.cut.kind)) return [];
    if (step.cut.kind === 'face') return tool.hand === 'left' ? [wrongHand(step, tool, 'tailstock')] : [];
    const behind = tool.hand === 'neutral' ? BOTH : tool.hand === 'right' ? TAIL : HEAD;
    const blocked = behind.flatMap((end) => roomFlaws(scene, step, tool, end));
    return blocked.length > 0 ? blocked : descentFlaws(step, tool);
  });
}

type Turning = Extract<ResolvedTool, { kind: 'turn' }>;
type End = 'headstock' | 'tailstock';
const TAIL: readonly End[] = ['tailstock'];
const HEAD: readonly End[] = ['headstock'];
const BOTH: readonly End[] = ['tailstock', 'headstock'];

const wrongHand = ({ where }: Step, tool: Turning, end: End): Problem =>
  flaw(
    'wrong-hand',
    where,
    `${tool.id} is ${tool.hand}-hand and cannot cut up to the ${end}-side face of ${where}.`,
  );

/** Does metal stand in the way behind the tool, where its trailing edge rises from the end of the cut? */
function roomFlaws({ lathe }: Scene, step: Step, tool: Turning, end: End): Problem[] {
  const { curve, after, held } = step;
  if (!curve) return [];
  const toLeft = (end === 'tailstock') === (held.free === 'left');
  const [from, d] = toLeft ? [curve.z0, curve.d0] : [curve.z1, curve.d1];
  const rise = 2 * Math.tan((tool.trailingDeg * Math.PI) / 180);
  const metal = toLeft ? between(after.outside, after.z0, from) : between(after.outside, from, after.z1);
  for (const piece of toLeft ? [...metal].reverse() : metal) {
    const [near, height] = toLeft ? [from - piece.z1, piece.d1 - d] : [piece.z0 - from, piece.d0 - d];
    if (height <= lathe.cut.allowance + rise * near) continue;
    return near === 0
      ? [wrongHand(step, tool, end)]
      : [
          flaw(
            'trailing-edge',
            step.where,
            `The trailing edge of ${tool.id} meets a wall ${inMm(near)} behind ${step.where}.`,
          ),
        ];
  }
  return [];
}

/** A right-hand tool feeds to the headstock and descends where the work gets thinner that way. */
function descentFlaws(step: Step, { hand, trailingDeg, id }: Turning): Problem[] {
  const { curve, held, cut } = step;
  if (!curve || curve.d0 === curve.d1) return [];
  const thinnerToHead = held.toHead > 0 ? curve.d1 < curve.d0 : curve.d0 < curve.d1;
  const descends = hand === 'neutral' || (hand === 'right') === thinnerToHead;
  const steep = cut.kind === 'fillet' ? 90 : slopeDeg(step);
  return descends && steep > trailingDeg
    ? [
        flaw(
          'trailing-edge',
          step.where,
          `${id} would rub: ${step.where} descends over ${inMm(curve.z1 - curve.z0)} more steeply than its trailing edge.`,
        ),
      ]
    : [];
}
