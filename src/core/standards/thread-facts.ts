import { fromMm, nearest, pm, PM_PER } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import { drillName, drills } from './drills.ts';
import { metricDrillSource, metricRows, metricSource } from './metric-threads.ts';
import type { MetricRow } from './metric-threads.ts';
import type { Origin } from './origin.ts';
import { threadRelief } from './thread-reliefs.ts';
import type { ThreadRelief } from './thread-reliefs.ts';
import type { ThreadSpec } from './thread-spec.ts';
import { unifiedDrillSource, unifiedRows, unifiedSource } from './unified-threads.ts';
import type { UnifiedRow } from './unified-threads.ts';

/** Two limits of which one may not be in the tables. */
type Range = { readonly min: Length | null; readonly max: Length | null };

/** A drill for tapping. `percent` of full thread by the workshop's convention: (D - d) / (1.299 P). */
export type TapDrill = {
  readonly name: string;
  readonly diameter: Length;
  readonly percent: number;
  readonly usual: boolean;
};

/** What stands beside a thread: both sides of it, its drills and how it ends. */
export type ThreadFacts = {
  /** Height of the sharp triangle, by the profile; `pitchDiameter` and `minor` are basic sizes. */
  readonly height: Length;
  readonly pitchDiameter: Length;
  readonly minor: Length;
  /** 6g or 2A. */
  readonly external: {
    readonly class: string;
    readonly major: Range;
    readonly pitch: Range;
    readonly origin: Origin;
  };
  /** 6H or 2B. */
  readonly internal: {
    readonly class: string;
    readonly minor: Range;
    readonly pitch: Range;
    readonly origin: Origin;
  };
  /** The usual drill first, then others by size; empty where the table has none. */
  readonly tapDrills: readonly TapDrill[];
  readonly drillOrigin: Origin | null;
  readonly relief: ThreadRelief;
};

/** H = √3/2 P; the basic pitch diameter lies 3/4 H under the nominal, the basic minor diameter 5/4 H. */
const HEIGHT = Math.sqrt(3) / 2;
/** Twice 3/4 of H, in pitches: 100 % of thread by the workshop's convention. */
const FULL_THREAD = 1.5 * HEIGHT;
const LEAST_PERCENT = 55;
const MOST_PERCENT = 85;

/** Percentage of full thread that a drill leaves: (D - d) / (1.299 P). A stricter form divides by 1.0825 P. */
export const threadPercent = (nominal: Length, pitch: Length, drill: Length): number =>
  ((nominal - drill) / (FULL_THREAD * pitch)) * 100;

/**
 * The figures beside a thread that has been read; null for one that is not of the tables. Sizes by the profile are
 * rounded to the picometre, limits are as tabled. Sources: ASME B1.1; ISO 68-1, 261, 724, 965-1; drills are practice.
 */
export function threadFacts(spec: ThreadSpec): ThreadFacts | null {
  const sides = spec.metric ? metricSides(spec) : unifiedSides(spec);
  if (!sides) return null;
  const below = (heights: number): Length => nearest(spec.nominal - heights * HEIGHT * spec.pitch);
  return {
    height: nearest(HEIGHT * spec.pitch),
    pitchDiameter: below(3 / 4),
    minor: below(5 / 4),
    ...sides,
    relief: threadRelief(spec.pitch),
  };
}

type Sides = Pick<ThreadFacts, 'external' | 'internal' | 'tapDrills' | 'drillOrigin'>;

function metricSides(spec: ThreadSpec): Sides | null {
  const row = metricRows.find(([, d, p]) => fromMm(d) === spec.nominal && fromMm(p) === spec.pitch);
  if (!row) return null;
  const [, , , ext, extFrom, [pitchMax, minorMax], , drillFrom] = row;
  return {
    external: {
      class: '6g',
      major: { min: um(ext[1]), max: um(ext[0]) },
      pitch: { min: um(ext[3]), max: um(ext[2]) },
      origin: { source: metricSource, provenance: extFrom },
    },
    internal: {
      class: '6H',
      minor: {
        min: toMicrometre(spec.nominal - (5 / 4) * HEIGHT * spec.pitch),
        max: minorMax === null ? null : um(minorMax),
      },
      pitch: {
        min: toMicrometre(spec.nominal - (3 / 4) * HEIGHT * spec.pitch),
        max: pitchMax === null ? null : um(pitchMax),
      },
      origin: { source: metricSource, provenance: 'published' },
    },
    tapDrills: tapDrills(spec, alternativesOf(row)),
    drillOrigin: { source: metricDrillSource, provenance: drillFrom },
  };
}

function unifiedSides(spec: ThreadSpec): Sides | null {
  const row = unifiedRow(spec);
  if (!row) return null;
  const [, , , , ext, extFrom, int, intFrom, , drillFrom] = row;
  return {
    external: {
      class: '2A',
      major: { min: tt(ext[1]), max: tt(ext[0]) },
      pitch: { min: ext[3] === null ? null : tt(ext[3]), max: tt(ext[2]) },
      origin: { source: unifiedSource, provenance: extFrom },
    },
    internal: {
      class: '2B',
      minor: { min: tt(int[0]), max: tt(int[1]) },
      pitch: { min: tt(int[2]), max: tt(int[3]) },
      origin: { source: unifiedSource, provenance: intFrom },
    },
    tapDrills: tapDrills(spec, []),
    drillOrigin: drillFrom && { source: unifiedDrillSource, provenance: drillFrom },
  };
}

function unifiedRow(spec: ThreadSpec): UnifiedRow | undefined {
  return unifiedRows.find((row) => tt(row[3]) === spec.nominal && nearest(PM_PER.in / row[2]) === spec.pitch);
}

/** M1.6 and M2.5: nominal less pitch is no drill by tenths, but is sold as a tap drill. */
function alternativesOf([, nominal, pitch, , , , , , tabled]: MetricRow): Length[] {
  const lessPitch = Math.round((nominal - pitch) * 100) / 100;
  return [...(tabled === null ? [] : [fromMm(tabled)]), ...(nominal <= 3 ? [fromMm(lessPitch)] : [])];
}

function tapDrills(spec: ThreadSpec, tabled: readonly Length[]): TapDrill[] {
  const usual = spec.tapDrill;
  if (!usual) return [];
  const unit = spec.metric ? 'mm' : 'in';
  const listed = drills
    .filter(({ series }) => (series === 'metric') === spec.metric)
    .map(({ diameter }) => diameter);
  const drillOf = (diameter: Length): TapDrill => ({
    name: diameter === usual.diameter ? usual.name : drillName(diameter, unit),
    diameter,
    percent: threadPercent(spec.nominal, spec.pitch, diameter),
    usual: diameter === usual.diameter,
  });
  const others = [...new Set([...tabled, ...listed])]
    .map(drillOf)
    .filter((drill) => !drill.usual)
    .filter(
      ({ percent, diameter }) =>
        tabled.includes(diameter) || (percent >= LEAST_PERCENT && percent <= MOST_PERCENT),
    )
    .sort((a, b) => a.diameter - b.diameter);
  return [drillOf(usual.diameter), ...others];
}

const um = (count: number): Length => nearest(count * 1_000_000);
const tt = (count: number): Length => pm(count * (PM_PER.in / 10_000));
const toMicrometre = (count: number): Length => nearest(Math.round(count / 1_000_000) * 1_000_000);
