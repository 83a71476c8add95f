import type { Length } from '../lengths/length.ts';
import { pm } from '../lengths/length.ts';
import type { Actual } from '../part/types.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import type { Placed } from './step-name.ts';
import { findStep } from './step-name.ts';
import { type Resolved, resolveFaces } from './resolve-faces.ts';
import type { Places } from './types.ts';

export type FaceLog = {
  readonly resolved: Resolved;
  /** Faces that are cut, with their place; those in `measured` were measured, the others stand where they were aimed. */
  readonly standing: Places;
  readonly measured: ReadonlySet<string>;
  /** Where a face came out by each entry of the log, by the entry's number. */
  readonly placeBy: ReadonlyMap<number, CameOut>;
  readonly problems: readonly Problem[];
};

/** Where a face was to be cut, and where it was cut, in pm. */
export type CameOut = { readonly aimed: Length; readonly place: Length };

/**
 * What was measured and ticked, gone through in the order it was done: a measured face stands at its distance from the
 * other, a face whose last cut is ticked stands where it was to be cut by then, and after every measured face what is
 * still to be cut is placed anew.
 *
 * @param sizes - What each entry of the log measured, in pm, by the entry's number; ticks and what cannot be read are missing.
 */
export function followFaces(
  part: ResolvedPart,
  aims: Places,
  log: readonly Actual[],
  sizes: ReadonlyMap<number, Length>,
  plan: { steps: readonly Placed[]; makers: ReadonlyMap<string, readonly Placed[]> },
): FaceLog {
  const standing = new Map<string, Length>();
  const measured = new Set<string>();
  const placeBy = new Map<number, CameOut>();
  const problems: Problem[] = [];
  const last = new Map([...plan.makers].map(([station, makers]) => [station, makers.at(-1)] as const));
  let resolved: Resolved = { places: aims, lost: [], given: [], contradiction: false };
  const stand = (station: string, place: Length | undefined) => {
    if (place !== undefined) standing.set(station, place);
  };
  log.forEach((actual, at) => {
    if (actual.what === 'done') {
      const step = findStep(plan.steps, actual.step);
      for (const [station, maker] of last)
        if (step && maker === step && !standing.has(station)) stand(station, resolved.places.get(station));
      return;
    }
    const size = sizes.get(at);
    if (actual.what !== 'face' || size === undefined) return;
    const { of, from } = actual;
    const unknown = [of, from].find((station) => !aims.has(station));
    if (unknown !== undefined || of === from) {
      problems.push(noStation(at, unknown ?? of));
      return;
    }
    if (!standing.has(from)) stand(from, resolved.places.get(from));
    const ahead = (aims.get(of) ?? 0) >= (aims.get(from) ?? 0) ? 1 : -1;
    const place = pm((standing.get(from) ?? 0) + ahead * size);
    placeBy.set(at, { aimed: standing.get(of) ?? resolved.places.get(of) ?? place, place });
    stand(of, place);
    measured.add(of);
    resolved = resolveFaces(part, aims, standing);
  });
  return { resolved, standing, measured, placeBy, problems };
}

const noStation = (at: number, station: string): Problem => ({
  code: 'unknown-station',
  where: `actuals[${at}].of`,
  say: `What was measured at “${station}” has no place: it is measured from another face or point of the drawing.`,
});
