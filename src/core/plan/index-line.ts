import type { HoldingDraft } from './holding-draft.ts';
import { turnTool } from './tool-choice.ts';

/**
 * Scribes the line along the axis from which everything across it is clocked, on the land that was asked for or else
 * where the first crossing lies, when the lands of this holding are done.
 *
 * @param turned - Whether a land is turned in this holding.
 */
export function scribeIndexLine(draft: HoldingDraft, turned: (i: number) => boolean): void {
  const { bench, work } = draft;
  const wanted = bench.indexLine;
  const first = bench.points[0];
  if (wanted === null && first === undefined) return;
  const at = first === undefined ? 0 : draft.at(first);
  const i = work.lands.findIndex((l) => (wanted === null ? l.u0 <= at && at <= l.u1 : l.id === wanted));
  const land = work.lands[i];
  const tool = turnTool(bench.lathe, 'right');
  if (!land || !tool || !turned(i) || land.segment.thread) return;
  draft.add({
    kind: 'touch',
    u0: land.u0,
    u1: land.u0,
    d0: land.d0,
    segment: land.id,
    tool,
    readings: [draft.x(land.d0)],
    say: `Stop and lock the spindle. With the point of ${tool.id} on centre height and just touching, wind the carriage along ${land.id}: a fine line along the axis, 0° for everything that is clocked. It stays: do not polish it off. Then wind the tool clear.`,
  });
}
