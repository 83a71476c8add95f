import { stackTerms } from '../chains/stack-terms.ts';
import type { ResolvedPart, ResolvedSegment } from '../part/resolved.ts';
import { keptExperiment, keptMaker } from './kept-pieces.ts';
import type { PieceMaker } from './pieces.ts';
import { fallOf } from './requirements.ts';
import { sampler } from './sampler.ts';

type Taper = Extract<ResolvedSegment, { form: 'taper' }>;

/** A taper with one diameter and an angle, whose other diameter follows from the length. */
export type Following = {
  /** The end that is given; the other one follows. */
  readonly given: 'start' | 'end';
  readonly min: number;
  readonly max: number;
  /** What a picometre of length adds to the other diameter: negative where the given one is the large one. */
  readonly slope: number;
};

/** How the other diameter of a taper follows; null where both or none are given, or no angle. */
export function followingOf({ start, end, angle, large }: Taper): Following | null {
  const [first, last] = [start?.reference ? null : start, end?.reference ? null : end];
  const size = first ?? last;
  if (!angle || !size || (first && last)) return null;
  const given = first ? 'start' : 'end';
  const steep = angle.ratio ? angle.ratio.num / angle.ratio.den : 2 * angle.tan;
  return { given, min: size.min, max: size.max, slope: (large ?? given) === given ? -steep : steep };
}

/**
 * Root-sum-square of the following diameter in pm, by the derivatives `∂d/∂D = 1` and `∂d/∂L = ±2 tan α`, half-widths as three sigma. Null
 * where several ways lead along the taper, or none.
 */
export function followingRss(part: ResolvedPart, taper: Taper): { middle: number; half: number } | null {
  const following = followingOf(taper);
  const stack = following && stackTerms(part, taper.left, taper.right);
  if (!following || !stack?.unique) return null;
  const { min, max, slope } = following;
  const length = stack.terms.reduce((sum, { sign, middle }) => sum + sign * middle, 0);
  const squares = stack.terms.reduce((sum, { half }) => sum + (slope * half) ** 2, ((max - min) / 2) ** 2);
  return { middle: (min + max) / 2 + slope * length, half: Math.sqrt(squares) };
}

/** Makes one taper: its following diameter, or null where a doubled length comes out of limits. Null where none follows. */
export function followingMaker(part: ResolvedPart, taper: Taper): PieceMaker | null {
  const following = followingOf(taper);
  const experiment = following && keptExperiment(part, taper.left, taper.right);
  if (!experiment) return null;
  const { min, max, slope } = following;
  const lengthOn = keptMaker(part, experiment);
  const draw = sampler(fallOf(part, taper.id));
  return (bits) => {
    const length = lengthOn(bits);
    return length === null ? null : (min + max) / 2 + ((max - min) / 2) * draw(bits()) + slope * length;
  };
}

/**
 * Makes one set of matched diameters: the first falls as the part says, each other one is aimed at its measured size and comes out within
 * `hold` of that. Gives the largest difference among them; null where one comes out of its own limits. Null where the group holds
 * fewer than two cylinders with a size.
 */
export function matchedMaker(part: ResolvedPart, group: readonly string[], hold: number): PieceMaker | null {
  const lands = group.flatMap((id) => {
    const segment = part.segments.find((one) => one.id === id);
    return segment?.form === 'cylinder' && segment.diameter ? [{ id, size: segment.diameter }] : [];
  });
  const [first, ...others] = lands;
  if (!first || others.length === 0) return null;
  const draw = sampler(fallOf(part, first.id));
  const near = sampler('normal');
  return (bits) => {
    const { min, max } = first.size;
    const measured = (min + max) / 2 + ((max - min) / 2) * draw(bits());
    let [least, greatest] = [measured, measured];
    for (const { size } of others) {
      const made = measured + hold * near(bits());
      if (made < size.min || made > size.max) return null;
      least = Math.min(least, made);
      greatest = Math.max(greatest, made);
    }
    return greatest - least;
  };
}
