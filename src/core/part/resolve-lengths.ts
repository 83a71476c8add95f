import { negate, ZERO, type Length } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import { fault, isStation, valueAt, type ResolveContext } from './resolve-context.ts';
import type { ResolvedLength, ResolvedRequirement } from './resolved.ts';
import { resolveSize } from './resolve-size.ts';
import type { Part, PartLength, Requirement } from './types.ts';

type Ends = { readonly from: string; readonly to: string };

/** Notes an id that names no face and no point. */
export function stationAt(context: ResolveContext, id: string, where: string): boolean {
  if (isStation(context, id)) return true;
  fault(context, 'unknown-station', where, `There is no face or point “${id}”.`, { id });
  return false;
}

/** Two faces may be named in either order; with a point among them `from` is the left end already. */
export function inDrawnOrder(faces: ReadonlyMap<string, number>, { from, to }: Ends): Ends {
  const [a, b] = [faces.get(from), faces.get(to)];
  return a !== undefined && b !== undefined && a > b ? { from: to, to: from } : { from, to };
}

function endsAt(context: ResolveContext, ends: Ends, where: string): Ends | null {
  const known = [
    stationAt(context, ends.from, `${where}.from`),
    stationAt(context, ends.to, `${where}.to`),
  ].every(Boolean);
  if (!known) return null;
  if (ends.from === ends.to) {
    fault(context, 'length-to-itself', `${where}.to`, `Both ends are at “${ends.to}”.`, { id: ends.to });
    return null;
  }
  return inDrawnOrder(context.faces, ends);
}

function resolveLength(context: ResolveContext, length: PartLength, index: number): ResolvedLength | null {
  const where = `lengths[${index}]`;
  const ends = endsAt(context, length, where);
  const size = resolveSize(context, length.size, `${where}.size`, 'length', { ...length, at: where });
  return ends && size && { id: length.id, index, ...ends, size };
}

/** All lengths that can be read and whose ends are known, references among them. */
export function resolveLengths(context: ResolveContext, part: Part): readonly ResolvedLength[] {
  return part.lengths.flatMap((length, i) => resolveLength(context, length, i) ?? []);
}

/**
 * A bound of a requirement. Unlike a size it may be 0, or negative where a point may lie to the other side of what
 * it is measured from. A tolerance says nothing there.
 */
function readBound(context: ResolveContext, text: string, where: string): Length | null {
  const [, minus = '', rest = ''] = /^\s*([-−–]?)\s*(.*)$/s.exec(text) ?? [];
  if (/^0*[.,]?0*$/.test(rest) && rest.includes('0')) return ZERO;
  const size = valueAt(context, readSize(rest, context.unit), where);
  if (size && (size.limits !== null || size.fit !== null)) {
    fault(context, 'bound-with-tolerance', where, `“${text}” is a bound itself; it takes no tolerance.`, {
      text,
    });
    return null;
  }
  if (!size) return null;
  return minus === '' ? size.nominal : negate(size.nominal);
}

function resolveRequirement(
  context: ResolveContext,
  requirement: Requirement,
  index: number,
): ResolvedRequirement | null {
  const where = `requirements[${index}]`;
  const ends = endsAt(context, requirement, where);
  const min = readBound(context, requirement.min, `${where}.min`);
  const max = readBound(context, requirement.max, `${where}.max`);
  if (min === null || max === null) return null;
  if (min > max) {
    const say = `The least, ${requirement.min}, is more than the most, ${requirement.max}.`;
    fault(context, 'limits-crossed', `${where}.min`, say, { min: requirement.min, max: requirement.max });
    return null;
  }
  return ends && { id: requirement.id, index, ...ends, min, max, why: requirement.why ?? '' };
}

/** All requirements that can be read, turned to drawn order; what is written is the distance either way round. */
export function resolveRequirements(context: ResolveContext, part: Part): readonly ResolvedRequirement[] {
  return part.requirements.flatMap((requirement, i) => resolveRequirement(context, requirement, i) ?? []);
}
