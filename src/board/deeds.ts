import { addGroove, joinRight, mirror, swapRight } from '../core/part/rearrange.ts';
import { PM_PER } from '../core/lengths/length.ts';
import { isReference } from '../core/outline/drawing-places.ts';
import { setLengthLane, setLengthReference, splitSegment } from '../core/part/commands.ts';
import { applyAll, type Transaction } from '../core/part/edit.ts';
import { addPoint } from '../core/part/feature-commands.ts';
import { setForm } from '../core/part/segment-commands.ts';
import type { Part, Segment } from '../core/part/types.ts';
import type { Choice } from './choice.ts';
import type { Ground } from './drawing.ts';
import { inTurn } from './edits.ts';
import { crossingKinds, edgeKinds, holeKinds, type Kind } from './feature-kinds.ts';

/** Something that can be done to what is chosen: a plain word, and the step it makes of a part. */
export type Deed = { readonly name: string; readonly does: (part: Part) => Transaction };
/** Deeds that belong together, with a word before them. */
export type DeedGroup = { readonly name: string; readonly deeds: readonly Deed[] };

/** Where on a segment something goes, as rough places: what was clicked, or its middle. */
type Span = { readonly low: number; readonly high: number; readonly at: number };

/**
 * What can be done to a choice. Nothing chosen: to the whole part.
 * @param atMm - Where it was clicked along the drawing; null where it was chosen otherwise.
 */
export function deedsFor(ground: Ground, choice: Choice | null, atMm: number | null): readonly DeedGroup[] {
  const { part } = ground;
  if (!choice)
    return part.segments.length === 0
      ? []
      : [{ name: 'the part', deeds: [{ name: 'turn round', does: mirror }] }];
  if (choice.kind === 'length') return lengthDeeds(part, choice.id);
  if (choice.kind === 'station') return stationDeeds(part, choice.id);
  return choice.kind === 'segment' ? segmentDeeds(ground, choice.id, atMm) : [];
}

const named = (kinds: readonly Kind[]): Deed[] => kinds.map(({ name, add }) => ({ name, does: add }));

function lengthDeeds(part: Part, id: string): readonly DeedGroup[] {
  const length = part.lengths.find((l) => l.id === id);
  if (!length) return [];
  const reference = isReference(length);
  const deeds: Deed[] = [
    {
      name: reference ? 'take the brackets off' : 'bracket it',
      does: (now) => setLengthReference(now, id, !reference),
    },
  ];
  if (length.lane !== undefined)
    deeds.push({ name: 'let it pack itself', does: (now) => setLengthLane(now, id, null) });
  return [{ name: `length ${length.from}–${length.to}`, deeds }];
}

function stationDeeds(part: Part, id: string): readonly DeedGroup[] {
  const k = part.faces.findIndex((face) => face.id === id);
  const last = part.faces.length - 1;
  if (k < 0) {
    const point = part.points.find((p) => p.id === id);
    const next = part.points.filter((p) => p.sketched > (point?.sketched ?? Infinity));
    const to = next.sort((a, b) => a.sketched - b.sketched)[0]?.id ?? null;
    return [{ name: `on point ${id}`, deeds: named(crossingKinds(id, to, part.unit)) }];
  }
  if (last === 0) return [];
  const side = (of: 'left' | 'right') => named(edgeKinds(id, of, part.unit));
  const groups: DeedGroup[] = [];
  if (k > 0) groups.push({ name: `left of ${id}`, deeds: side('left') });
  if (k < last) groups.push({ name: `right of ${id}`, deeds: side('right') });
  if (k === 0 || k === last) groups.push({ name: 'into the end', deeds: named(holeKinds(id, part.unit)) });
  return groups;
}

function segmentDeeds(
  { part, places, radii }: Ground,
  id: string,
  atMm: number | null,
): readonly DeedGroup[] {
  const k = part.segments.findIndex((s) => s.id === id);
  const [segment, left, right] = [part.segments[k], part.faces[k], part.faces[k + 1]];
  if (!segment || !left || !right) return [];
  const [low, high] = [left.sketched, right.sketched];
  const clicked = atMm === null ? (low + high) / 2 : places.toSketched(atMm);
  const span = {
    low,
    high,
    at: Math.min(Math.max(clicked, low + (high - low) / 50), high - (high - low) / 50),
  };
  // A groove is sketched four fifths as thick as its land.
  const grooved = (0.8 * 2 * (radii[k]?.left ?? 0) * PM_PER.mm) / PM_PER[part.unit];
  const forms = (['cylinder', 'taper', 'thread'] as const).filter((form) => form !== segment.form);
  const shape: Deed[] = [
    { name: 'split', does: (now) => splitSegment(now, id, tidy(span.at)) },
    ...(k + 1 < part.segments.length
      ? [
          { name: 'join with the next', does: (now: Part) => joinRight(now, id) },
          { name: 'swap with the next', does: (now: Part) => swapRight(now, id) },
        ]
      : []),
  ];
  return [
    {
      name: `${id} into a`,
      deeds: forms.map((form) => ({ name: form, does: (now) => setForm(now, id, form) })),
    },
    { name: 'on it', deeds: onSegment(segment, span, part, grooved) },
    { name: '', deeds: shape },
  ];
}

const tidy = (place: number): number => Number(place.toFixed(4));

/** What crosses a segment begins at points of its own, which are put there with it. */
function onSegment(
  { id, form }: Segment,
  { low, high, at }: Span,
  { unit }: Part,
  grooved: number,
): readonly Deed[] {
  const within = (share: number) => tidy(low + (high - low) * share);
  const crossing = (name: string, ends: readonly number[]): Deed => ({
    name,
    does: (part) => withPoints(part, ends, name),
  });
  const width = (high - low) / 8;
  const from = Math.min(Math.max(at - width / 2, low + width / 4), high - width * 1.25);
  const groove: Deed = {
    name: 'groove',
    does: (part) => addGroove(part, id, tidy(from), tidy(from + width), tidy(grooved)),
  };
  const kinds = crossingKinds('', '', unit).map(({ name }) =>
    crossing(name, name === 'cross hole' ? [tidy(at)] : [within(0.25), within(0.75)]),
  );
  const point: Deed = { name: 'point', does: (part) => addPoint(part, tidy(at)) };
  return [...(form === 'taper' ? [] : [groove]), ...kinds, point];
}

/** Points at rough places, and on them a crossing by its name, as one step. */
function withPoints(part: Part, at: readonly number[], name: string): Transaction {
  const points: string[] = [];
  const commands = at.map((place) => (now: Part) => {
    const made = addPoint(now, place);
    points.push(applyAll(now, made).points.at(-1)?.id ?? '');
    return made;
  });
  const cross = (now: Part) => {
    const kinds = crossingKinds(points[0] ?? '', points[1] ?? null, part.unit);
    return kinds.find((kind) => kind.name === name)?.add(now) ?? { edits: [], did: '' };
  };
  return inTurn(part, `${name[0]?.toUpperCase()}${name.slice(1)} added`, [...commands, cross]);
}
