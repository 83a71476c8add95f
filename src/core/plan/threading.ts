import type { Land } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import { touch } from './outside-job.ts';
import { fineSize, list } from './words.ts';

/** A die can be run on from the free end where everything outboard of the thread passes through it. */
export function dieReaches(lands: readonly Land[], i: number): boolean {
  const thread = lands[i]?.segment.thread;
  if (!thread) return false;
  return lands.slice(0, i).every((land) => land.blank <= thread.minor);
}

/** A longer thread than this in its own diameters is a labour by die, and seldom straight (common practice, no source). */
export const LONG_THREAD = 4;

/** A thread is cut by die from the free end: one reaches it, and it is not so long that a single point does better. */
export function dieServes(lathe: ResolvedLathe, lands: readonly Land[], i: number): boolean {
  const land = lands[i];
  const thread = land?.segment.thread;
  if (!land || !thread || !dieReaches(lands, i)) return false;
  return threadTool(lathe) === null || land.u1 - land.u0 <= LONG_THREAD * thread.nominal;
}

/** A thread that no die serves, from neither end: it is cut with a single point while the work is held for turning. */
export function isSinglePoint(lathe: ResolvedLathe, lands: readonly Land[], i: number): boolean {
  if (!lands[i]?.segment.thread || dieServes(lathe, lands, i)) return false;
  return !dieServes(lathe, [...lands].reverse(), lands.length - 1 - i);
}

export const threadTool = (lathe: ResolvedLathe) => lathe.tools.find((t) => t.kind === 'thread') ?? null;

/** Runs a die on from the free end, by hand, the die held square by the tailstock. */
export function cutByDie(draft: HoldingDraft, i: number): void {
  const land = draft.work.lands[i];
  const thread = land?.segment.thread;
  if (!land || !thread) return;
  const { material } = draft.bench;
  const readings = [draft.z(land.u1, land.headFace)];
  draft.add({
    kind: 'thread',
    u0: land.u0,
    u1: land.u1,
    d0: thread.nominal,
    segment: land.id,
    handTurned: true,
    readings,
    setting: { die: thread.designation, pitch_mm: thread.pitch / 1e9 },
    say: `Cut ${thread.designation} with the die, the spindle turned by hand and the die kept square in the tailstock holder, to ${list(readings)}. Turn back half a turn often to break the chip; ${material.oil}. Turn the die round for the last threads at a shoulder.`,
  });
}

/** A little under half the angle of the thread, so that one flank is scraped clean (common practice, no source). */
const HALF_FLANK = 29.5;

/** Cuts the thread with a single point, where the lathe file has a threading tool. */
export function cutBySinglePoint(draft: HoldingDraft, i: number): string | null {
  const land = draft.work.lands[i];
  const thread = land?.segment.thread;
  const tool = threadTool(draft.bench.lathe);
  if (!land || !thread || !tool) return 'no die reaches the thread and the lathe file has no threading tool';
  touch({ draft }, tool);
  const depth = (thread.blank - thread.minor) / 2;
  const passes = Math.max(6, Math.ceil(depth / 100_000_000));
  const slide = depth / Math.cos((HALF_FLANK * Math.PI) / 180);
  const readings = [draft.x(thread.minor), draft.z(land.u1, land.headFace)];
  draft.add({
    kind: 'thread',
    u0: land.u0,
    u1: land.u1,
    d0: thread.nominal,
    segment: land.id,
    tool,
    passes,
    surface: draft.bench.material.speed.thread.low,
    readings,
    // Each pass takes an equal area: the depth after pass k goes with the square root of k.
    setting: {
      compound_deg: HALF_FLANK,
      compound_travel_mm: slide / 1e9,
      pitch_mm: thread.pitch / 1e9,
      infeeds_mm: Array.from(
        { length: passes },
        (_, k) => (2 * depth * (Math.sqrt((k + 1) / passes) - Math.sqrt(k / passes))) / 1e9,
      ),
    },
    say: `Cut ${thread.designation} with a single point in ${passes} passes, lathe set for a pitch of ${fineSize(thread.pitch, draft.bench.lathe)}, to ${list(readings)}. Set the tool square by a thread gauge, the compound at ${HALF_FLANK}° from square to the axis; it goes in ${fineSize(slide, draft.bench.lathe)} in all. A first pass as light as a scratch, and the pitch checked on it; ${draft.bench.material.oil}; wind out at the end of each pass. Try the nut before the last.`,
  });
  return null;
}
