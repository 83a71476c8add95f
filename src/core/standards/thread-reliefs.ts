import { fromMm, nearest, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Origin } from './origin.ts';
import { reliefRows } from './thread-relief-table.ts';

/** Where a thread ends: run-out, distance to a shoulder, relief groove. Null where neither table nor rule tells. */
export type ThreadRelief = {
  /** Incomplete threads at the end of a cut thread, at most. */
  readonly runout: { readonly normal: Length; readonly short: Length };
  /** Last full thread to a shoulder without a groove, at most. */
  readonly distance: { readonly normal: Length; readonly short: Length; readonly long: Length };
  /** The groove's diameter is the nominal less this. */
  readonly under: Length | null;
  /** Straight bottom of the groove, at least. */
  readonly least: { readonly normal: Length; readonly short: Length } | null;
  /** Groove with its slope, at most. */
  readonly most: { readonly normal: Length; readonly short: Length };
  readonly radius: Length | null;
  readonly origin: Origin;
};

const TABLE: Origin = {
  source:
    'DIN 76-1 external threads, from memory: check the standard; run-outs agree with multiples of the pitch',
  provenance: 'memory',
};
const RULE: Origin = {
  source: 'multiples of the pitch that the tabled run-outs follow, from memory; no groove diameter is known',
  provenance: 'memory',
};

/**
 * Run-out and relief of an external thread by its pitch. Pitches of the metric table come from it; any other pitch,
 * inch threads among them, has the multiples of the pitch only, and no groove diameter.
 */
export function threadRelief(pitch: Length): ThreadRelief {
  const row = reliefRows.find(([p]) => fromMm(p) === pitch);
  if (!row) return byRule(pitch);
  const [, runout, distance, under, least, most, radius] = row;
  return {
    runout: { normal: fromMm(runout[0]), short: fromMm(runout[1]) },
    distance: { normal: fromMm(distance[0]), short: fromMm(distance[1]), long: fromMm(distance[2]) },
    under: fromMm(under),
    least: least && { normal: fromMm(least[0]), short: fromMm(least[1]) },
    most: most
      ? { normal: fromMm(most[0]), short: fromMm(most[1]) }
      : { normal: multiple(pitch, 3.5), short: multiple(pitch, 2.5) },
    radius: fromMm(radius),
    origin: TABLE,
  };
}

function byRule(pitch: Length): ThreadRelief {
  return {
    runout: { normal: multiple(pitch, 2.5), short: multiple(pitch, 1.25) },
    distance: { normal: multiple(pitch, 3), short: multiple(pitch, 2), long: multiple(pitch, 4) },
    under: null,
    least: null,
    most: { normal: multiple(pitch, 3.5), short: multiple(pitch, 2.5) },
    radius: null,
    origin: RULE,
  };
}

/** Rounded to the hundredth of a millimetre, which is as fine as the table goes. */
const multiple = (pitch: Length, times: number): Length =>
  nearest(Math.round(toMm(pitch) * times * 100) * 1e7);
