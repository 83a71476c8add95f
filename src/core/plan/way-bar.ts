import type { Piece } from './billet.ts';
import { drillEnd, faceEnd, makeSeat, type Seat, seatsAt } from './ends.ts';
import { barGrip } from './grips.ts';
import { HoldingDraft } from './holding-draft.ts';
import { cutCorners } from './corners.ts';
import { touch } from './outside-job.ts';
import { turnOutside } from './outside.ts';
import { partingBlade, partOff } from './parting.ts';
import { type SecondEnd, secondEnd } from './second-end.ts';
import { bladeReach, roomBehind, turnTool } from './tool-choice.ts';
import { dieReaches, cutByDie } from './threading.ts';
import { zOf } from './frame.ts';
import {
  CENTRED_DIAMETERS,
  facingStock,
  FREE_DIAMETERS,
  isRefused,
  JAW_CLEARANCE,
  kerfStock,
  type Refused,
  slenderness,
  stockOf,
  stubOf,
  tailStation,
  type Way,
  type WayInput,
} from './way.ts';
import type { Support } from './types.ts';
import { size } from './words.ts';

/**
 * Out of the bar: the tailstock end is faced and drilled while the stick-out is short, the bar drawn out and the
 * centre brought up where the work is long, the whole outside turned, parted off with a pip, turned end for end on a
 * finished land and the other end faced. One way for each seat that the centre can have.
 */
export function barWays(input: WayInput): (Way | Refused)[] {
  const layout = layOut(input);
  if (typeof layout === 'string') return [{ name: input.name, why: layout }];
  if (!layout.wantsCentre) return [barWay(input, layout, null)];
  const seats = seatsAt(input);
  if (!seats.length)
    return [
      {
        name: input.name,
        why: 'the hole in the tailstock end is too wide for a centre to bear in its mouth',
      },
    ];
  return seats.map((seat) => {
    const way = barWay(input, layout, seat);
    return isRefused(way)
      ? way
      : { ...way, name: seat.kind === 'left' ? `${way.name}, centre hole left in` : way.name };
  });
}

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
  if (!blade) return 'the lathe file has no blade to part off with';
  const last = work.lands.at(-1);
  const kerf = work.length + kerfStock(bench);
  const left = turnTool(lathe, 'left');
  const wall = Math.max(0, (bench.bar - (last?.blank ?? 0)) / 2);
  const room = left ? roomBehind(left, wall) : 0;
  const hi = Math.max(kerf + blade.width + 500_000_000, work.length + room + 500_000_000);
  const deepest = ((last?.blank ?? 0) + lathe.cut.allowance) / 2;
  if (deepest > bladeReach(blade) + (last?.blank ?? 0) * 0.3)
    return `the blade does not reach far enough to part off ${size(last?.blank ?? 0, lathe)}`;
  const grip0 = hi + JAW_CLEARANCE;
  const hasCentre = lathe.support.includes('centre');
  // What keeps the bar's skin is not cut: the centre is for the outermost land that is.
  const outermost = work.lands.find((l) => !l.segment.keepsSkin)?.u0 ?? grip0;
  const springs = slenderness(work, grip0 - outermost) > FREE_DIAMETERS;
  const wantsCentre = bench.pins.centre ?? (springs && hasCentre);
  if (wantsCentre && grip0 + 20e9 > lathe.betweenCentres) return 'the work is longer than the lathe takes';
  return { device: grip.device, gripLength: grip.length, hi, grip0, kerf, wantsCentre, springs };
}

function barWay(input: WayInput, layout: Layout, seat: Seat | null): Way | Refused {
  const { bench, work, name } = input;
  const stub = stubOf(seat);
  const free = -(stub + facingStock(bench));
  const inner = layout.grip0 + layout.gripLength;
  const drafts: HoldingDraft[] = [];
  let pieces: Piece[] = [{ u0: free, u1: inner, d: bench.bar }];

  // A bar that does not pass the spindle cannot be drawn out: the sawn blank stands out whole from the beginning.
  const short = slenderness(work, layout.grip0) > FREE_DIAMETERS && bench.bar <= bench.lathe.spindleBore;
  const first = holdBar(input, layout, {
    pieces,
    id: 'H1',
    at: short ? shortStick(input, layout) : layout.grip0,
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
  const rest = finishEnds(input, main, threads, stub, layout.kerf, drafts.length);
  if (typeof rest === 'string') return { name, why: rest };
  return {
    name,
    drafts: [...drafts, ...rest.map((r) => r.draft)],
    stock: stockOf(input, free, inner),
    centreLeft: seat?.kind === 'left' ? tailStation(work) : null,
    shimmed: rest.some((r) => r.shimmed),
    unsupported: rest.some((r) => r.unsupported) || (seat === null && layout.springs),
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
  if (blade) partOff(main, layout.kerf, blade);
  return null;
}

/** The centre, and a travelling steady where the work is slender even between grip and centre. */
function supportsFor(input: WayInput, layout: Layout): Support[] {
  const slender = slenderness(input.work, layout.grip0) > CENTRED_DIAMETERS;
  const steady = slender && input.bench.lathe.support.includes('travelling-steady');
  return steady ? ['centre', 'travelling-steady'] : ['centre'];
}

/** Brings the centre up once the first tool is touched off on the bare end. */
function bringUp(draft: HoldingDraft, support: Support[]): void {
  const right = turnTool(draft.bench.lathe, 'right');
  if (right) touch({ draft }, right);
  const u = draft.pieces[0]?.u0 ?? 0;
  const steady = support.includes('travelling-steady')
    ? ' Set the travelling steady behind the tool once a true band is turned.'
    : '';
  draft.support = support;
  draft.add({
    kind: 'support',
    u0: u,
    u1: u,
    d0: null,
    support: [...support],
    say: `Bring up the live centre, firm but free to turn, and lock the quill; feel it again as the work warms and lengthens.${steady}`,
  });
}

function backOff(draft: HoldingDraft): void {
  if (!draft.support.length) return;
  const u = draft.pieces[0]?.u0 ?? 0;
  draft.support = [];
  draft.add({
    kind: 'support',
    u0: u,
    u1: u,
    d0: null,
    support: [],
    say: 'Stop the spindle and back the centre right off; take any steady away.',
  });
}

/** Just enough stands out to face and drill: two diameters, and never more than the whole work. */
const shortStick = (input: WayInput, layout: Layout): number =>
  Math.min(layout.grip0, Math.max(2 * input.bench.bar, 10_000_000_000));

export type Hold = { pieces: Piece[]; id: string; at: number; stub: number; support: Support[] };

export function holdBar(input: WayInput, layout: Layout, hold: Hold): HoldingDraft {
  const { bench, work } = input;
  const za = zOf(work, hold.at) / 1e9;
  const zb = zOf(work, hold.at + layout.gripLength) / 1e9;
  const end = tailStation(work);
  const free = hold.pieces[0]?.u0 ?? 0;
  const over = size(-free, bench.lathe);
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
      datum: {
        station: end,
        how:
          free < 0
            ? `Zero is the finished end ${end}; the standing end is ${over} of waste further out.`
            : `Touch the faced end ${end} and set Z to zero there.`,
      },
    },
    0,
  );
}

/** Faces the free end and makes what begins there: the holes of the part, or the centre hole in waste. */
export function prepareEnd(draft: HoldingDraft, stub: number, seat: Seat | null): string | null {
  const { work, bench } = draft;
  const blade = partingBlade(bench.lathe);
  const through = work.length + kerfStock(bench) + (blade?.width ?? 0);
  const why =
    faceEnd(draft, -stub, stub ? null : tailStation(work), stub ? 'centre-stub' : null) ??
    (stub ? null : drillEnd(draft, work.tailHoles, through));
  if (why) return why;
  if (seat) makeSeat(draft, seat);
  return null;
}

export type DiePlan = {
  /** Lands threaded from the tailstock end while it is first free. */
  readonly fromTail: ReadonlySet<number>;
  /** By id: threaded when the headstock end is free, and when the stub at the tailstock end is gone. */
  readonly fromHead: ReadonlySet<string>;
  readonly afterStub: ReadonlySet<string>;
};

/** Which end each thread is cut from; from the headstock end where both would do, as that end is then gripped short. */
export function diePlan(input: WayInput, stub: boolean): DiePlan {
  const { lands } = input.work;
  const turned = input.turned.lands;
  const fromTail = new Set<number>();
  const fromHead = new Set<string>();
  const afterStub = new Set<string>();
  lands.forEach((land, i) => {
    if (!land.segment.thread) return;
    if (
      dieReaches(
        turned,
        turned.findIndex((l) => l.id === land.id),
      )
    )
      fromHead.add(land.id);
    else if (dieReaches(lands, i) && stub) afterStub.add(land.id);
    else if (dieReaches(lands, i)) fromTail.add(i);
  });
  return { fromTail, fromHead, afterStub };
}

/** The holdings on finished lands: the headstock end, then the tailstock end where a stub still stands there. */
export function finishEnds(
  input: WayInput,
  main: HoldingDraft,
  threads: DiePlan,
  stub: number,
  end: number,
  count: number,
): SecondEnd[] | string {
  const { bench, work, turned } = input;
  const standing = main.pieces.filter((p) => p.u0 < end);
  const second = secondEnd(bench, turned, mirror(standing, work.length), {
    holes: true,
    id: `H${count + 1}`,
    threads: threads.fromHead,
  });
  if (typeof second === 'string') return second;
  if (!stub) return [second];
  const third = secondEnd(bench, work, mirror(second.draft.pieces, work.length), {
    holes: false,
    id: `H${count + 2}`,
    threads: threads.afterStub,
  });
  return typeof third === 'string' ? third : [second, third];
}

export const mirror = (pieces: readonly Piece[], length: number): Piece[] =>
  pieces.map((p) => ({ u0: length - p.u1, u1: length - p.u0, d: p.d })).reverse();
