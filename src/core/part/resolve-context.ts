import type { Unit } from '../lengths/length.ts';
import type { Outcome, Problem } from '../problem.ts';
import { readRule, type ReadRule } from './general-rules.ts';
import type { Part } from './types.ts';

/** What every step of resolving needs to know of the part, and where it puts what it finds. */
export type ResolveContext = {
  readonly unit: Unit;
  readonly rules: { readonly lengths: ReadRule; readonly diameters: ReadRule };
  /** Place of each face in drawn order. */
  readonly faces: ReadonlyMap<string, number>;
  readonly points: ReadonlySet<string>;
  readonly segments: ReadonlySet<string>;
  readonly errors: Problem[];
  readonly warnings: Problem[];
};

/** A context with nothing found yet, but for problems of the general rules. */
export function contextFor(part: Part): ResolveContext {
  const errors: Problem[] = [];
  const { unit, general } = part;
  return {
    unit,
    rules: {
      lengths: readRule(general?.lengths, unit, 'general.lengths', errors),
      diameters: readRule(general?.diameters, unit, 'general.diameters', errors),
    },
    faces: new Map(part.faces.map((face, i) => [face.id, i])),
    points: new Set(part.points.map((point) => point.id)),
    segments: new Set(part.segments.map((segment) => segment.id)),
    errors,
    warnings: [],
  };
}

export const isStation = (context: ResolveContext, id: string): boolean =>
  context.faces.has(id) || context.points.has(id);

/** The value of an outcome; where it is a problem, that is noted at `where` and null comes back. */
export function valueAt<T>(context: ResolveContext, outcome: Outcome<T>, where: string): T | null {
  if (outcome.ok) return outcome.value;
  context.errors.push({ ...outcome.problem, where });
  return null;
}

/** Notes an error. */
export function fault(
  context: ResolveContext,
  code: string,
  where: string,
  say: string,
  facts: NonNullable<Problem['facts']> = {},
): void {
  context.errors.push({ code, where, say, facts });
}

/** Notes a warning. */
export function warn(
  context: ResolveContext,
  code: string,
  where: string,
  say: string,
  facts: NonNullable<Problem['facts']> = {},
): void {
  context.warnings.push({ code, where, say, facts });
}
