import type { ResolvedPart } from '../part/resolved.ts';
import type { CutKind } from '../plan/types.ts';
import type { DiameterRow } from '../report-types.ts';
import type { Placed } from './step-name.ts';

const MAKING: ReadonlySet<CutKind> = new Set<CutKind>(['face', 'finish', 'groove', 'fillet', 'taper']);
/** Where two lands of one height meet, the face is where the last of these begins. */
const LEVEL: readonly CutKind[] = ['taper', 'thread', 'finish', 'groove'];

/** The largest diameter of each segment, in mm: what stands beside a shoulder. */
export function heights(diameters: readonly DiameterRow[]): ReadonlyMap<string, number> {
  const highest = new Map<string, number>();
  for (const { segment, aim_mm } of diameters)
    highest.set(segment, Math.max(highest.get(segment) ?? 0, aim_mm ?? 0));
  return highest;
}

/**
 * The steps that make each face, in order: those that work the lower of its two sides up to it, or face an end.
 * A face is cut when the last of them is; a face that no step makes (bar skin) is missing.
 */
export function faceMakers(
  part: ResolvedPart,
  diameters: readonly DiameterRow[],
  steps: readonly Placed[],
): ReadonlyMap<string, readonly Placed[]> {
  const height = heights(diameters);
  const found = new Map<string, readonly Placed[]>();
  part.faces.forEach((station, i) => {
    const left = part.segments[i - 1]?.id;
    const right = part.segments[i]?.id;
    const step = (height.get(left ?? '') ?? 0) - (height.get(right ?? '') ?? 0);
    const lower =
      left === undefined || right === undefined ? null : step > 0 ? right : step < 0 ? left : null;
    const naming = steps.filter(
      ({ cut }) => MAKING.has(cut.kind) && cut.readings.some((r) => r.axis === 'Z' && r.station === station),
    );
    const making = naming.filter(
      ({ cut }) => cut.kind === 'face' || (lower !== null && cut.segment === lower),
    );
    const makers = making.length > 0 ? making : levelMakers(steps, left, right);
    if (makers.length > 0) found.set(station, makers);
  });
  for (const point of part.points) {
    const crossings = part.crossings.filter((c) => c.at === point || ('to' in c && c.to === point));
    const makers = steps.filter(
      ({ cut }) => cut.kind === 'cross' && crossings.some((c) => c.id === cut.makes),
    );
    if (makers.length > 0) found.set(point, makers);
  }
  return found;
}

function levelMakers(
  steps: readonly Placed[],
  left: string | undefined,
  right: string | undefined,
): readonly Placed[] {
  if (left === undefined || right === undefined) return [];
  for (const kind of LEVEL) {
    const made = steps.filter(
      ({ cut }) => cut.kind === kind && (cut.segment === left || cut.segment === right),
    );
    if (made.length > 0) return made;
  }
  return [];
}
