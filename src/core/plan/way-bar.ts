import type { Piece } from './billet.ts';
import { holdBar, type Layout, layOut, prepareEnd, shortStick } from './bar-layout.ts';
import { backOff, bringUp } from './centre-up.ts';
import { cutCorners } from './corners.ts';
import { noSuchSeat, type Seat, seatsAt, settledSeats } from './ends.ts';
import { diePlan, finishEnds } from './finish-ends.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { turnOutside } from './outside.ts';
import { partingBlade, partOff } from './parting.ts';
import { gripAt } from './pins.ts';
import { cutByDie } from './threading.ts';
import type { Support } from './types.ts';
import {
  CENTRED_DIAMETERS,
  endWaste,
  FREE_DIAMETERS,
  JAW_CLEARANCE,
  isRefused,
  type Refused,
  slenderness,
  stockOf,
  stubOf,
  tailStation,
  type Way,
  type WayInput,
} from './way.ts';

/**
 * Out of the bar: the tailstock end is faced and drilled while the stick-out is short, the bar drawn out and the
 * centre brought up where the work is long, the whole outside turned, parted off with a pip, turned end for end on a
 * finished land and the other end faced. One way for each seat that the centre can have.
 */
export function barWays(input: WayInput): (Way | Refused)[] {
  const layout = layOut(input);
  if (typeof layout === 'string') return [{ name: input.name, why: layout }];
  if (!layout.wantsCentre) return [barWay(input, layout, null)];
  const offered = seatsAt(input);
  if (!offered.length)
    return [
      {
        name: input.name,
        why: input.work.tailHoles.length
          ? 'the hole in the tailstock end is too wide for a centre to bear in its mouth'
          : 'no centre can bear in the tailstock end',
      },
    ];
  const seats = settledSeats(input, offered);
  if (!seats.length) return [{ name: input.name, why: noSuchSeat(input) }];
  return seats.map((seat) => {
    const way = barWay(input, layout, seat);
    const name = seat.kind === 'left' ? `${way.name}, centre hole left in` : way.name;
    return isRefused(way) ? { ...way, name, seat: seat.kind } : { ...way, name };
  });
}

function barWay(input: WayInput, planned: Layout, seat: Seat | null): Way | Refused {
  const { bench, work, name } = input;
  // A bar that does not pass the spindle cannot be drawn out: the sawn blank stands out whole from the beginning.
  const reach = planned.grip0 + stubOf(seat) + endWaste(bench);
  const short = reach > FREE_DIAMETERS * bench.bar && bench.bar <= bench.lathe.spindleBore;
  const grip0 = gripAt(bench, short ? 'H2' : 'H1', planned.grip0, planned.grip0);
  if (typeof grip0 === 'string') return { name, why: grip0 };
  const layout = { ...planned, grip0 };
  const at = short ? gripAt(bench, 'H1', JAW_CLEARANCE, shortStick(input, layout)) : grip0;
  if (typeof at === 'string') return { name, why: at };
  const stub = stubOf(seat);
  const free = -(stub + endWaste(bench));
  const inner = Math.max(layout.grip0, at) + layout.gripLength;
  const drafts: HoldingDraft[] = [];
  let pieces: Piece[] = [{ u0: free, u1: inner, d: bench.bar }];

  const first = holdBar(input, layout, {
    pieces,
    id: 'H1',
    at,
    stub,
    support: [],
  });
  const whyEnd = prepareEnd(first, stub, seat);
  if (whyEnd) return { name, why: whyEnd };
  drafts.push(first);
  pieces = first.pieces;

  let main = first;
  if (short) {
    main = holdBar(input, layout, { pieces, id: 'H2', at: layout.grip0, stub, support: [] });
    drafts.push(main);
  }
  if (seat) bringUp(main, supportsFor(input, layout));
  const threads = diePlan(input, stub > 0);
  const why = turnAll(main, -stub, layout, threads.fromTail);
  if (why) return { name, why };
  const end = bench.pins.part_off === false ? Infinity : layout.kerf;
  const rest = finishEnds(input, main, threads, stub, end, drafts.length);
  if (typeof rest === 'string') return { name, why: rest };
  return {
    name,
    drafts: [...drafts, ...rest.map((r) => r.draft)],
    stock: stockOf(input, free, inner),
    centreLeft: seat?.kind === 'left' && !work.tailStub ? tailStation(work) : null,
    shimmed: rest.some((r) => r.shimmed),
    unsupported: rest.some((r) => r.unsupported) || (seat === null && layout.springs),
    seat: seat?.kind ?? null,
  };
}

/** Turns the outside, brings the centre away, cuts what needs a free end, and parts off. */
function turnAll(
  main: HoldingDraft,
  lo: number,
  layout: Layout,
  threads: ReadonlySet<number>,
): string | null {
  const { work } = main;
  const why = turnOutside(main, lo, layout.hi);
  if (why) return why;
  if (lo === 0) {
    const edge = cutCorners(
      main,
      work.corners.filter((c) => c.atTail && c.u0 === 0),
    );
    if (edge) return edge;
  }
  backOff(main);
  for (const i of threads) cutByDie(main, i);
  const blade = partingBlade(main.bench.lathe);
  if (blade && main.bench.pins.part_off !== false) partOff(main, layout.kerf, blade);
  return null;
}

/** The centre, and a travelling steady where the work is slender even between grip and centre. */
function supportsFor(input: WayInput, layout: Layout): Support[] {
  const slender = slenderness(input.work, layout.grip0) > CENTRED_DIAMETERS;
  const steady = slender && input.bench.lathe.support.includes('travelling-steady');
  return steady ? ['centre', 'travelling-steady'] : ['centre'];
}
