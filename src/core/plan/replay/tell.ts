import type { Problem } from '../../problem.ts';
import { flaw } from './flaw.ts';
import type { Scene } from './scene.ts';

/**
 * What a sound plan still has to tell its reader, for the caller to put among the warnings. Codes: `centre-left` (a
 * centre hole stands in an end of the finished part that the drawing gives no hole), `matched-apart` (matched
 * diameters were not finished in one holding, nor all between centres).
 */
export function thingsToTell(scene: Scene): Problem[] {
  return [...centresLeft(scene), ...matchedApart(scene)];
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
