import { pm } from '../lengths/length.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import type { Piece } from './billet.ts';
import type { Land } from './frame.ts';
import { roomBehind, type TurnTool } from './tool-choice.ts';

/** A stretch of a cone that one tool cuts at one setting of the carriage, in u (pm). */
export type Bite = { readonly tool: TurnTool; readonly u0: number; readonly u1: number };

/** Diameter of a land at u. */
export const diameterAt = (land: Land, u: number): number =>
  Math.round(land.d0 + ((land.d1 - land.d0) * (u - land.u0)) / (land.u1 - land.u0));

/**
 * A slope roughed through the blank beside a high wall, down to just over the cone, so that the first tool gets to where
 * it begins. In u (pm); it is no steeper than the trailing edge of its tool.
 */
export type Entry = {
  readonly tool: TurnTool;
  readonly u0: number;
  readonly u1: number;
  readonly d0: number;
  readonly d1: number;
};

export type TaperCut = { readonly entry: Entry | null; readonly bites: readonly Bite[] };

/**
 * Which tools cut a cone: one from end to end where one has room behind it all the way, else two. Between high walls
 * the one that descends begins as near the wall at the large end as its trailing edge lets it and cuts to the small
 * end; the one that climbs then takes what is left up to that wall. Each in as many equal bites as the compound's
 * travel asks for.
 *
 * @param degrees - Half angle of the cone. @returns Null where no tool of the lathe gets at some of it.
 */
export function taperBites(
  lathe: ResolvedLathe,
  pieces: readonly Piece[],
  land: Land,
  degrees: number,
): TaperCut | null {
  const climbing = climbingHand(land);
  const order = [climbing, climbing === 'right' ? 'left' : 'right', 'neutral'];
  const tools = lathe.tools
    .filter((t): t is TurnTool => t.kind === 'turn')
    .filter((t) => t.hand === climbing || degrees < t.trailingDeg)
    .sort((a, b) => order.indexOf(a.hand) - order.indexOf(b.hand));
  const reach = tools.flatMap((tool) => reachOf(tool, lathe, besides(pieces, land), land) ?? []);
  const whole = reach.find((r) => r.u0 === land.u0 && r.u1 === land.u1);
  const pair = whole ? [whole] : halves(reach, land);
  const [first] = pair ?? [];
  if (!pair || !first) return null;
  return {
    entry: whole ? null : entryOf(first, lathe, land),
    bites: pair.flatMap((bite) => inTravel(bite, lathe, land, degrees)),
  };
}

/** The hand of the tool that climbs the cone along its feed. */
const climbingHand = (land: Land): 'right' | 'left' => (land.d0 < land.d1 ? 'right' : 'left');

/** Which tool would, with those of the lathe, get at all of a cone that they do not, in words. */
export function toolWanted(
  lathe: ResolvedLathe,
  pieces: readonly Piece[],
  land: Land,
  degrees: number,
): string {
  for (let trailingDeg = 10; trailingDeg <= 75; trailingDeg += 5)
    for (const hand of ['right', 'left', 'neutral'] as const) {
      const tool: TurnTool = { id: '', kind: 'turn', hand, nose: pm(0), trailingDeg };
      if (taperBites({ ...lathe, tools: [...lathe.tools, tool] }, pieces, land, degrees))
        return `a ${hand === 'neutral' ? 'neutral' : `${hand}-hand`} tool whose edge falls away behind its point at ${trailingDeg}° or more would`;
    }
  return 'nor would any with less than 75° behind its point';
}

/** What stands on both sides of a cone; its own blank is what is cut, and in no tool's way for good. */
const besides = (pieces: readonly Piece[], land: Land): Piece[] =>
  [
    ...pieces.map((p) => ({ ...p, u1: Math.min(p.u1, land.u0) })),
    ...pieces.map((p) => ({ ...p, u0: Math.max(p.u0, land.u1) })),
  ].filter((p) => p.u0 < p.u1);

/** What of a cone a tool gets at, clear of the walls behind its trailing edge; null where nothing. */
function reachOf(tool: TurnTool, lathe: ResolvedLathe, walls: readonly Piece[], land: Land): Bite | null {
  const long = land.u1 - land.u0;
  const rise = 2 * Math.tan((Math.max(tool.trailingDeg, 1) * Math.PI) / 180);
  /**
   * How far from an end of the cone its edge clears a wall of height h beyond it, `near` farther off: the edge has
   * risen by rise · (x + near) there, and the cone has grown by growth · x from that end: x = (h − rise · near) / (rise + growth).
   */
  const clear = (side: 'tail' | 'head'): number => {
    const [end, d, far] = side === 'tail' ? [land.u0, land.d0, land.d1] : [land.u1, land.d1, land.d0];
    const growth = (far - d) / long;
    const wanted = walls
      .filter((p) => (side === 'tail' ? p.u1 <= end : p.u0 >= end))
      .map((p) => {
        const near = side === 'tail' ? end - p.u1 : p.u0 - end;
        const over = p.d - d - lathe.cut.allowance - rise * near;
        if (over <= 0) return 0;
        // 2 pm: places and diameters are whole picometres.
        return rise + growth > 0 ? Math.ceil(over / (rise + growth)) + 2 : Infinity;
      });
    return Math.max(0, ...wanted);
  };
  const u0 = tool.hand === 'left' ? land.u0 : land.u0 + clear('tail');
  const u1 = tool.hand === 'right' ? land.u1 : land.u1 - clear('head');
  return u0 < u1 ? { tool, u0, u1 } : null;
}

/** Two tools that meet within the cone, the one that cuts the small end first. */
function halves(reach: readonly Bite[], land: Land): Bite[] | null {
  const smallAtHead = land.d0 > land.d1;
  for (const low of reach.filter((r) => (smallAtHead ? r.u1 === land.u1 : r.u0 === land.u0)))
    for (const high of reach.filter((r) => (smallAtHead ? r.u0 === land.u0 : r.u1 === land.u1))) {
      if (smallAtHead && low.u0 <= high.u1) return [low, { ...high, u1: low.u0 }];
      if (!smallAtHead && high.u0 <= low.u1) return [low, { ...high, u0: low.u1 }];
    }
  return null;
}

/** The way in of the tool that descends; none where the blank over its beginning is no more than the allowance. */
function entryOf({ tool, u0, u1 }: Bite, lathe: ResolvedLathe, land: Land): Entry | null {
  const smallAtHead = land.d0 > land.d1;
  const foot = smallAtHead ? u0 : u1;
  const d = diameterAt(land, foot) + lathe.cut.allowance;
  if (d >= land.blank) return null;
  const run = roomBehind(tool, (land.blank - d) / 2);
  return smallAtHead
    ? { tool, u0: foot - run, u1: foot, d0: land.blank, d1: d }
    : { tool, u0: foot, u1: foot + run, d0: d, d1: land.blank };
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
