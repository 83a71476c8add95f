import { drillEnd, faceEnd, makeSeat, noSuchSeat, type Seat, seatsAt, settledSeats } from './ends.ts';
import { barGrip } from './grips.ts';
import { HoldingDraft } from './holding-draft.ts';
import { cutCorners } from './corners.ts';
import { proveTrials } from './trial.ts';
import { turnOutside } from './outside.ts';
import { roomBehind, turnTool } from './tool-choice.ts';
import { zOf } from './frame.ts';
import { diePlan, finishEnds } from './finish-ends.ts';
import { gripAt } from './pins.ts';
import {
  CENTRED_DIAMETERS,
  endWaste,
  endDatum,
  facingStock,
  isRefused,
  JAW_CLEARANCE,
  type Refused,
  slenderness,
  stockOf,
  tailStation,
  type Way,
  type WayInput,
} from './way.ts';
import type { Piece } from './billet.ts';
import type { Holding, Support } from './types.ts';
import { centreDrillForWork } from '../standards/centre-drills.ts';
import { pm } from '../lengths/length.ts';
import { size } from './words.ts';

/**
 * Between centres: a blank sawn to length, both ends faced and centred, the dog on a stub of bar skin at the
 * headstock end, the whole outside turned at one setting; then the stubs are faced off, the work gripped on its lands.
 */
export function centresWays(input: WayInput): (Way | Refused)[] {
  const layout = layOut(input);
  if (typeof layout === 'string') return [{ name: input.name, why: layout }];
  if (input.bench.pins.centre === false)
    return [{ name: input.name, why: 'work between centres was settled to do without a centre' }];
  const offered = seatsAt(input).filter((s) => s.kind !== 'left' || input.work.tailStub);
  if (!offered.length) return [{ name: input.name, why: 'no centre can bear in the tailstock end' }];
  const seats = settledSeats(input, offered);
  if (!seats.length) return [{ name: input.name, why: noSuchSeat(input) }];
  return seats
    .map((seat) => centresWay(input, layout, seat))
    .filter((w, i, all) => i === 0 || !isRefused(w) || all.every(isRefused));
}

type Layout = { device: 'collet' | 'chuck'; gripLength: number; hi: number; dog0: number; dog1: number };

function layOut(input: WayInput): Layout | string {
  const { bench, work } = input;
  const { lathe } = bench;
  if (!lathe.betweenCentresDrive) return 'the lathe file has no faceplate and dog to drive between centres';
  const grip = barGrip(lathe, bench.bar);
  if (!grip) return `neither a collet nor a chuck of the lathe holds the bar, ${size(bench.bar, lathe)}`;
  if (bench.bar > lathe.spindleBore)
    return `the bar, ${size(bench.bar, lathe)}, does not pass the spindle, so the long blank cannot be held to centre its ends`;
  if (bench.bar > lathe.swing) return 'the bar is over the swing';
  const left = turnTool(lathe, 'left');
  const wall = Math.max(0, (bench.bar - (work.lands.at(-1)?.blank ?? 0)) / 2);
  const hi = work.length + (left ? roomBehind(left, wall) : 0) + 2_000_000_000;
  const dog0 = gripAt(bench, 'H3', hi + JAW_CLEARANCE, hi + JAW_CLEARANCE);
  if (typeof dog0 === 'string') return dog0;
  const dog1 = dog0 + Math.max(bench.bar / 2, 10_000_000_000);
  if (dog1 + 10e9 > lathe.betweenCentres) return 'the blank is longer than the lathe takes between centres';
  return { device: grip.device, gripLength: grip.length, hi, dog0, dog1 };
}

function centresWay(input: WayInput, layout: Layout, seat: Seat): Way | Refused {
  const { bench, work, turned, name } = input;
  // The centre hole in the stub goes deeper into waste than the part begins.
  const stub = seat.kind === 'stub' ? 8_000_000_000 : 0;
  const free = -(stub + endWaste(bench));
  const end = layout.dog1 + facingStock(bench);
  let pieces: Piece[] = [{ u0: free, u1: end, d: bench.bar }];

  // No more stands out than leaves a whole grip of the blank in the holder.
  const spare = Math.min(Math.max(1.5 * bench.bar, 10_000_000_000), end + stub - layout.gripLength);
  const at1 = gripAt(bench, 'H1', 0, free + spare);
  const at2 = gripAt(bench, 'H2', 0, work.length - end + spare);
  if (typeof at1 === 'string') return { name, why: at1 };
  if (typeof at2 === 'string') return { name, why: at2 };
  const one = holdBlank(input, layout, { pieces, id: 'H1', at: at1, second: false, waste: stub });
  const why1 =
    proveTrials(one, -(stub + facingStock(bench))) ??
    faceEnd(one, -stub, stub ? null : tailStation(work), stub ? 'centre-stub' : null) ??
    (stub ? null : drillEnd(one, work.tailHoles, work.length + 1e9));
  if (why1) return { name, why: why1 };
  makeSeat(one, seat);
  pieces = one.pieces;

  const two = holdBlank(input, layout, {
    pieces: flip(pieces, work.length),
    id: 'H2',
    at: at2,
    second: true,
    waste: layout.dog1 - work.length,
  });
  const why2 = faceEnd(two, work.length - layout.dog1, null, 'centre-stub');
  if (why2) return { name, why: why2 };
  makeSeat(two, { kind: 'stub', drill: centreDrillForWork(pm(Math.round(bench.bar / 2)), bench.lathe.unit) });
  pieces = flip(two.pieces, turned.length);

  const main = new HoldingDraft(
    bench,
    work,
    pieces,
    betweenCentres(input, layout, stub),
    endDatum(work, 0, bench.lathe).u,
  );
  const why = turnOutside(main, -stub, layout.hi);
  if (why) return { name, why };
  if (!stub) {
    const edge = cutCorners(
      main,
      work.corners.filter((c) => c.atTail && c.u0 === 0),
    );
    if (edge) return { name, why: edge };
  }
  const threads = diePlan(input, stub > 0, false);
  if (threads.fromTail.size)
    return { name, why: 'the thread at the tailstock end would want a holding of its own' };
  const rest = finishEnds(input, main, threads, stub, Infinity, 3);
  if (typeof rest === 'string') return { name, why: rest };
  return {
    name,
    drafts: [one, two, main, ...rest.map((r) => r.draft)],
    stock: stockOf(input, free, end),
    centreLeft: null,
    shimmed: rest.some((r) => r.shimmed),
    unsupported: rest.some((r) => r.unsupported),
    seat: seat.kind,
  };
}

const flip = (pieces: readonly Piece[], length: number): Piece[] =>
  pieces.map((p) => ({ u0: length - p.u1, u1: length - p.u0, d: p.d })).reverse();

type BlankHold = {
  readonly pieces: Piece[];
  readonly id: string;
  readonly at: number;
  /** The blank is turned round already. */
  readonly second: boolean;
  readonly waste: number;
};

/** The sawn blank gripped on its skin, a diameter or two standing out, the rest in the spindle. */
function holdBlank(
  input: WayInput,
  layout: Layout,
  { pieces, id, at, second, waste }: BlankHold,
): HoldingDraft {
  const { bench } = input;
  const work = second ? input.turned : input.work;
  const free = pieces[0]?.u0 ?? 0;
  const za = zOf(work, at) / 1e9;
  const zb = zOf(work, at + layout.gripLength) / 1e9;
  const datum = endDatum(work, free, bench.lathe);
  const setup: Omit<Holding, 'marks' | 'cuts' | 'zero_z_mm' | 'z_sign'> = {
    id,
    device: layout.device,
    grips: { z0_mm: Math.min(za, zb), z1_mm: Math.max(za, zb), on: 'bar' },
    headstock: work.headstock,
    stick_out_mm: (at - free) / 1e9,
    support: [],
    steady_at_mm: null,
    datum: {
      station: datum.station,
      how: work.tailStub
        ? `${datum.how}${second ? ' Measure the whole blank to set it.' : ''}`
        : `Zero is the finished end ${datum.station}; the sawn end stands ${size(-free, bench.lathe)} further out${waste ? ', all of it waste' : ''}${second ? ': measure the whole blank to set it' : ''}.`,
    },
  };
  return new HoldingDraft(bench, work, pieces, setup, datum.u);
}

function betweenCentres(
  input: WayInput,
  layout: Layout,
  stub: number,
): Omit<Holding, 'marks' | 'cuts' | 'zero_z_mm' | 'z_sign'> {
  const { bench, work } = input;
  const za = zOf(work, layout.dog0) / 1e9;
  const zb = zOf(work, layout.dog1) / 1e9;
  const slender = slenderness(work, work.length) > CENTRED_DIAMETERS;
  const support: Support[] =
    slender && bench.lathe.support.includes('travelling-steady') ? ['travelling-steady'] : [];
  const datum = endDatum(work, -stub, bench.lathe);
  const end = datum.station;
  return {
    id: 'H3',
    device: 'centres',
    grips: { z0_mm: Math.min(za, zb), z1_mm: Math.max(za, zb), on: 'bar' },
    headstock: work.headstock,
    stick_out_mm: null,
    support,
    steady_at_mm: null,
    datum: {
      station: end,
      how: work.tailStub
        ? datum.how
        : stub
          ? `Touch the faced end of the stub: it stands ${size(stub, bench.lathe)} outside the finished end ${end}, which is zero.`
          : `Touch the faced end ${end} and set Z to zero there.`,
    },
  };
}
