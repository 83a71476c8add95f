import type { Corner } from './frame.ts';
import { cutCorners } from './corners.ts';
import { finish } from './finishing.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { scribeIndexLine } from './index-line.ts';
import { type OutsideJob, outsideJob, type Wanted } from './outside-job.ts';
import { rough } from './roughing.ts';
import { cutTaper } from './tapers.ts';
import { cutBySinglePoint, isSinglePoint } from './threading.ts';

const ALL: Wanted = { land: () => true, corner: () => true };

/**
 * Turns the whole outside in one holding. Where the work gets thinner toward the headstock, what lies outboard is
 * roughed and finished first and the thin part by the grip is left for last; within such a group all is roughed, then
 * finished from the tailstock inward.
 *
 * @param lo - Free end (waste included); @param hi - where turning ends at the headstock side, in waste.
 * @param wanted - What of it is turned in this holding; all where not said.
 * @returns Why it cannot be done, or null.
 */
export function turnOutside(draft: HoldingDraft, lo: number, hi: number, wanted = ALL): string | null {
  const job = outsideJob(draft, lo, hi, wanted);
  for (const [first, last] of runs(job.lands.length, wanted)) {
    let start = first;
    while (start <= last) {
      const top = lastHighest(job.targets, start, last);
      const why = roughGroup(job, start, top, last) ?? finishGroup(job, start, top);
      if (why) return why;
      start = top + 1;
    }
  }
  const why =
    cutCorners(
      draft,
      draft.work.corners.filter((c) => isInner(draft, c) && wanted.corner(c)),
    ) ??
    tapers(draft, wanted) ??
    innerThreads(draft, wanted);
  if (!why) scribeIndexLine(draft, wanted.land);
  return why;
}

/** Unbroken runs of lands that are turned in this holding, first and last of each. */
function runs(count: number, wanted: Wanted): [number, number][] {
  const found: [number, number][] = [];
  for (let i = 0; i < count; i++) {
    const last = found.at(-1);
    if (!wanted.land(i)) continue;
    if (last && last[1] === i - 1) last[1] = i;
    else found.push([i, i]);
  }
  return found;
}

/** The highest land from `start` on, the one nearest the headstock where several are alike. */
function lastHighest(targets: readonly number[], start: number, last: number): number {
  let best = start;
  for (let i = start; i <= last; i++) if ((targets[i] ?? 0) >= (targets[best] ?? 0)) best = i;
  return best;
}

/** The stretch from `start` to the end of the turning comes down to the highest land, then what lies lower before it. */
function roughGroup(job: OutsideJob, start: number, top: number, last: number): string | null {
  const level = job.targets[top] ?? 0;
  const toEnd: OutsideJob = { ...job, targets: job.targets.map((t, i) => (i > top ? level : t)) };
  return rough(toEnd, start, last);
}

function finishGroup(job: OutsideJob, start: number, top: number): string | null {
  for (let i = start; i <= top; i++) {
    const why = finish(job, i);
    if (why) return why;
  }
  return null;
}

/** Corners at the two ends of the part are cut when that end is free, the others with the lands they stand on. */
export function isInner(draft: Pick<HoldingDraft, 'work'>, corner: Corner): boolean {
  const u = corner.atTail ? corner.u0 : corner.u1;
  return u !== 0 && u !== draft.work.length;
}

function tapers(draft: HoldingDraft, wanted: Wanted): string | null {
  for (const [i, land] of draft.work.lands.entries()) {
    if (land.segment.form !== 'taper' || !wanted.land(i)) continue;
    const why = cutTaper(draft, i);
    if (why) return why;
  }
  return null;
}

/** Threads that no die reaches from either end, or that are long for one, are cut with a single point while the work is held for turning. */
function innerThreads(draft: HoldingDraft, wanted: Wanted): string | null {
  const { lands } = draft.work;
  const isWanted = wanted.thread ?? wanted.land;
  for (const [i, land] of lands.entries()) {
    if (!isWanted(i) || !isSinglePoint(draft.bench.lathe, lands, i)) continue;
    const why = cutBySinglePoint(draft, i);
    if (why) return `${land.id}: ${why}`;
  }
  return null;
}
