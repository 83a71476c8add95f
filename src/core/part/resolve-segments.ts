import { readSize } from '../lengths/read-size.ts';
import { readBearing } from '../standards/bearings.ts';
import { fitDeviations } from '../standards/iso286.ts';
import { readThread } from '../standards/threads.ts';
import { bandAround } from './general-rules.ts';
import { fault, valueAt, warn, type ResolveContext } from './resolve-context.ts';
import type { ResolvedMate, ResolvedSegment } from './resolved.ts';
import { resolveSize } from './resolve-size.ts';
import { resolveTaper } from './resolve-taper.ts';
import type { Mate, Part, Segment } from './types.ts';

function bearingMate(context: ResolveContext, text: string, where: string): ResolvedMate | null {
  const bearing = valueAt(context, readBearing(text), where);
  return bearing && { text: bearing.designation, ...bearing.bore, chamfer: bearing.chamfer };
}

function boreMate(context: ResolveContext, text: string, where: string): ResolvedMate | null {
  const size = valueAt(context, readSize(text, context.unit), where);
  if (!size) return null;
  if (size.limits) return { text, ...size.limits };
  if (size.fit === null) {
    const say = `The bore “${text}” carries no limits; its fit is worked out as if it were exact.`;
    warn(context, 'no-limits', where, say, { text });
    return { text, min: size.nominal, max: size.nominal };
  }
  if (size.fit === size.fit.toLowerCase()) {
    const say = `${size.fit} is a class for a shaft; a bore's is written with a capital letter.`;
    fault(context, 'fit-wrong-side', where, say, { fit: size.fit });
    return null;
  }
  const band = valueAt(context, fitDeviations(size.nominal, size.fit), where);
  return band && { text, ...bandAround(size.nominal, band) };
}

function resolveMate(context: ResolveContext, mate: Mate | undefined, where: string): ResolvedMate | null {
  if (mate?.bearing !== undefined && mate.bore !== undefined) {
    fault(context, 'mate-twice', `${where}.bore`, 'The mate is given as a bearing and as a bore; keep one.');
  }
  if (mate?.bearing !== undefined) return bearingMate(context, mate.bearing, `${where}.bearing`);
  if (mate?.bore !== undefined) return boreMate(context, mate.bore, `${where}.bore`);
  return null;
}

function resolveSegment(
  context: ResolveContext,
  part: Part,
  segment: Segment,
  index: number,
): ResolvedSegment {
  const where = `segments[${index}]`;
  const common = {
    id: segment.id,
    index,
    left: part.faces[index]?.id ?? '',
    right: part.faces[index + 1]?.id ?? '',
    role: segment.role ?? null,
    mate: resolveMate(context, segment.mate, `${where}.mate`),
  };
  if (segment.form === 'taper') {
    return { ...common, form: 'taper', ...resolveTaper(context, segment, where) };
  }
  if (segment.form === 'thread') {
    const thread = valueAt(context, readThread(segment.thread), `${where}.thread`);
    return { ...common, form: 'thread', thread };
  }
  const diameter = resolveSize(context, segment.diameter, `${where}.diameter`, 'shaft');
  return { ...common, form: 'cylinder', diameter, metalSide: segment.aim === 'metal' };
}

/** All segments in drawn order, each between its two faces. What cannot be read is null in them and an error. */
export function resolveSegments(context: ResolveContext, part: Part): readonly ResolvedSegment[] {
  if (part.segments.length === 0) {
    fault(context, 'empty-part', 'segments', 'There is nothing to turn yet: the part has no segment.');
  }
  return part.segments.map((segment, i) => resolveSegment(context, part, segment, i));
}

/** Groups of segments to be made alike, without those that name nothing; a group of one says nothing and goes. */
export function resolveMatched(context: ResolveContext, part: Part): readonly (readonly string[])[] {
  return part.matched
    .map((group, i) =>
      group.filter((id, j) => {
        const known = context.segments.has(id);
        const where = `matched[${i}][${j}]`;
        if (!known) fault(context, 'unknown-segment', where, `There is no segment “${id}”.`, { id });
        return known && group.indexOf(id) === j;
      }),
    )
    .filter((group) => group.length > 1);
}
