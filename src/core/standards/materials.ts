import type { Origin, Provenance } from './origin.ts';
import { weakest } from './origin.ts';
import { materialRows } from './material-table.ts';
import type { MaterialRow } from './material-table.ts';
import { usualKey } from './material-keys.ts';

/** Surface speeds with high-speed steel, in m/min. `low`: to begin with, or on a light lathe. */
export type SpeedRange = { readonly low: number; readonly typical: number };

export type Material = {
  readonly key: string;
  readonly name: string;
  /** Young's modulus, MPa. */
  readonly youngs: number;
  /** kg/m³ */
  readonly density: number;
  /** Specific cutting force for a chip 1 mm thick and 1 mm wide, N/mm²; null where no figure is known. */
  readonly kc11: number | null;
  /** Exponent of the chip's thickness: kc = kc11 · h^-mc. Null with kc11. */
  readonly mc: number | null;
  readonly speed: Readonly<Record<'rough' | 'finish' | 'thread' | 'drill' | 'part', SpeedRange>>;
  /** What to put on the cut; "dry" where nothing. */
  readonly oil: string;
  /** What the chip looks like when things go well. */
  readonly chip: string;
  /** The weakest of the figures; `from` tells them apart. */
  readonly provenance: Provenance;
  readonly from: Readonly<Record<'youngs' | 'density' | 'force' | 'turning' | 'threading', Origin>>;
};

const METRES_PER_FOOT = 0.3048;
/** Common practice, no source: begin at three quarters; drill at four fifths, part at six tenths of roughing. */
const BEGIN = 0.75;
const DRILL = 0.8;
const PART = { low: 0.5, typical: 0.6 };

const tenths = (x: number): number => Math.round(x * 10) / 10;
const turning = (feetPerMinute: number, factor = 1): SpeedRange => {
  const typical = feetPerMinute * METRES_PER_FOOT * factor;
  return { low: tenths(typical * BEGIN), typical: tenths(typical) };
};

function materialOf(row: MaterialRow): Material {
  const { roughFeet, finishFeet, die, ...rest } = row;
  const rough = roughFeet * METRES_PER_FOOT;
  return {
    ...rest,
    speed: {
      rough: turning(roughFeet),
      finish: turning(finishFeet),
      thread: { low: die[0], typical: tenths((die[0] + die[1]) / 2) },
      drill: turning(roughFeet, DRILL),
      part: { low: tenths(rough * PART.low), typical: tenths(rough * PART.typical) },
    },
    provenance: weakest(...Object.values(row.from).map((origin) => origin.provenance)),
  };
}

const materials: ReadonlyMap<string, Material> = new Map(
  materialRows.map((row) => [row.key, materialOf(row)] as const),
);

/** The figures of a material by its key, `drill-rod`; null for a key the table does not know. */
export function material(key: string): Material | null {
  return materials.get(usualKey(key)) ?? null;
}

/** The keys of the table, in its order. */
export function materialKeys(): readonly string[] {
  return [...materials.keys()];
}
