import type { Piece } from './billet.ts';
import { drillEnd, faceEnd, makeSeat, type Seat } from './ends.ts';
import { zOf } from './frame.ts';
import { barGrip } from './grips.ts';
import { HoldingDraft } from './holding-draft.ts';
import { partingBlade } from './parting.ts';
import { proveTrials, trialWaste } from './trial.ts';
import { bladeReach, roomBehind, turnTool } from './tool-choice.ts';
import type { Support } from './types.ts';
import {
  endDatum,
  facingStock,
  leavesSawn,
  FREE_DIAMETERS,
  JAW_CLEARANCE,
  kerfStock,
  slenderness,
  tailStation,
  type WayInput,
} from './way.ts';
import { size } from './words.ts';

/** Where work that is turned out of the bar ends, is parted off, and is gripped; places in u (pm). */
export type Layout = {
  device: 'collet' | 'chuck';
  gripLength: number;
  /** Where turning ends, past the kerf, and where the grip begins. */
  hi: number;
  grip0: number;
  kerf: number;
  wantsCentre: boolean;
  /** What is turned stands out far enough to want a centre. */
  springs: boolean;
};

export function layOut(input: WayInput): Layout | string {
  const { bench, work } = input;
  const { lathe } = bench;
  const grip = barGrip(lathe, bench.bar);
  const bar = size(bench.bar, lathe);
  if (!grip) return `neither a collet nor a chuck of the lathe holds the bar, ${bar}`;
  if (bench.bar > lathe.swing) return `the bar, ${bar}, is over the swing`;
  const blade = partingBlade(lathe);
  const parts = bench.pins.part_off !== false;
  if (!blade && parts) return 'the lathe file has no blade to part off with';
  const last = work.lands.at(-1);
  const kerf = work.length + (leavesSawn(work) ? 0 : kerfStock(bench));
  const left = turnTool(lathe, 'left');
  const wall = Math.max(0, (bench.bar - (last?.blank ?? 0)) / 2);
  const room = left ? roomBehind(left, wall) : 0;
  const hi = Math.max(
    kerf + (parts && blade ? blade.width : 0) + 500_000_000,
    work.length + room + 500_000_000,
  );
  const deepest = ((last?.blank ?? 0) + lathe.cut.allowance) / 2;
  if (blade && parts && deepest > bladeReach(blade) + (last?.blank ?? 0) * 0.3)
    return `the blade does not reach far enough to part off ${size(last?.blank ?? 0, lathe)}`;
  const grip0 = hi + JAW_CLEARANCE;
  const hasCentre = lathe.support.includes('centre');
  // What keeps the bar's skin is not cut: the centre is for the outermost land that is.
  const outermost = work.lands.find((l) => !l.segment.keepsSkin)?.u0 ?? grip0;
  const springs = slenderness(work, grip0 - outermost) > FREE_DIAMETERS;
  const wantsCentre = bench.pins.centre ?? (bench.pins.seat !== undefined || (springs && hasCentre));
  if (wantsCentre && grip0 + 20e9 > lathe.betweenCentres) return 'the work is longer than the lathe takes';
  return { device: grip.device, gripLength: grip.length, hi, grip0, kerf, wantsCentre, springs };
}

/** Just enough stands out to face and drill: two diameters, and never more than the whole work. */
export const shortStick = (input: WayInput, layout: Layout): number =>
  Math.min(layout.grip0, Math.max(2 * input.bench.bar - trialWaste(input.bench), 10_000_000_000));

export type Hold = { pieces: Piece[]; id: string; at: number; stub: number; support: Support[] };

export function holdBar(input: WayInput, layout: Layout, hold: Hold): HoldingDraft {
  const { bench, work } = input;
  const za = zOf(work, hold.at) / 1e9;
  const zb = zOf(work, hold.at + layout.gripLength) / 1e9;
  const free = hold.pieces[0]?.u0 ?? 0;
  const datum = endDatum(work, free, bench.lathe);
  return new HoldingDraft(
    bench,
    work,
    hold.pieces,
    {
      id: hold.id,
      device: layout.device,
      grips: { z0_mm: Math.min(za, zb), z1_mm: Math.max(za, zb), on: 'bar' },
      headstock: work.headstock,
      stick_out_mm: (hold.at - free) / 1e9,
      support: hold.support,
      steady_at_mm: null,
      datum: { station: datum.station, how: datum.how },
    },
    datum.u,
  );
}

/** Faces the free end and makes what begins there: the holes of the part, or the centre hole in waste. */
export function prepareEnd(draft: HoldingDraft, stub: number, seat: Seat | null): string | null {
  const { work, bench } = draft;
  const blade = partingBlade(bench.lathe);
  const through = work.length + kerfStock(bench) + (blade?.width ?? 0);
  const why =
    proveTrials(draft, -(stub + facingStock(bench))) ??
    faceEnd(draft, -stub, stub ? null : tailStation(work), stub ? 'centre-stub' : null) ??
    (stub ? null : drillEnd(draft, work.tailHoles, through));
  if (why) return why;
  if (seat) makeSeat(draft, seat);
  return null;
}
