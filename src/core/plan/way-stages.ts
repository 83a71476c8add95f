import { holdBar, type Layout, layOut, prepareEnd } from './bar-layout.ts';
import { cutCorners } from './corners.ts';
import { diePlan, finishEnds } from './finish-ends.ts';
import type { Corner, Work } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { gripAt } from './pins.ts';
import { turnOutside } from './outside.ts';
import { partingBlade, partOff } from './parting.ts';
import { cutByDie, isSinglePoint } from './threading.ts';
import { roomBehind, turnTool } from './tool-choice.ts';
import {
  endWaste,
  FREE_DIAMETERS,
  JAW_CLEARANCE,
  type Refused,
  slenderness,
  stockOf,
  type Way,
  type WayInput,
} from './way.ts';

/**
 * Out of the bar in stages, without a centre: as many lands as stand short enough are turned, the bar is drawn out and
 * zeroed again on the finished end, the next are turned, and so on to the parting off. What is cut is always near the
 * jaws, however far the finished lands stand out.
 */
export function stageWays(input: WayInput): (Way | Refused)[] {
  const { pins, lathe, bar } = input.bench;
  const layout = layOut(input);
  const wantsCentre = pins.centre === true || pins.seat !== undefined;
  const none = pins.way === 'stages' ? 'nothing is won by drawing this work out in stages' : null;
  // Short work is turned in one holding by the plain way.
  if (typeof layout === 'string' || !layout.springs || wantsCentre || bar > lathe.spindleBore)
    return none === null ? [] : [{ name: input.name, why: none }];
  const stages = stagesOf(input, layout);
  return [stages === null ? tooLong(input) : stageWay(input, layout, stages)];
}

const tooLong = ({ name }: WayInput): Refused => ({
  name,
  why: `drawn out in stages, a single land still stands out more than ${FREE_DIAMETERS} of its diameters where it is cut`,
});

/** Lands of one stage, first and last, and where the grip begins (u). */
type Stage = { readonly first: number; readonly last: number; readonly at: number };

/** As many lands to a stage as stand out no farther than work without a centre may; null where not even one does. */
function stagesOf({ bench, work }: WayInput, layout: Layout): Stage[] | null {
  const stages: Stage[] = [];
  const count = work.lands.length;
  const holds = (first: number, at: number): boolean => {
    const land = work.lands[first];
    if (!land) return false;
    return slenderness(work, at - land.u0, land.u0, at) <= FREE_DIAMETERS;
  };
  // A thread is turned with the taper behind it where it can be: it is cut when that is done, and should stand near the jaws.
  const waits = (i: number): boolean =>
    isSinglePoint(bench.lathe, work.lands, i) && threadedWith(work, i) !== i;
  let first = 0;
  while (first < count) {
    let last = -1;
    for (let j = first; j < count; j++) {
      const at = gripAfter(bench.bar, work, layout, j, turnTool(bench.lathe, 'left'));
      if (holds(first, at) && (j === first || !waits(j))) last = j;
    }
    if (last < 0) return null;
    stages.push({ first, last, at: gripAfter(bench.bar, work, layout, last, turnTool(bench.lathe, 'left')) });
    first = last + 1;
  }
  return stages.length > 1 ? stages : null;
}

/** Where the grip begins when land j is the last to be turned. */
function gripAfter(
  bar: number,
  work: Work,
  layout: Layout,
  j: number,
  left: ReturnType<typeof turnTool>,
): number {
  if (j === work.lands.length - 1) return layout.grip0;
  const land = work.lands[j];
  if (!land) return layout.grip0;
  const wall = Math.max(0, (bar - land.blank) / 2);
  return Math.min(layout.grip0, land.u1 + JAW_CLEARANCE + (left ? Math.min(roomBehind(left, wall), bar) : 0));
}

function stageWay(input: WayInput, layout: Layout, stages: readonly Stage[]): Way | Refused {
  const { bench, name } = input;
  const free = -endWaste(bench);
  const inner = layout.grip0 + layout.gripLength;
  const drafts: HoldingDraft[] = [];
  let pieces = [{ u0: free, u1: inner, d: bench.bar }];
  const threads = diePlan(input, false);
  for (const [k, stage] of stages.entries()) {
    const id = `H${drafts.length + 1}`;
    const at = gripAt(bench, id, stage.at, stage.at);
    if (typeof at === 'string') return { name, why: at };
    const draft = holdBar(input, layout, { pieces, id, at, stub: 0, support: [] });
    const why = (k === 0 ? prepareEnd(draft, 0, null) : null) ?? turnStage(draft, stage, stages, layout);
    if (why) return { name, why };
    for (const i of threads.fromTail) {
      const ready = threadedWith(input.work, i);
      if (ready >= stage.first && ready <= stage.last) cutByDie(draft, i);
    }
    // Where all that stands out keeps the bar's skin there is nothing to hold it for.
    if (draft.cuts.length > 0 || stage === stages.at(-1)) drafts.push(draft);
    pieces = draft.pieces;
  }
  const last = drafts.at(-1);
  const blade = partingBlade(bench.lathe);
  if (!last || !blade) return { name, why: 'the lathe file has no blade to part off with' };
  const parts = bench.pins.part_off !== false;
  if (parts) partOff(last, layout.kerf, blade);
  const rest = finishEnds(input, last, threads, 0, parts ? layout.kerf : Infinity, drafts.length);
  if (typeof rest === 'string') return { name, why: rest };
  return {
    name,
    drafts: [...drafts, ...rest.map((r) => r.draft)],
    stock: stockOf(input, free, inner),
    centreLeft: null,
    shimmed: rest.some((r) => r.shimmed),
    unsupported: rest.some((r) => r.unsupported),
    seat: null,
  };
}

/** The land with which a thread is cut: itself, or a taper behind it, whose blank would spoil its last turns. */
const threadedWith = ({ lands }: Work, i: number): number =>
  lands[i + 1]?.segment.form === 'taper' ? i + 1 : i;

function turnStage(
  draft: HoldingDraft,
  stage: Stage,
  stages: readonly Stage[],
  layout: Layout,
): string | null {
  const { work } = draft;
  const isLast = stage === stages.at(-1);
  // A corner is cut when the lands on both its sides are done.
  const done = (c: Corner): number => Math.max(c.land, c.atTail ? c.land - 1 : c.land + 1);
  return (
    turnOutside(draft, 0, isLast ? layout.hi : (work.lands[stage.last]?.u1 ?? layout.hi), {
      land: (i) => i >= stage.first && i <= stage.last,
      corner: (c) => done(c) >= stage.first && done(c) <= stage.last,
      thread: (i) => threadedWith(work, i) >= stage.first && threadedWith(work, i) <= stage.last,
    }) ??
    (stage.first === 0
      ? cutCorners(
          draft,
          work.corners.filter((c) => c.atTail && c.u0 === 0),
        )
      : null)
  );
}
