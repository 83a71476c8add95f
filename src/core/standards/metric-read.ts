import { fromMm, nearest, pm, PM_PER } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { metricRows } from './metric-threads.ts';
import type { MetricRow } from './metric-threads.ts';
import { refuse } from './refuse.ts';
import { neighbours, oneOf } from './suggestions.ts';
import { withHand } from './thread-text.ts';
import type { ThreadText } from './thread-text.ts';
import type { ThreadSpec } from './thread-spec.ts';

/** External minor diameter d3 of the ISO profile, in pitches below the nominal: 17/24 of the height H, twice. */
const ROOT = (17 / 12) * (Math.sqrt(3) / 2);

export const metricName = ([series, nominal, pitch]: MetricRow): string =>
  series === 'coarse' ? `M${nominal}` : `M${nominal}x${pitch}`;

/** The row of a metric thread by its figures in mm; a missing pitch is the coarse one. */
export function metricRow(nominal: number, pitch: number | null): MetricRow | undefined {
  const sized = metricRows.filter((row) => row[1] === nominal);
  return pitch === null ? sized.find((row) => row[0] === 'coarse') : sized.find((row) => row[2] === pitch);
}

export function readMetricThread({ body, leftHand, asWritten }: ThreadText): Outcome<ThreadSpec> {
  const match =
    /^M ?(\d+(?:[.,]\d+)?)(?: ?x ?(\d*[.,]?\d+))?(?: ?[- /] ?([1-9][a-hj-z](?:[1-9][a-hj-z])?))?$/i.exec(
      body,
    );
  if (!match) {
    const say = `“${asWritten}” is not a metric thread; write M6, M8x1 or M6x1-6g.`;
    return refuse('thread-unreadable', say, { text: asWritten });
  }
  const [, size = '', step, cls = null] = match;
  const nominal = decimal(size);
  const row = metricRow(nominal, step === undefined ? null : decimal(step));
  if (!row) return missing(asWritten, nominal);
  const designation = `M${row[1]}x${row[2]}${cls ? `-${cls}` : ''}`;
  return { ok: true, value: { ...specOf(row, cls), designation: withHand(designation, leftHand) } };
}

const decimal = (text: string): number => Number(text.replace(',', '.'));

function specOf(row: MetricRow, cls: string | null): ThreadSpec {
  const [, nominal, pitch, , , , drill] = row;
  const d = fromMm(nominal);
  return {
    designation: metricName(row),
    metric: true,
    nominal: d,
    pitch: fromMm(pitch),
    class: cls,
    major: majorLimits(row, cls),
    blank: metricBlank(row),
    minor: nearest(d - ROOT * pitch * PM_PER.mm),
    tapDrill: { name: `${drill} mm`, diameter: fromMm(drill) },
  };
}

/**
 * Diameter for a die: nominal less 0.15 pitch, to the hundredth of a millimetre; on the large coarse threads, where
 * that would leave 6g, its least major diameter, rounded up.
 */
function metricBlank([, nominal, pitch, [, least]]: MetricRow): Length {
  const hundredths = Math.round((nominal - 0.15 * pitch) * 100 + 1e-9);
  return fromMm(Math.max(hundredths, Math.ceil(least / 10)) / 100);
}

/** The crest class is the last one written (5g6g). 6h has the tolerance of 6g and no allowance, by ISO 965-1. */
function majorLimits(row: MetricRow, cls: string | null): ThreadSpec['major'] {
  const crest = cls === null ? '6g' : cls.slice(-2);
  const [max, min] = row[3];
  if (crest === '6g') return { min: micrometres(min), max: micrometres(max) };
  if (crest === '6h') {
    const d = fromMm(row[1]);
    return { min: pm(d - micrometres(max - min)), max: d };
  }
  return null;
}

const micrometres = (um: number): Length => nearest(um * 1_000_000);

function missing(asWritten: string, nominal: number): Outcome<never> {
  const sizes = [...new Set(metricRows.map((row) => row[1]))].sort((a, b) => a - b);
  const [least, most] = [sizes[0] ?? 0, sizes[sizes.length - 1] ?? 0];
  const same = metricRows.filter((row) => row[1] === nominal).map((row) => `M${row[1]}x${row[2]}`);
  const inside = nominal > least && nominal < most;
  const near = same.length > 0 ? same : inside ? neighbours(sizes, nominal).map((size) => `M${size}`) : [];
  const hint = near.length > 0 ? `did you mean ${oneOf(near)}?` : `it runs from M${least} to M${most}.`;
  return refuse('thread-not-in-table', `The table has no ${asWritten}; ${hint}`, { text: asWritten, near });
}
