import { packLeaders } from '../core/outline/lanes.ts';
import type { Choice } from './choice.ts';
import type { Drawing } from './drawing.ts';
import type { Measure } from './label.ts';
import type { Spacing } from './scene.ts';

export type SceneLeader = {
  readonly choice: Choice;
  readonly text: string;
  readonly x: number;
  /** Where it ends on the thing: beside x where leaders stand apart that would else be one line. */
  readonly tipX: number;
  /** Where it turns toward its end. */
  readonly bendY: number;
  readonly anchorY: number;
  readonly y: number;
  readonly width: number;
};

/** From one row of notes to the next, and between two notes in one, px. */
export const LEADER_PITCH = 20;
export const GAP = 8;
/** From the foot of a note to its head, with the frame of one that is chosen, px. */
const HIGH = 22;
/** How far below the lowest row a leader turns aside, px. */
const BEND = 8;

/**
 * Notes in rows above the part, each with its leader.
 * @param top - Where the window ends above, px from the axis: what is only written because it is chosen has to be seen
 *   there too, so the rows come down over the drawing as far as it takes. Left out, they stand where they belong.
 */
export function layLeaders(
  { callouts, tall }: Drawing,
  scale: number,
  measure: Measure,
  { above }: Spacing,
  top = -Infinity,
): SceneLeader[] {
  const spread = apart(
    callouts.map((c) => c.mm * scale),
    7,
  );
  const packed = packLeaders(
    callouts.map((c, i) => ({
      id: `${c.choice.kind} ${c.choice.id}`,
      x: spread[i] ?? 0,
      width: measure(c.text) + 6,
    })),
    GAP,
  );
  const lowest = -tall * scale - above;
  const highest = lowest - Math.max(0, ...packed.map(({ row }) => row)) * LEADER_PITCH;
  const down = Math.max(0, top + HIGH - highest);
  return callouts.flatMap((c, i) => {
    const leader = packed[i];
    if (!leader) return [];
    const y = lowest + down - leader.row * LEADER_PITCH;
    const anchorY = -c.up * scale;
    const tipX = Math.min(Math.max(leader.x, (c.mm - c.room) * scale), (c.mm + c.room) * scale);
    const bendY = lowest + down + BEND;
    return [{ choice: c.choice, text: c.text, x: leader.x, tipX, bendY, anchorY, y, width: leader.width }];
  });
}

/** Nudges places that nearly coincide to the right, so that two leaders do not become one line. */
function apart(xs: readonly number[], least: number): number[] {
  const order = xs.map((x, i) => ({ x, i })).sort((a, b) => a.x - b.x || a.i - b.i);
  const out = [...xs];
  let last = -Infinity;
  for (const { x, i } of order) {
    last = Math.max(x, last + least);
    out[i] = last;
  }
  return out;
}
