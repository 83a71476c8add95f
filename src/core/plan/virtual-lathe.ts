import type { Outline } from '../outline/types.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { bladeFlaws } from './replay/blades.ts';
import { centreFlaws } from './replay/centres.ts';
import { clearanceFlaws } from './replay/clear.ts';
import { endFlaws } from './replay/ends.ts';
import { absurdFigures } from './replay/figures.ts';
import { finishFlaws } from './replay/finishing.ts';
import { gripFlaws } from './replay/grips.ts';
import { holeFlaws } from './replay/holes.ts';
import { partFlaws } from './replay/into-part.ts';
import { markFlaws } from './replay/marks.ts';
import { orderFlaws } from './replay/order.ts';
import { readingFlaws } from './replay/readings.ts';
import { resultFlaws } from './replay/result.ts';
import { sceneOf } from './replay/scene.ts';
import type { Scene } from './replay/scene.ts';
import { setupFlaws } from './replay/setup.ts';
import { speedFlaws } from './replay/speeds.ts';
import { stockFlaws } from './replay/stock.ts';
import { stubFlaws } from './replay/stubs.ts';
import { threadFlaws } from './replay/threads.ts';
import { toolFlaws } from './replay/tools.ts';
import { verdictFlaws } from './replay/verdicts.ts';
import { wallFlaws } from './replay/walls.ts';
import type { Plan } from './types.ts';

/** Each family of rules lists its codes where it is defined. */
const RULES: readonly ((scene: Scene) => Problem[])[] = [
  orderFlaws,
  stockFlaws,
  setupFlaws,
  gripFlaws,
  clearanceFlaws,
  partFlaws,
  endFlaws,
  stubFlaws,
  holeFlaws,
  centreFlaws,
  toolFlaws,
  wallFlaws,
  bladeFlaws,
  finishFlaws,
  threadFlaws,
  speedFlaws,
  readingFlaws,
  markFlaws,
  resultFlaws,
  verdictFlaws,
];

/**
 * The virtual lathe: plays a plan through on a bar of revolution, cut by cut, and says where it breaks a rule of the
 * trade or of its own figures, and where what is left is not the part. It knows nothing of how plans are made.
 *
 * @param outline - The part at its aims, as the plan is to leave it.
 * @returns Empty where the plan yields the part. `where` is the holding's id, `cut 12`, `stock`, `result`, or the id
 *   of a segment, hole, edge or crossing that no single cut is to blame for. Never throws, whatever the figures:
 *   those that are no lengths are named (`absurd-figure`), and then nothing else is judged.
 *
 * Cost: about cuts × steps of the bar.
 */
export function replay(plan: Plan, outline: Outline, lathe: ResolvedLathe): Problem[] {
  const absurd = absurdFigures(plan);
  if (absurd.length > 0) return absurd;
  const scene = sceneOf(plan, outline, lathe);
  return RULES.flatMap((rule) => rule(scene));
}
