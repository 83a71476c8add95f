import type { ResolvedLathe } from '../../part/resolved.ts';
import type { Problem } from '../../problem.ts';
import { fromReport } from '../bar.ts';
import { flaw } from './flaw.ts';
import type { Scene } from './scene.ts';

const TURNS = new Set([
  'face',
  'rough',
  'finish',
  'spring',
  'groove',
  'taper',
  'part-off',
  'bore',
  'drill',
  'undercut',
]);

/**
 * Speeds and feeds. Codes: `speed-wrong` (one the lathe has not, none where the work turns, or one where it is turned
 * by hand), `feed-wrong` (one the lathe has not).
 */
export function speedFlaws({ steps, lathe }: Scene): Problem[] {
  return steps.flatMap(({ cut, where }) => {
    const out: Problem[] = [];
    if (cut.rpm === null ? !cut.hand_turned && TURNS.has(cut.kind) : cut.hand_turned || !has(lathe, cut.rpm))
      out.push(
        flaw('speed-wrong', where, `The lathe cannot run ${where} at ${cut.rpm ?? 'no'} turns a minute.`),
      );
    const set = lathe.feeds.length === 0 || cut.feed_mm === null ? null : { feed: fromReport(cut.feed_mm) };
    if (set && !lathe.feeds.some((f) => f === set.feed))
      out.push(flaw('feed-wrong', where, `The lathe has no feed of ${cut.feed_mm} mm a turn.`));
    return out;
  });
}

function has({ speeds }: ResolvedLathe, rpm: number): boolean {
  return 'steps' in speeds ? speeds.steps.includes(rpm) : rpm >= speeds.min && rpm <= speeds.max;
}
