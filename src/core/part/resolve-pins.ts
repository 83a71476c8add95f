import { readSize } from '../lengths/read-size.ts';
import { fault, valueAt, type ResolveContext } from './resolve-context.ts';
import type { ResolvedPins } from './resolved.ts';
import type { Part } from './types.ts';

/** What was settled about the plan, with the places of grips read; they are lengths without limits. */
export function resolvePins(context: ResolveContext, part: Part): ResolvedPins {
  const { grips, ...pins } = part.pins ?? {};
  if (!grips) return pins;
  const read = grips.flatMap(({ holding, out }, i) => {
    const where = `pins.grips[${i}].out`;
    const size = valueAt(context, readSize(out, context.unit), where);
    if (!size) return [];
    if (size.limits !== null || size.fit !== null) {
      fault(context, 'plain-size-wanted', where, `“${out}” says where a grip begins: it takes no tolerance.`);
      return [];
    }
    return [{ holding, out: size.nominal }];
  });
  return { ...pins, grips: read };
}
