import type { ResolvedLathe } from '../part/resolved.ts';
import { type Piece, thickest } from './billet.ts';
import type { Land, Work } from './frame.ts';
import { size } from './words.ts';

/** A collet or a set of jaws is about so long; no grip reaches over more (common practice, no source). */
const LONGEST_GRIP = 40_000_000_000;

export type Device = 'collet' | 'chuck';

/** The least length that is gripped: the lathe file's own, else one diameter and not under 10 mm. */
export const leastGrip = (lathe: ResolvedLathe, d: number): number =>
  lathe.minGrip ?? Math.max(d, 10_000_000_000);

/** A collet of the set that holds a diameter: the next size up, if it closes down that far. */
export function colletHolds(lathe: ResolvedLathe, d: number): boolean {
  const set = lathe.collets;
  if (!set || d > set.max || d > lathe.spindleBore) return false;
  const steps = Math.max(0, Math.ceil((d - set.min) / set.step));
  const size = set.min + steps * set.step;
  return size <= set.max && size - d <= set.close;
}

export const chuckHolds = (lathe: ResolvedLathe, d: number): boolean =>
  lathe.chucks.some((c) => d >= c.min && d <= c.max);

/** What holds the bar itself: a collet of its size, else a chuck. Its grip is a diameter long, and not under 10 mm. */
export function barGrip(lathe: ResolvedLathe, bar: number): { device: Device; length: number } | null {
  const length = Math.max(bar, 10_000_000_000, lathe.minGrip ?? 0);
  if (colletHolds(lathe, bar)) return { device: 'collet', length };
  if (chuckHolds(lathe, bar)) return { device: 'chuck', length };
  return null;
}

/** A grip on finished lands, in u of a holding whose free end is the end being worked on. */
export type LandGrip = {
  readonly device: Device;
  readonly u0: number;
  readonly u1: number;
  readonly d: number;
  /** Length on which it really bears, grooves between left out. */
  readonly held: number;
  readonly on: 'bar' | string[];
  /** The lands under it, whatever it is said to be on. */
  readonly lands: readonly string[];
  /** A seat in hard jaws wants a shim of soft metal. */
  readonly shim: boolean;
};

/**
 * Every way to grip finished lands so that the free end can be worked on: one land, or several of one diameter with
 * lower ones between. What lies toward the headstock must go into the holder first, so it may be no thicker.
 *
 * @param clear - Nothing is gripped nearer the free end than this (u): it is cut in this holding.
 */
export function landGrips(
  work: Work,
  lathe: ResolvedLathe,
  clear: number,
  pieces: readonly Piece[],
): LandGrip[] {
  const grips: LandGrip[] = [];
  work.lands.forEach((land, i) => {
    if (land.segment.form !== 'cylinder') return;
    const least = leastGrip(lathe, land.blank);
    for (const wanted of [Math.max(2 * land.blank, least), least]) {
      const run = gripRun(work, i, clear, wanted, lathe.spindleBore);
      if (!run || run.held < least) continue;
      // A land gripped over its whole length, or in part: what is left of it goes in too.
      const inboard = thickest(pieces, run.u1, Infinity);
      if (inboard <= run.d && inboard <= lathe.spindleBore) grips.push(...devices(lathe, run));
    }
  });
  return grips;
}

/** A land that cannot be gripped: what stands in the way, and its name with the figures that belong to it. */
export type Ungripped = { readonly why: string; readonly land: string };

/**
 * Why a land of the finished work cannot be gripped with the free end worked on: the first of the conditions of
 * `landGrips` that it breaks. Null for what is no land to grip.
 */
export function whyNotGripped(
  work: Work,
  lathe: ResolvedLathe,
  clear: number,
  pieces: readonly Piece[],
  i: number,
): Ungripped | null {
  const land = work.lands[i];
  if (!land || land.segment.form !== 'cylinder') return null;
  const least = leastGrip(lathe, land.blank);
  if (flat(work, i).u1 <= clear) return { why: 'worked on in that holding', land: land.id };
  if (work.lands.slice(i + 1).some((l) => l.blank > land.blank))
    return { why: 'before a thicker land', land: land.id };
  const run = gripRun(work, i, clear, least, lathe.spindleBore);
  const held = run?.held ?? 0;
  if (!run || held < least)
    return {
      why: 'too short',
      land: `${land.id} (${size(held, lathe)} of the ${size(least, lathe)} wanted)`,
    };
  if (devices(lathe, run).length === 0)
    return run.lands.some((l) => l.segment.role === 'journal') && chuckHolds(lathe, run.d)
      ? { why: 'fits no collet, and hard jaws do not go on a journal', land: land.id }
      : { why: 'fits no collet and no chuck', land: land.id };
  if (thickest(pieces, run.u1, Infinity) > run.d)
    return { why: 'before thicker bar that still stands behind it', land: land.id };
  return { why: 'behind it lies what does not pass the spindle', land: land.id };
}

type Run = { u0: number; u1: number; d: number; held: number; lands: Land[] };

/** The shortest stretch from land i inward that holds as much of that diameter as wanted, or all there is of it. */
function gripRun(work: Work, i: number, clear: number, wanted: number, bore: number): Run | null {
  const first = work.lands[i];
  if (!first) return null;
  const d = first.blank;
  const u0 = Math.max(flat(work, i).u0, clear);
  let held = 0;
  let end = u0;
  let last = i;
  for (let j = i; j < work.lands.length; j++) {
    const land = work.lands[j];
    if (!land || land.blank > d) break;
    if (land.segment.form !== 'cylinder' || land.u0 > u0 + Math.max(LONGEST_GRIP, 2 * d)) break;
    if (land.blank !== d) continue;
    const level = flat(work, j);
    const from = Math.max(level.u0, u0);
    if (level.u1 <= from) continue;
    // Grooves between the lands leave at least half of the grip to hold by (common practice, no source).
    if (2 * (held + level.u1 - from) < level.u1 - u0) break;
    held += level.u1 - from;
    end = level.u1;
    last = j;
    if (held >= wanted) break;
  }
  // What does not pass the spindle is gripped to the end of its land; else no more than is wanted.
  if (last === i && end - u0 > wanted && d <= bore) end = u0 + wanted;
  if (end <= u0) return null;
  return { u0, u1: Math.round(end), d, held, lands: work.lands.slice(i, last + 1) };
}

/** The level part of a land, without its chamfers, fillets and undercuts. */
function flat(work: Work, i: number): { u0: number; u1: number } {
  const land = work.lands[i];
  if (!land) return { u0: 0, u1: 0 };
  const here = work.corners.filter((c) => c.land === i);
  const tail = Math.max(0, ...here.filter((c) => c.atTail).map((c) => c.u1 - c.u0));
  const head = Math.max(0, ...here.filter((c) => !c.atTail).map((c) => c.u1 - c.u0));
  return { u0: land.u0 + tail, u1: land.u1 - head };
}

function devices(lathe: ResolvedLathe, run: Run): LandGrip[] {
  const held = run.lands.filter((l) => l.blank === run.d);
  const skin = held.every((l) => l.segment.keepsSkin) && run.lands.length === 1;
  const on: 'bar' | string[] = skin ? 'bar' : run.lands.map((l) => l.id);
  const common = { u0: run.u0, u1: run.u1, d: run.d, held: run.held, on, lands: run.lands.map((l) => l.id) };
  const out: LandGrip[] = [];
  if (colletHolds(lathe, run.d)) out.push({ ...common, device: 'collet', shim: false });
  // Jaws bridge a groove, but nobody closes them around a finished journal.
  const journal = run.lands.some((l) => l.segment.role === 'journal');
  const shim = held.some((l) => l.segment.role === 'seat');
  if (!journal && chuckHolds(lathe, run.d)) out.push({ ...common, device: 'chuck', shim });
  return out;
}
