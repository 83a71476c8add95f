import type { Length } from '../lengths/length.ts';

/** A thread as the tables know it, external and internal sides together. */
export type ThreadSpec = {
  /** As a machinist writes it: "M6x1-6g", "5/16-24 UNF-2A". */
  readonly designation: string;
  readonly metric: boolean;
  readonly nominal: Length;
  readonly pitch: Length;
  readonly class: string | null;
  /** Limits of the external major diameter for the class; null where the tables have none. */
  readonly major: { readonly min: Length; readonly max: Length } | null;
  /** Diameter the blank is turned to for a die or for single-point cutting. */
  readonly blank: Length;
  /** Root (external minor) diameter by the profile. */
  readonly minor: Length;
  /** Usual tap drill. */
  readonly tapDrill: { readonly name: string; readonly diameter: Length } | null;
};
