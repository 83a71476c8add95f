import { readAngle } from '../core/lengths/read-angle.ts';
import { readSize } from '../core/lengths/read-size.ts';
import { sizeTextOf } from '../core/outline/drawing-places.ts';
import type { Part, Segment, SizeText } from '../core/part/types.ts';
import type { Problem } from '../core/problem.ts';
import type { Report } from '../core/report-types.ts';
import { readCentreDrill } from '../core/standards/centre-drills.ts';
import { readThread } from '../core/standards/threads.ts';
import { featureSize, featureSizes, type Reads } from './feature-size.ts';
import type { Choice } from './choice.ts';

/** A size that can be typed on the drawing, also one that is not there yet. */
export type SizeTarget =
  | { readonly kind: 'length'; readonly id: string }
  | { readonly kind: 'segment'; readonly id: string; readonly end: 'start' | 'end' | 'angle' }
  | { readonly kind: 'hole' | 'crossing' | 'edge'; readonly id: string; readonly field: string }
  | { readonly kind: 'new-length'; readonly from: string; readonly to: string };

/** What is typed when a chosen thing is edited; null where it has no size of its own. */
export const targetOf = (part: Part, choice: Choice): SizeTarget | null => targetsOf(part, choice)[0] ?? null;

/** All sizes of a chosen thing, in the order in which they are typed. */
export function targetsOf(part: Part, choice: Choice): readonly SizeTarget[] {
  const { kind, id } = choice;
  if (kind === 'station') return [];
  if (kind === 'length') return part.lengths.some((l) => l.id === id) ? [{ kind, id }] : [];
  if (kind === 'segment') {
    const taper = part.segments.find((s) => s.id === id)?.form === 'taper';
    const ends = taper ? (['start', 'end', 'angle'] as const) : (['start'] as const);
    return ends.map((end) => ({ kind, id, end }));
  }
  return featureSizes(part, { kind, id }).map(({ field }) => ({ kind, id, field }));
}

/** The ways in which a taper's slope is given; the first is meant where none is given yet. */
const SLOPES = ['ratio', 'per_foot', 'half_angle', 'included_angle'] as const;
export type Slope = (typeof SLOPES)[number];
type Taper = Segment & { form: 'taper' };
export const slopeOf = (taper: Taper): Slope => SLOPES.find((way) => taper[way] !== undefined) ?? 'ratio';

/** The text that stands there now; empty where nothing does. */
export function textOf(part: Part, target: SizeTarget): string {
  const text = (size: SizeText | undefined) => (size === undefined ? '' : sizeTextOf(size));
  switch (target.kind) {
    case 'new-length':
      return '';
    case 'length':
      return text(part.lengths.find((l) => l.id === target.id)?.size);
    case 'segment': {
      const segment = part.segments.find((s) => s.id === target.id);
      if (!segment) return '';
      if (segment.form === 'thread') return segment.thread;
      if (segment.form === 'cylinder') return text(segment.diameter);
      return target.end === 'angle' ? (segment[slopeOf(segment)] ?? '') : text(segment[target.end]);
    }
    default:
      return text(featureSize(part, target)?.size);
  }
}

/** Why a typed text cannot stand there; null where it can. */
export function refusal(part: Part, target: SizeTarget, text: string): Problem | null {
  const read = readBy(readsAs(part, target), text, part);
  return read.ok ? null : read.problem;
}

type Read = { readonly ok: true } | { readonly ok: false; readonly problem: Problem };

function readBy(reads: Reads | 'slope', text: string, part: Part): Read {
  const word = text.trim().toLowerCase();
  if (reads === 'thread') return readThread(text);
  if (reads === 'angle') return readAngle(text);
  if (reads === 'centre') return readCentreDrill(text);
  if (reads === 'slope' && /^\s*\d[\d.,]*\s*:\s*\d[\d.,]*\s*$/.test(text)) return { ok: true };
  if (reads === 'slope') return text.trim().endsWith('°') ? readAngle(text) : readSize(text, part.unit);
  if (reads !== 'size' && word === 'through') return { ok: true };
  if (reads === 'reach' && word === 'axis') return { ok: true };
  return readSize(text, part.unit);
}

function readsAs(part: Part, target: SizeTarget): Reads | 'slope' {
  if (target.kind === 'length' || target.kind === 'new-length') return 'size';
  if (target.kind !== 'segment') return featureSize(part, target)?.reads ?? 'size';
  if (target.end === 'angle') return 'slope';
  return part.segments.find((s) => s.id === target.id)?.form === 'thread' ? 'thread' : 'size';
}

/** Sizes that are still to be typed, left to right: diameters and lengths left empty, then lengths that nothing gives. */
export function missingSizes(part: Part, report: Report): SizeTarget[] {
  const unread = (target: SizeTarget) => refusal(part, target, textOf(part, target)) !== null;
  const diameters = part.segments.flatMap((s) => diametersWanted(s)).filter(unread);
  const features = [
    ...part.holes.map(({ id }): Choice => ({ kind: 'hole', id })),
    ...part.crossings.map(({ id }): Choice => ({ kind: 'crossing', id })),
  ].flatMap((choice) => targetsOf(part, choice).filter((t) => unread(t) && !isOptional(t)));
  const lengths = part.lengths.map((l): SizeTarget => ({ kind: 'length', id: l.id })).filter(unread);
  const wanted = report.chains.missing.map(({ between: [from, to] }): SizeTarget => ({
    kind: 'new-length',
    from,
    to,
  }));
  return [...diameters, ...features, ...lengths, ...wanted];
}

const isOptional = (target: SizeTarget): boolean => 'field' in target && target.field === 'drill_depth';

/** A taper wants two of its three; the ends come before the slope, as plans mostly give them. */
function diametersWanted(segment: Segment): SizeTarget[] {
  const end = (which: 'start' | 'end'): SizeTarget => ({ kind: 'segment', id: segment.id, end: which });
  if (segment.form !== 'taper') return [end('start')];
  const sloped = SLOPES.some((way) => segment[way] !== undefined);
  const given = (which: 'start' | 'end') => segment[which] !== undefined && sizeTextOf(segment[which]) !== '';
  if (sloped) return given('start') || given('end') ? [] : [end('start')];
  return [end('start'), end('end')];
}

export const sameTarget = (a: SizeTarget, b: SizeTarget): boolean => JSON.stringify(a) === JSON.stringify(b);
