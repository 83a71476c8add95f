import type { ResolvedLathe, ResolvedTool } from '../part/resolved.ts';

export type TurnTool = ResolvedTool & { kind: 'turn' };
export type BladeTool = ResolvedTool & { kind: 'blade' };

/** A turning tool of a hand, if the lathe file has one. A neutral tool makes no shoulder, so it serves for neither. */
export const turnTool = (lathe: ResolvedLathe, hand: 'right' | 'left'): TurnTool | null =>
  lathe.tools.find((t): t is TurnTool => t.kind === 'turn' && t.hand === hand) ?? null;

/** The widest blade that is no wider than `room` and reaches `depth`; it overhangs no more than ten of its widths. */
export function bladeFor(lathe: ResolvedLathe, room: number, depth: number): BladeTool | null {
  const fit = lathe.tools.filter(
    (t): t is BladeTool => t.kind === 'blade' && t.width <= room && depth <= bladeReach(t),
  );
  return fit.sort((a, b) => b.width - a.width)[0] ?? null;
}

/** How deep a blade may go: its reach, and no more than ten widths (common practice, no source). */
export const bladeReach = (blade: BladeTool): number => Math.min(blade.reach, 10 * blade.width);

/** Room a pointed tool needs behind it beside a wall of height `h`: its trailing edge must clear the wall. */
export const roomBehind = (tool: TurnTool, h: number): number =>
  Math.ceil(h / Math.tan((Math.max(tool.trailingDeg, 1) * Math.PI) / 180));

export function chamferTool(lathe: ResolvedLathe, angleDeg: number): ResolvedTool | null {
  return lathe.tools.find((t) => t.kind === 'chamfer' && Math.abs(t.angleDeg - angleDeg) < 0.01) ?? null;
}
