import { type Length, minus, plus, pm, ZERO } from '../lengths/length.ts';
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
  /** Whether the distance of two stations is known by what was measured, directly or from face to face. */
  readonly known: (a: string, b: string) => boolean;
  /** How a face came out by each entry of the log, by the entry's number. */
  readonly cameOut: ReadonlyMap<number, CameOut>;
  readonly problems: readonly Problem[];
};

/** How far a face was to be cut from the one it is measured from, and how far it came out, in pm; signed to the right. `before`: the places gone by until then. */
export type CameOut = { readonly aimed: Length; readonly apart: Length; readonly before: Places };

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
  const tied = new TiedFaces();
  const measured = new Set<string>();
  const cameOut = new Map<number, CameOut>();
  const problems: Problem[] = [];
  const last = new Map([...plan.makers].map(([station, makers]) => [station, makers.at(-1)] as const));
  let resolved: Resolved = { places: aims, lost: [], given: [], contradiction: false };
  const aimed = (station: string): Length => tied.places.get(station) ?? resolved.places.get(station) ?? ZERO;
  log.forEach((actual, at) => {
    if (actual.what === 'done') {
      const step = findStep(plan.steps, actual.step);
      for (const [station, maker] of last) if (step && maker === step) tied.stand(station, aimed(station));
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
    const was = minus(aimed(of), aimed(from));
    tied.stand(from, aimed(from));
    tied.stand(of, aimed(of));
    const ahead = (aims.get(of) ?? 0) >= (aims.get(from) ?? 0) ? 1 : -1;
    tied.tie(of, from, pm(ahead * size));
    measured.add(of);
    cameOut.set(at, { aimed: was, apart: pm(ahead * size), before: resolved.places });
    resolved = resolveFaces(part, aims, tied.places);
  });
  return { resolved, standing: tied.places, measured, known: tied.known, cameOut, problems };
}

/**
 * Faces that stand, in groups whose distances were measured. Between groups it is only assumed that they stand as they
 * were aimed; a distance measured from one to another moves the smaller of them as a whole. Within a group a face that
 * is measured again was cut again: it alone moves.
 */
class TiedFaces {
  readonly places = new Map<string, Length>();
  readonly #group = new Map<string, Set<string>>();

  readonly known = (a: string, b: string): boolean => this.#group.get(a)?.has(b) ?? false;

  stand(station: string, place: Length): void {
    if (this.places.has(station)) return;
    this.places.set(station, place);
    this.#group.set(station, new Set([station]));
  }

  /** `of` stands `apart` from `from`, to the drawn right where positive. */
  tie(of: string, from: string, apart: Length): void {
    const [own, other] = [this.#group.get(of), this.#group.get(from)];
    if (!own || !other) return;
    const place = (station: string) => this.places.get(station) ?? ZERO;
    const move = pm(place(from) + apart - place(of));
    if (own === other) return this.#move([of], move);
    if (own.size <= other.size) this.#move(own, move);
    else this.#move(other, pm(-move));
    const all = new Set([...own, ...other]);
    for (const station of all) this.#group.set(station, all);
  }

  #move(stations: Iterable<string>, by: Length): void {
    for (const station of stations) this.places.set(station, plus(this.places.get(station) ?? ZERO, by));
  }
}

const noStation = (at: number, station: string): Problem => ({
  code: 'unknown-station',
  where: `actuals[${at}].of`,
  say: `What was measured at “${station}” has no place: it is measured from another face or point of the drawing.`,
});
