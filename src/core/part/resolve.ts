import { nearest, PM_PER } from '../lengths/length.ts';
import { isMaterial } from '../standards/material-keys.ts';
import { contextFor, warn, type ResolveContext } from './resolve-context.ts';
import { resolveCrossings } from './resolve-crossings.ts';
import { resolveEdges } from './resolve-edges.ts';
import { resolveHoles } from './resolve-holes.ts';
import { resolveLengths, resolveRequirements } from './resolve-lengths.ts';
import { resolvePins } from './resolve-pins.ts';
import { resolveMatched, resolveSegments } from './resolve-segments.ts';
import { resolveStubs } from './resolve-stubs.ts';
import type { ResolvedPart } from './resolved.ts';
import type { Part } from './types.ts';

function checkMaterial(context: ResolveContext, key: string): void {
  if (isMaterial(key)) return;
  const say =
    key === ''
      ? 'No material is named, so speeds and forces are for plain steel.'
      : `The material “${key}” is not in the table, so speeds and forces are for plain steel.`;
  warn(context, 'unknown-material', 'material', say, { material: key });
}

function namesOf(part: Part): ReadonlyMap<string, string> {
  const named = [...part.faces, ...part.points, ...part.segments];
  return new Map(named.flatMap(({ id, name }) => (name ? [[id, name] as const] : [])));
}

/**
 * The part with every text read: sizes in pm with their limits, threads, bearings and centre drills from the tables,
 * lengths and requirements turned to drawn order.
 *
 * Limits come, in this order, from what is written in the size, the tolerance beside it, a class of fit (ISO 286),
 * the general rule, else the size is exact, with the warning `no-limits`.
 *
 * Whatever is wrong stands in `errors` with its place in the file (`lengths[3].size`), and the rest resolves all the
 * same. An unknown material is the warning `unknown-material`. Never throws for a part that `readPart` let in.
 */
export function resolvePart(part: Part): ResolvedPart {
  const context = contextFor(part);
  checkMaterial(context, part.material ?? '');
  const stations = [...part.faces, ...part.points];
  return {
    unit: part.unit,
    title: part.title,
    material: part.material ?? '',
    faces: part.faces.map(({ id }) => id),
    points: part.points.map(({ id }) => id),
    sketched: new Map(stations.map(({ id, sketched }) => [id, nearest(sketched * PM_PER[part.unit])])),
    names: namesOf(part),
    segments: resolveSegments(context, part),
    lengths: resolveLengths(context, part),
    edges: resolveEdges(context, part),
    holes: resolveHoles(context, part),
    crossings: resolveCrossings(context, part),
    requirements: resolveRequirements(context, part),
    matched: resolveMatched(context, part),
    trials: part.segments.filter((s) => s.mate?.trial === true).map(({ id }) => id),
    indexLine: part.segments.find((s) => s.index_line === true)?.id ?? null,
    stubs: resolveStubs(context, part),
    pins: resolvePins(context, part),
    falls: new Map(
      [...part.lengths, ...part.segments].flatMap(({ id, falls }) => (falls ? [[id, falls]] : [])),
    ),
    errors: context.errors,
    warnings: context.warnings,
  };
}
