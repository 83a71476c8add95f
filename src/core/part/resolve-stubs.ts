import { middle, pm } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import { fault, valueAt, warn, type ResolveContext } from './resolve-context.ts';
import { resolveSize } from './resolve-size.ts';
import type { ResolvedStub } from './resolved.ts';
import type { Part, SizeText, Stub } from './types.ts';

/** Limits of a stub that names none, ± in pm: nothing runs on it (common practice, no source). */
const ROUGH = 100_000_000;

/**
 * The stubs that are to stay standing beyond the ends, at most one at each.
 *
 * Errors: sizes that cannot be read, `stub-twice` (two at one end), `stub-over-hole` (a hole of the drawing begins
 * under it). An end that is not there is the warning `stub-void`: it is planned without.
 */
export function resolveStubs(context: ResolveContext, part: Part): ResolvedStub[] {
  const stubs = (part.stubs ?? []).flatMap(
    (stub, i) => resolveStub(context, part, stub, `stubs[${i}]`) ?? [],
  );
  return stubs.filter((stub, i) => {
    const first = stubs.findIndex(({ end }) => end === stub.end);
    if (first !== i)
      fault(context, 'stub-twice', `stubs[${i}]`, `Two stubs are to stay at end ${stub.face}: only one can.`);
    return first === i;
  });
}

function resolveStub(context: ResolveContext, part: Part, stub: Stub, where: string): ResolvedStub | null {
  const [first, last] = [part.faces[0]?.id, part.faces.at(-1)?.id];
  const end = stub.end === first ? 'first' : stub.end === last ? 'last' : null;
  if (end === null || first === last) {
    const say = `A stub is to stay at ${stub.end}, which is no end of the part: it is planned without.`;
    warn(context, 'stub-void', `${where}.end`, say);
    return null;
  }
  const length = plainLength(context, stub.length, `${where}.length`);
  const diameter = stub.diameter === undefined ? null : bounds(context, stub.diameter, `${where}.diameter`);
  const hole = part.holes.find(({ from }) => from === stub.end);
  if (hole)
    fault(
      context,
      'stub-over-hole',
      where,
      `A stub is to stay at end ${stub.end}, where ${hole.id} begins: nothing gets at the hole.`,
      { hole: hole.id },
    );
  if (length === null || diameter === undefined || hole) return null;
  return { end, face: stub.end, length, diameter, centre: stub.centre === true };
}

function plainLength(context: ResolveContext, text: string, where: string): ResolvedStub['length'] | null {
  const size = valueAt(context, readSize(text, context.unit), where);
  if (!size) return null;
  if (size.limits !== null || size.fit !== null) {
    fault(context, 'plain-size-wanted', where, `“${text}” is how long a stub is: it takes no tolerance.`);
    return null;
  }
  if (size.nominal > 0) return size.nominal;
  fault(context, 'size-zero', where, `“${text}” is nothing; a size is larger than 0.`, { text });
  return null;
}

/** Limits as they are written with the size; without any a stub is turned to within a tenth. Undefined: unreadable. */
function bounds(
  context: ResolveContext,
  size: SizeText,
  where: string,
): ResolvedStub['diameter'] | undefined {
  // A general rule for the sizes of the drawing says nothing about waste.
  const none = { rule: 'none' } as const;
  const own: ResolveContext = { ...context, rules: { lengths: none, diameters: none }, warnings: [] };
  const read = resolveSize(own, size, where, 'shaft');
  context.warnings.push(...own.warnings.filter(({ code }) => code !== 'no-limits'));
  if (!read) return undefined;
  if (read.limitsFrom !== 'none') return { aim: middle(read.min, read.max), min: read.min, max: read.max };
  const { nominal } = read;
  return { aim: nominal, min: pm(nominal - Math.min(ROUGH, nominal / 2)), max: pm(nominal + ROUGH) };
}
