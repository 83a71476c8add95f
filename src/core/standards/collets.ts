import { fromInches, fromMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Provenance } from './origin.ts';

/** A collet series and the round bar it takes. */
export type Collet = {
  readonly series: string;
  /** Smallest round; it depends on the maker. Null where no figure is known. */
  readonly min: Length | null;
  readonly max: Length;
  readonly nutThread: string | null;
  readonly use: string;
  readonly provenance: Provenance;
};

export const colletSource =
  'collet makers’ technical pages as printed (largest sizes, nut threads); smallest sizes differ from maker to maker';

type Row = readonly [series: string, min: number | null, max: number, nut: string | null, from: Provenance];

const P = 'published';
const M = 'memory';
const ER = 'DIN 6499, ISO 15488';

const METRIC: readonly Row[] = [
  ['ER8', 0.5, 5, null, M],
  ['ER11', 0.5, 7, 'M14x0.75', P],
  ['ER16', 0.5, 10, 'M22x1.5', P],
  ['ER20', 0.5, 13, 'M25x1.5', P],
  ['ER25', 0.5, 16, 'M32x1.5', P],
  ['ER32', 1, 20, 'M40x1.5', P],
  ['ER40', 3, 26, 'M50x1.5', M],
  ['ER50', 6, 34, null, M],
];

export const collets: readonly Collet[] = [
  ...METRIC.map(([series, min, max, nutThread, provenance]) => ({
    series,
    min: min === null ? null : fromMm(min),
    max: fromMm(max),
    nutThread,
    use: ER,
    provenance,
  })),
  inch('5C', 1 / 16, 1 + 1 / 16, 'bar through the collet and the draw tube', P),
  inch('5C, short grip', 1 / 16, 1 + 1 / 8, 'thin wall, short work only', P),
  inch('16C', null, 1 + 5 / 8, 'bar through the collet', P),
  inch('3C', null, 1 / 2, 'bar through the collet', M),
  inch('R8', 1 / 8, 7 / 8, 'holds tools rather than bar', P),
];

function inch(series: string, min: number | null, max: number, use: string, provenance: Provenance): Collet {
  return {
    series,
    min: min === null ? null : fromInches(min),
    max: fromInches(max),
    nutThread: null,
    use,
    provenance,
  };
}

/** How far an ER collet closes below its nominal size: 0.5 mm to 3 mm nominal, 1 mm above. One published source. */
export const erCloses = (nominal: Length): Length => fromMm(nominal <= fromMm(3) ? 0.5 : 1);
