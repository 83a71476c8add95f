import { pm } from '../lengths/length.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import { type Piece, roomWanted } from './billet.ts';
import type { Land } from './frame.ts';
import type { TurnTool } from './tool-choice.ts';

/** A stretch of a cone that one tool cuts at one setting of the carriage, in u (pm). */
export type Bite = { readonly tool: TurnTool; readonly u0: number; readonly u1: number };

/** Diameter of a land at u. */
export const diameterAt = (land: Land, u: number): number =>
  Math.round(land.d0 + ((land.d1 - land.d0) * (u - land.u0)) / (land.u1 - land.u0));

/**
 * Which tools cut a cone: one from end to end where one has room behind it all the way, else one from either side of
 * a place between; each in as many equal bites as the compound's travel asks for.
 *
 * @param degrees - Half angle of the cone. @returns Null where no tool of the lathe gets at some of it.
 */
export function taperBites(
  lathe: ResolvedLathe,
  pieces: readonly Piece[],
  land: Land,
  degrees: number,
): Bite[] | null {
  const climbing = land.d0 < land.d1 ? 'right' : 'left';
  const order = [climbing, climbing === 'right' ? 'left' : 'right', 'neutral'];
  const tools = lathe.tools
    .filter((t): t is TurnTool => t.kind === 'turn')
    .filter((t) => t.hand === climbing || degrees < t.trailingDeg)
    .sort((a, b) => order.indexOf(a.hand) - order.indexOf(b.hand));
  const reach = tools.flatMap((tool) => reachOf(tool, lathe, pieces, land) ?? []);
  const whole = reach.find((r) => r.u0 === land.u0 && r.u1 === land.u1);
  const bites = whole ? [whole] : halves(reach, land);
  return bites?.flatMap((bite) => inTravel(bite, lathe, land, degrees)) ?? null;
}

/** Which tool would get at all of a cone that none of the lathe's does, in words. */
export function toolWanted(
  lathe: ResolvedLathe,
  pieces: readonly Piece[],
  land: Land,
  degrees: number,
): string {
  const climbing = land.d0 < land.d1 ? 'right' : 'left';
  for (let trailingDeg = 10; trailingDeg <= 75; trailingDeg += 5)
    for (const hand of ['right', 'left', 'neutral'] as const) {
      if (hand !== climbing && trailingDeg <= degrees) continue;
      const tool: TurnTool = { id: '', kind: 'turn', hand, nose: pm(0), trailingDeg };
      const reach = reachOf(tool, lathe, pieces, land);
      if (reach?.u0 === land.u0 && reach.u1 === land.u1)
        return `a ${hand === 'neutral' ? 'neutral' : `${hand}-hand`} tool whose edge falls away behind its point at ${trailingDeg}° or more would`;
    }
  return 'nor would any with less than 75° behind its point';
}

/** What of a cone a tool gets at, clear of what stands behind its trailing edge; null where nothing. */
function reachOf(tool: TurnTool, lathe: ResolvedLathe, pieces: readonly Piece[], land: Land): Bite | null {
  const edge = { trailingDeg: tool.trailingDeg, slack: lathe.cut.allowance };
  const clear = (from: number, side: 'tail' | 'head'): number => {
    let u = from;
    for (let i = 0; i < 12; i++) {
      const away = roomWanted(pieces, { u, d: diameterAt(land, u) }, side, edge);
      if (away === 0) return u;
      u += side === 'tail' ? away : -away;
      if (u <= land.u0 || u >= land.u1) return NaN;
    }
    return NaN;
  };
  const u0 = tool.hand === 'left' ? land.u0 : clear(land.u0, 'tail');
  const u1 = tool.hand === 'right' ? land.u1 : clear(land.u1, 'head');
  return u0 < u1 ? { tool, u0, u1 } : null;
}

/** Two tools that meet within the cone. */
function halves(reach: readonly Bite[], land: Land): Bite[] | null {
  const tail = reach.find((r) => r.u0 === land.u0);
  const head = reach.find((r) => r.u1 === land.u1);
  if (!tail || !head || tail.u1 < head.u0) return null;
  return [
    { ...head, u0: head.u0, u1: land.u1 },
    { ...tail, u0: land.u0, u1: head.u0 },
  ];
}

/**
 * Equal bites within the compound's travel, from the side on which the tool falls away behind its point: the blank that
 * still stands there would be in its way.
 */
function inTravel(bite: Bite, lathe: ResolvedLathe, land: Land, degrees: number): Bite[] {
  const travel = (bite.u1 - bite.u0) / Math.cos((degrees * Math.PI) / 180);
  const count = lathe.compoundTravel === null ? 1 : Math.ceil(travel / lathe.compoundTravel);
  const at = (i: number): number =>
    i === count ? bite.u1 : Math.round(bite.u0 + ((bite.u1 - bite.u0) * i) / count);
  const bites = Array.from({ length: count }, (_, i) => ({ ...bite, u0: at(i), u1: at(i + 1) }));
  const fromTail = bite.tool.hand === 'neutral' ? land.d0 < land.d1 : bite.tool.hand === 'right';
  return fromTail ? bites : bites.reverse();
}
