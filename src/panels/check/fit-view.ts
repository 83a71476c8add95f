import type { ResolvedPart } from '../../core/part/resolved.ts';
import { distributionOfSum, shareWithin, type SumDistribution } from '../../core/stacks/convolution.ts';
import { fallOf } from '../../core/stacks/requirements.ts';
import type { Range } from './stack-view.ts';

/** Clearance of a land in or on its mate, in pm; below nothing it is tight. */
export type Fit = {
  readonly segment: string;
  readonly mate: string;
  readonly range: Range;
  readonly sum: SumDistribution;
  /** Share of pairs with clearance. */
  readonly free: number;
};

/** Every fit, the shaft falling as the part says, its mate about the middle of its limits. */
export function fitsOf(part: ResolvedPart): Fit[] {
  return part.segments.flatMap((segment) => {
    if (segment.form !== 'cylinder' || !segment.mate || !segment.diameter) return [];
    const { mate, diameter } = segment;
    const about = (size: { min: number; max: number }) => ({
      middle: (size.min + size.max) / 2,
      half: (size.max - size.min) / 2,
    });
    const sum = distributionOfSum([
      { ...about(mate), sign: 1, kind: 'normal' },
      { ...about(diameter), sign: -1, kind: fallOf(part, segment.id) },
    ]);
    const range: Range = [mate.min - diameter.max, mate.max - diameter.min];
    const free = shareWithin(sum, 0, Math.max(0, range[1]));
    return [{ segment: segment.id, mate: mate.text, range, sum, free }];
  });
}
