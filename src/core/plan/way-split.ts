import { MOST_FREE_DIAMETERS } from '../stiffness/error.ts';
import { cutCorners } from './corners.ts';
import type { Corner, Work } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { turnOutside } from './outside.ts';
import { partingBlade, partOff } from './parting.ts';
import { gripAt, splitAt } from './pins.ts';
import { secondEnd } from './second-end.ts';
import { cutByDie, dieReaches, dieServes } from './threading.ts';
import { holdBar, type Layout, layOut, prepareEnd } from './bar-layout.ts';
import { mirror } from './finish-ends.ts';
import {
  endWaste,
  facingStock,
  FREE_DIAMETERS,
  JAW_CLEARANCE,
  kerfStock,
  type Refused,
  slenderness,
  stockOf,
  type Way,
  type WayInput,
} from './way.ts';

/**
 * From both ends: the lands up to the thickest are turned with a short stick-out, the bar is drawn out and parted off
 * with the rest still at bar size, turned end for end on a finished land, and the rest turned from the other end. No
 * centre is wanted, and no shoulder looks to the headstock.
 */
export function splitWays(input: WayInput): (Way | Refused)[] {
  const { pins } = input.bench;
  const rod = sawnRod(input);
  if (rod) return [splitWay(input, rod.layout, rod.top, true)];
  const planned = thickest(input.work);
  const settled = pins.split !== undefined || pins.faces !== undefined || pins.way === 'both-ends';
  // A part that rises all the way to the headstock end is turned whole by the plain way.
  if (planned >= input.work.lands.length - 1 && !settled) return [];
  if (input.work.lands.length < 2)
    return [{ name: input.name, why: 'there is no face to split the work at' }];
  if (pins.centre === true || pins.seat !== undefined)
    return [{ name: input.name, why: 'turned from both ends, no centre is used, and one was settled' }];
  const top = splitAt(input.work, pins, planned);
  if (typeof top === 'string') return [{ name: input.name, why: top }];
  const layout = layOut(input);
  if (typeof layout === 'string') return [{ name: input.name, why: layout }];
  return [splitWay(input, layout, top, false)];
}

/** The thickest land, the one nearest the tailstock where several are alike. */
function thickest(work: Work): number {
  let best = 0;
  work.lands.forEach((land, i) => {
    if (land.blank > (work.lands[best]?.blank ?? 0)) best = i;
  });
  return best;
}

/**
 * A thin rod whose thickest land keeps the bar's skin, so long that nobody lets it stand out to part it off: a blank is
 * sawn, and each end is worked on held short, the rest of it in the spindle. Its longest land of bar skin, or null.
 */
function sawnRod(input: WayInput): { readonly layout: Layout; readonly top: number } | null {
  const { bench, work } = input;
  const { pins, bar, lathe } = bench;
  const settled = [pins.split, pins.faces, pins.centre, pins.seat, pins.part_off].some(
    (p) => p !== undefined,
  );
  const layout = layOut(input);
  if (settled || typeof layout === 'string' || bar > lathe.spindleBore) return null;
  const long = (i: number): number => (work.lands[i]?.u1 ?? 0) - (work.lands[i]?.u0 ?? 0);
  const skin = work.lands.flatMap(({ segment }, i) => (segment.keepsSkin ? [i] : []));
  const top = [...skin].sort((a, b) => long(b) - long(a))[0];
  return top === undefined || layout.grip0 <= MOST_FREE_DIAMETERS * bar ? null : { layout, top };
}

/** Where what is done from the tailstock end ends: on a land of bar skin nothing but its corner there. */
function reachOfFirst({ lands, corners }: Work, top: number, sawn: boolean): number {
  const land = lands[top];
  if (!sawn) return land?.u1 ?? 0;
  return Math.max(land?.u0 ?? 0, ...corners.filter((c) => c.land === top && c.atTail).map((c) => c.u1));
}

/** @param sawn - Out of a sawn blank, the land at which the halves meet on bar skin. */
function splitWay(input: WayInput, layout: Layout, top: number, sawn: boolean): Way | Refused {
  const { bench, work, turned } = input;
  const name = sawn ? input.name.replace('ends of the', 'ends of a blank sawn off the') : input.name;
  const apart = unthreadable(work, turned, top);
  if (apart) return { name, why: apart };
  const free = -endWaste(bench);
  const edge = reachOfFirst(work, top, sawn);
  const parts = !sawn && bench.pins.part_off !== false;
  // Short enough as a whole: one holding does; else the bar is drawn out to be parted.
  const passes = bench.bar <= bench.lathe.spindleBore;
  const long = passes && slenderness(work, layout.grip0) > FREE_DIAMETERS;
  const grip0 = gripAt(bench, long && parts ? 'H2' : 'H1', layout.grip0, layout.grip0);
  const least = edge + JAW_CLEARANCE;
  const at = long ? gripAt(bench, 'H1', least, least) : grip0;
  if (typeof grip0 === 'string') return { name, why: grip0 };
  if (typeof at === 'string') return { name, why: at };
  const inner = sawn ? work.length + facingStock(bench) : Math.max(grip0, at) + layout.gripLength;
  const whole = [{ u0: free, u1: inner, d: bench.bar }];

  const first = holdBar(input, layout, { pieces: whole, id: 'H1', at, stub: 0, support: [] });
  const why = prepareEnd(first, 0, null) ?? turnFirst(first, top);
  if (why) return { name, why };
  const drafts = [first];
  let last = first;
  if (long && parts) {
    last = holdBar(input, layout, { pieces: first.pieces, id: 'H2', at: grip0, stub: 0, support: [] });
    drafts.push(last);
  }
  const blade = partingBlade(bench.lathe);
  // The other end is worked on when it is turned round, so it is faced even where a stub stays there.
  const kerf = work.length + kerfStock(bench);
  if (blade && parts) partOff(last, kerf, blade);
  const standing = last.pieces.filter((p) => !parts || p.u0 < kerf);
  const second = secondEnd(bench, turned, mirror(standing, work.length), {
    id: `H${drafts.length + 1}`,
    holes: true,
    threads: new Set(work.lands.slice(top + 1).map((l) => l.id)),
    turn: {
      count: work.lands.length - 1 - top,
      corner: (c) => !ofFirst(c, turned.lands.length - 1 - top, false),
    },
  });
  if (typeof second === 'string') return { name, why: second };
  drafts.push(second.draft);
  return {
    name,
    drafts,
    stock: stockOf(input, free, inner),
    centreLeft: null,
    shimmed: second.shimmed,
    seat: null,
    ...(sawn ? {} : { split: work.lands[top]?.headFace ?? '' }),
    unsupported: second.unsupported || slenderness(work, at, 0, edge) > FREE_DIAMETERS,
  };
}

function turnFirst(draft: HoldingDraft, top: number): string | null {
  const { work } = draft;
  const why =
    turnOutside(draft, 0, draft.pieces.at(-1)?.u1 ?? 0, {
      land: (i) => i <= top,
      corner: (c) => ofFirst(c, top, true),
    }) ??
    cutCorners(
      draft,
      work.corners.filter((c) => c.atTail && c.u0 === 0),
    );
  if (why) return why;
  work.lands.forEach((_, i) => {
    if (i <= top && dieServes(draft.bench.lathe, work.lands, i)) cutByDie(draft, i);
  });
  return null;
}

/** Whether a corner is cut with the first lands: all of theirs but those on the far side of the thickest. */
function ofFirst(corner: Corner, top: number, tailFirst: boolean): boolean {
  return tailFirst
    ? corner.land < top || (corner.land === top && corner.atTail)
    : corner.land > top || (corner.land === top && !corner.atTail);
}

/** Each half's threads must be reached from its own end; a sentence where one is not. */
function unthreadable(work: Work, turned: Work, top: number): string | null {
  for (const [i, land] of work.lands.entries()) {
    if (!land.segment.thread) continue;
    const back = work.lands.length - 1 - i;
    const own = i <= top ? dieReaches(work.lands, i) : dieReaches(turned.lands, back);
    if (!own) return `no die reaches ${land.id} from the end it is turned from`;
  }
  return null;
}
