import { readSize } from '../core/lengths/read-size.ts';
import type { Problem } from '../core/problem.ts';
import { sizeTextOf } from '../core/outline/drawing-places.ts';
import type { Part, SizeText } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { readThread } from '../core/standards/threads.ts';
import { mainSize } from './feature-size.ts';
import type { Choice } from './choice.ts';

/** A size that can be typed on the drawing, also one that is not there yet. */
export type SizeTarget =
  | { readonly kind: 'length'; readonly id: string }
  | { readonly kind: 'segment'; readonly id: string; readonly end: 'start' | 'end' }
  | { readonly kind: 'hole' | 'crossing' | 'edge'; readonly id: string }
  | { readonly kind: 'new-length'; readonly from: string; readonly to: string };

/** What is typed when a chosen thing is edited; null where it has no size of its own. */
export function targetOf(part: Part, choice: Choice): SizeTarget | null {
  if (choice.kind === 'station') return null;
  if (choice.kind === 'segment') return { kind: 'segment', id: choice.id, end: 'start' };
  if (choice.kind === 'length') return { kind: 'length', id: choice.id };
  const target = { kind: choice.kind, id: choice.id };
  return mainSize(part, target) ? target : null;
}

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
      return text(segment.form === 'cylinder' ? segment.diameter : segment[target.end]);
    }
    default:
      return text(mainSize(part, target)?.size);
  }
}

/** Why a typed text cannot stand there; null where it can. */
export function refusal(part: Part, target: SizeTarget, text: string): Problem | null {
  const read = readsAs(part, target) === 'thread' ? readThread(text) : readSize(text, part.unit);
  return read.ok ? null : read.problem;
}

function readsAs(part: Part, target: SizeTarget): 'size' | 'thread' {
  if (target.kind === 'segment')
    return part.segments.find((s) => s.id === target.id)?.form === 'thread' ? 'thread' : 'size';
  if (target.kind === 'length' || target.kind === 'new-length') return 'size';
  return mainSize(part, target)?.reads ?? 'size';
}

/** Sizes that are still to be typed, left to right: diameters and lengths left empty, then lengths that nothing gives. */
export function missingSizes(part: Part, report: Report): SizeTarget[] {
  const unread = (target: SizeTarget) => refusal(part, target, textOf(part, target)) !== null;
  const diameters = part.segments
    .map((s): SizeTarget => ({ kind: 'segment', id: s.id, end: 'start' }))
    .filter((target) => !isTaper(part, target) && unread(target));
  const lengths = part.lengths.map((l): SizeTarget => ({ kind: 'length', id: l.id })).filter(unread);
  const wanted = report.chains.missing.map(({ between: [from, to] }): SizeTarget => ({
    kind: 'new-length',
    from,
    to,
  }));
  return [...diameters, ...lengths, ...wanted];
}

const isTaper = (part: Part, target: SizeTarget): boolean =>
  target.kind === 'segment' && part.segments.find((s) => s.id === target.id)?.form === 'taper';

export const sameTarget = (a: SizeTarget, b: SizeTarget): boolean => JSON.stringify(a) === JSON.stringify(b);
