import type { Seat } from './ends.ts';
import { zOf } from './frame.ts';
import type { Work } from './frame.ts';
import type { Bench, HoldingDraft } from './holding-draft.ts';
import { trialWaste } from './trial.ts';
import { size } from './words.ts';
import type { Stock } from './types.ts';

/** A way of holding, thought through to its cuts, or the sentence that says why it cannot be. */
export type Way = {
  readonly name: string;
  readonly drafts: readonly HoldingDraft[];
  readonly stock: Stock;
  /** A centre hole that the drawing lacks stays in this end of the part. */
  readonly centreLeft: string | null;
  /** A finished seat is held in hard jaws with a shim. */
  readonly shimmed: boolean;
  /** Work stands out far with nothing to hold it up. */
  readonly unsupported: boolean;
  /** Where the centre bears; null where none is used. */
  readonly seat: Seat['kind'] | null;
  /** The face at which two holdings meet, where they do. */
  readonly split?: string;
};
export type Refused = { readonly name: string; readonly why: string; readonly seat?: Seat['kind'] };

export type WayInput = {
  readonly bench: Bench;
  readonly work: Work;
  /** The same part with its other end toward the headstock. */
  readonly turned: Work;
  readonly name: string;
  readonly bar: { readonly diameter: number; readonly text: string };
};

export const isRefused = (way: Way | Refused): way is Refused => 'why' in way;

/** Metal left for facing an end: 1 mm, or 3/64 in where the lathe reads inches (common practice, 1 to 2 mm). */
export const facingStock = (bench: Bench): number =>
  bench.lathe.unit === 'mm' ? 1_000_000_000 : 1_190_625_000;

/** Waste in front of the part, the centre's stub left out: what is faced off, and a trial land. */
export const endWaste = (bench: Bench): number => facingStock(bench) + trialWaste(bench);

/** What a kerf leaves for facing: 0.5 mm or .020 in (common practice, 0.2 to 0.5 mm). */
export const kerfStock = (bench: Bench): number => (bench.lathe.unit === 'mm' ? 500_000_000 : 508_000_000);

/** Between the last turned place and the jaws. */
export const JAW_CLEARANCE = 3_000_000_000;

/** The bar that a plan uses, from u0 to u1, as the report has it. */
export function stockOf(input: WayInput, u0: number, u1: number): Stock {
  const za = zOf(input.work, u0);
  const zb = zOf(input.work, u1);
  return {
    diameter_mm: input.bar.diameter / 1e9,
    length_mm: (u1 - u0) / 1e9,
    z0_mm: Math.min(za, zb) / 1e9,
    z1_mm: Math.max(za, zb) / 1e9,
    bar: input.bar.text,
  };
}

/** How far work stands out in its own mean diameters; thin places count by their length. */
export function slenderness(work: Work, stickOut: number, from = 0, to = work.length): number {
  let sum = 0;
  let length = 0;
  for (const land of work.lands) {
    const l = Math.min(land.u1, to) - Math.max(land.u0, from);
    if (l <= 0) continue;
    length += l;
    sum += l * (land.d0 / 2 + land.d1 / 2);
  }
  return length > 0 ? stickOut / (sum / length) : 0;
}

/** Common practice, no source: over about 4 diameters the free end wants a centre or a steady. */
export const FREE_DIAMETERS = 4;
/** Common practice, no source: with a centre, over about 12 diameters a steady as well. */
export const CENTRED_DIAMETERS = 12;

/** The end of the part at the tailstock, by its face; a stub may stand before it. */
export const endFace = (work: Work): string => work.tailStub?.face ?? tailStation(work);

/** Whether the stub at the headstock end is left as the blade or the saw leaves it. */
export const leavesSawn = ({ headStub }: Work): boolean => headStub !== null && !headStub.centre;

/**
 * The zero of a holding whose end at the tailstock stands as it is found, or will be faced: that end of the part.
 *
 * @param free - Where the work ends (u), waste included.
 */
export function endDatum(
  work: Work,
  free: number,
  lathe: Bench['lathe'],
): { readonly station: string; readonly how: string; readonly u: number } {
  const station = endFace(work);
  const u = work.tailStub ? (work.lands[0]?.u1 ?? 0) : 0;
  if (work.tailStub)
    return {
      ...{ station, u },
      how: `Zero is end ${station} of the part, under the stub that stays: the standing end is ${size(u - free, lathe)} further out.`,
    };
  const how =
    free < 0
      ? `Zero is the finished end ${station}; the standing end is ${size(-free, lathe)} of waste further out.`
      : `Touch the faced end ${station} and set Z to zero there.`;
  return { station, u, how };
}

/** The tailstock end's station, and the headstock end's. */
export const tailStation = (work: Work): string => work.lands[0]?.tailFace ?? '';
export const headStation = (work: Work): string => work.lands.at(-1)?.headFace ?? '';

export const stubOf = (seat: Seat | null): number => (seat?.kind === 'stub' ? 8_000_000_000 : 0);
