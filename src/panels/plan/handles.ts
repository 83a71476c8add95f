import { fromMm, type Unit } from '../../core/lengths/length.ts';
import { nearestFraction } from '../../core/lengths/write.ts';
import type { Transaction } from '../../core/part/edit.ts';
import { setPins } from '../../core/part/part-commands.ts';
import type { Part, Pins } from '../../core/part/types.ts';
import type { Holding, Plan } from '../../core/plan/types.ts';

/** A face of the part in a picture of the bar: x in mm, growing from the headstock to the tailstock. */
export type FaceSpot = { readonly id: string; readonly x: number };

/** What can be taken hold of in the picture of a holding. */
export type Handles = {
  readonly holding: string;
  /** The way that has this holding: a grip that is moved settles it too. */
  readonly way: { readonly way: Pins['way'] | undefined; readonly first: string | undefined };
  readonly grip: {
    /** The edge of the grip toward the free end, and the finished end it is counted from. */
    readonly x: number;
    readonly end: FaceSpot;
    readonly settled: boolean;
  } | null;
  /** The face at which two holdings meet; where it can go. */
  readonly split: {
    readonly at: FaceSpot;
    readonly faces: readonly FaceSpot[];
    readonly settled: boolean;
  } | null;
};

/**
 * The places in the picture of a holding that can be dragged: where its grip begins, and, where the work is turned from
 * both ends, the face at which the two holdings meet.
 *
 * @param places - Aim places of stations, mm; null where one is not placed.
 */
export function handlesOf(
  plan: Plan,
  holding: Holding,
  part: Part,
  places: Readonly<Record<string, { readonly aim_mm: number | null }>>,
): Handles {
  const sign = holding.headstock === 'left' ? 1 : -1;
  const faces = part.faces.flatMap(({ id }): FaceSpot[] => {
    const z = Object.hasOwn(places, id) ? places[id]?.aim_mm : null;
    return z === null || z === undefined ? [] : [{ id, x: sign * z }];
  });
  // The free end is at the tailstock, where x is largest.
  const end = sign > 0 ? faces.at(-1) : faces[0];
  const { grips } = holding;
  const x = grips ? Math.max(sign * grips.z0_mm, sign * grips.z1_mm) : null;
  const split = faces.find(({ id }) => id === plan.way?.split);
  return {
    holding: holding.id,
    way: { way: plan.way?.pins.way, first: plan.way?.pins.first },
    grip:
      x === null || !end
        ? null
        : { x, end, settled: part.pins?.grips?.some((pin) => pin.holding === holding.id) ?? false },
    split: split ? { at: split, faces: faces.slice(1, -1), settled: part.pins?.split !== undefined } : null,
  };
}

/** How finely a grip is placed: a sixty-fourth, or half a millimetre. */
export const gripStep = (unit: Unit): number => (unit === 'in' ? 25.4 / 64 : 0.5);

/** How far the grip stands from the finished end, mm, to the nearest step; at least one step. */
export function outAt(x: number, end: FaceSpot, unit: Unit): number {
  const step = gripStep(unit);
  return Math.max(1, Math.round((end.x - x) / step)) * step;
}

/** The same as a size in the part's unit, as it is written into the part file. */
export function outText(out_mm: number, unit: Unit): string {
  return unit === 'in' ? nearestFraction(fromMm(out_mm), 64).text : String(Math.round(out_mm * 2) / 2);
}

/** Settles where a grip begins, and with it the way and the first end, as another way has other holdings. */
export function moveGrip(part: Part, { holding, way }: Handles, out_mm: number): Transaction {
  const out = outText(out_mm, part.unit);
  const others = (part.pins?.grips ?? []).filter((pin) => pin.holding !== holding);
  const did = `Grip of ${holding} ${out} ${part.unit} from the end`;
  return setPins(part, did, { ...way, grips: [...others, { holding, out }] });
}

/** Splits the work at a face, which settles the way from both ends too. */
export const moveSplit = (part: Part, face: string): Transaction =>
  setPins(part, `Split between holdings at ${face}`, { way: 'both-ends', split: face });

/** The face nearest to a place in the picture. */
export const nearestFace = (faces: readonly FaceSpot[], x: number): FaceSpot | null =>
  [...faces].sort((a, b) => Math.abs(a.x - x) - Math.abs(b.x - x))[0] ?? null;
