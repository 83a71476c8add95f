import { readSize } from '../core/lengths/read-size.ts';
import { speakLength } from '../core/lengths/speak.ts';
import { calloutsOf } from '../core/outline/dimensions.ts';
import { isReference, sizeTextOf } from '../core/outline/drawing-places.ts';
import type { Part, SizeText } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { Choice } from './choice.ts';
import { featureSize } from './feature-size.ts';
import { slopeOf, type SizeTarget, type Slope } from './size-target.ts';

/** What is chosen, as a machinist would say it: "length A to B, one and five eighths, plus or minus five thousandths". */
export function describe(part: Part, report: Report, choice: Choice): string {
  switch (choice.kind) {
    case 'station':
      return station(part, report, choice.id);
    case 'segment':
      return segment(part, choice.id);
    case 'length':
      return lengthWords(part, report, choice.id);
    default: {
      const callout = calloutsOf(part).find((c) => c.kind === choice.kind && c.id === choice.id);
      return `${named(choice)}, ${aloud(callout?.text ?? '')}`;
    }
  }
}

/** A written size as it is said; the text itself where it cannot be read. */
export function saySize(size: SizeText | undefined, part: Part, tol?: string): string {
  const text = size === undefined ? '' : sizeTextOf(size);
  const read = readSize(text, part.unit);
  if (text.trim() === '') return 'no size yet';
  const said = read.ok && !read.value.limits ? speakLength(read.value.nominal, read.value.unit) : text;
  const tolerance = tol ?? (typeof size === 'object' ? size.tol : undefined);
  return [said, read.ok ? read.value.fit : null, tolerance && sayTolerance(tolerance, part)]
    .filter(Boolean)
    .map((word) => aloud(word ?? ''))
    .join(', ');
}

/** `±.005` as plus or minus five thousandths; other tolerances as they stand, signs in words. */
function sayTolerance(text: string, part: Part): string {
  const even = /^\s*±\s*(.+)$/.exec(text)?.[1];
  const read = even === undefined ? null : readSize(even, part.unit);
  return read?.ok ? `plus or minus ${speakLength(read.value.nominal, read.value.unit)}` : text;
}

const aloud = (text: string): string =>
  text
    .replaceAll('Ø', 'diameter ')
    .replaceAll('±', 'plus or minus ')
    .replaceAll('×', ' by ')
    .replaceAll('°', ' degrees')
    .replace(/(^|[\s/])\+/g, '$1plus ')
    .replace(/(^|[\s/])[-−]/g, '$1minus ')
    .replaceAll(/\s+/g, ' ')
    .trim();

function station(part: Part, report: Report, id: string): string {
  const face = part.faces.find((f) => f.id === id);
  const point = part.points.find((p) => p.id === id);
  const kind = face ? 'face' : 'point';
  const name = (face ?? point)?.name;
  const mm = report.chains.stations[id]?.z_mm ?? null;
  const clash = report.chains.clashes.length > 0;
  const place = mm !== null ? 'placed' : clash ? 'not placed, or hanging on sizes that clash' : 'not placed';
  return [`${kind} ${id}`, name, place].filter(Boolean).join(', ');
}

function segment(part: Part, id: string): string {
  const k = part.segments.findIndex((s) => s.id === id);
  const found = part.segments[k];
  if (!found) return `segment ${id}`;
  const between = `from ${part.faces[k]?.id ?? '?'} to ${part.faces[k + 1]?.id ?? '?'}`;
  const size =
    found.form === 'cylinder'
      ? `diameter ${saySize(found.diameter, part)}`
      : found.form === 'thread'
        ? `thread ${found.thread || 'not named yet'}`
        : `taper, ${[found.start, found.end]
            .filter((d) => d !== undefined)
            .map((d) => saySize(d, part))
            .join(' to ')}`;
  return [`${found.role ?? 'segment'} ${id} ${between}`, size].join(', ');
}

function lengthWords(part: Part, report: Report, id: string): string {
  const found = part.lengths.find((l) => l.id === id);
  if (!found) return `length ${id}`;
  const { clashes, doubled } = report.chains;
  const state = clashes.some((c) => c.lengths.includes(id))
    ? 'clashes with others'
    : doubled.some((d) => d.lengths.includes(id))
      ? 'said twice'
      : null;
  const reference = isReference(found) ? 'reference' : null;
  const size = saySize(found.size, part, found.tol);
  return [`length ${found.from} to ${found.to}`, size, reference, state].filter(Boolean).join(', ');
}

/** An edge without an id of its own is called one already: "edge A left". */
const named = ({ kind, id }: { readonly kind: string; readonly id: string }): string =>
  id.startsWith(`${kind} `) ? id : `${kind} ${id}`;

/** What a field for a size asks for. */
export function sayTarget(part: Part, target: SizeTarget): string {
  if (target.kind === 'new-length') return `Length ${target.from} to ${target.to}`;
  if (target.kind === 'length') {
    const found = part.lengths.find((l) => l.id === target.id);
    return `Length ${found?.from ?? '?'} to ${found?.to ?? '?'}`;
  }
  if (target.kind !== 'segment') {
    const label = featureSize(part, target)?.label ?? 'size';
    return `${label[0]?.toUpperCase()}${label.slice(1)} of ${named(target)}`;
  }
  const segment = part.segments.find((s) => s.id === target.id);
  if (segment?.form === 'thread') return `Thread of ${target.id}`;
  if (segment?.form !== 'taper') return `Diameter of ${target.id}`;
  if (target.end === 'angle') return `${SLOPE_WORDS[slopeOf(segment)]} of ${target.id}`;
  return `Diameter of ${target.id} at its ${target.end === 'start' ? 'left' : 'right'} end`;
}

const SLOPE_WORDS: Readonly<Record<Slope, string>> = {
  ratio: 'Ratio',
  per_foot: 'Taper per foot',
  half_angle: 'Half angle',
  included_angle: 'Whole angle',
};
