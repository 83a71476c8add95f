import type { Problem } from '../../problem.ts';
import { between } from '../profile.ts';
import { flaw } from './flaw.ts';
import { isFinished } from './grips.ts';
import type { Scene } from './scene.ts';

/**
 * What a sound plan still has to tell its reader, for the caller to put among the warnings. Codes: `centre-left` (a
 * centre hole stands in an end of the finished part that the drawing gives no hole), `matched-apart` (matched
 * diameters were not finished in one holding, nor all between centres), `seat-in-jaws` (a finished seat under hard
 * jaws wants a shim).
 */
export function thingsToTell(scene: Scene): Problem[] {
  return [...centresLeft(scene), ...matchedApart(scene), ...seatsInJaws(scene)];
}

function centresLeft({ finalMouths, outline }: Scene): Problem[] {
  const ends = [
    { side: 'left', from: 'first', face: outline.segments[0]?.left },
    { side: 'right', from: 'last', face: outline.segments.at(-1)?.right },
  ] as const;
  return ends
    .filter(({ side, from }) => finalMouths[side] !== null && !outline.holes.some((h) => h.from === from))
    .map(({ face }) =>
      flaw(
        'centre-left',
        face ?? '',
        `A centre hole stays in the end ${face ?? ''}, which the drawing does not show.`,
      ),
    );
}

function matchedApart({ held, outline }: Scene): Problem[] {
  return outline.matched.flatMap((group) => {
    const where = group.map((id) =>
      held.findLast((h) => h.steps.some((s) => s.cut.segment === id && s.cut.kind === 'finish')),
    );
    const once = where.every((h) => h === where[0]);
    const centres = where.every((h) => h?.holding.device === 'centres');
    return once || centres
      ? []
      : [flaw('matched-apart', group[0] ?? '', `${group.join(' and ')} are not finished in one holding.`)];
  });
}

function seatsInJaws(scene: Scene): Problem[] {
  return scene.held.flatMap(({ holding, grip, bar, where }) => {
    if (holding.device !== 'chuck' || !grip) return [];
    return scene.outline.segments
      .filter((s) => s.role === 'seat' && s.z0 < grip.z1 && s.z1 > grip.z0)
      .filter((s) => isFinished(scene, between(between(bar.outside, grip.z0, grip.z1), s.z0, s.z1)))
      .map((s) =>
        flaw(
          'seat-in-jaws',
          where,
          `${where} closes hard jaws on the finished seat ${s.id}: put a shim under them.`,
        ),
      );
  });
}
