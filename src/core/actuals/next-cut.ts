import { type Length, minus, negate, pm } from '../lengths/length.ts';
import { writeReading } from '../lengths/write.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import { verdictOf } from './inspection.ts';
import { onReadout } from './rezero.ts';

/** One pass to the aim. `take` comes off the diameter (or is added to a bore), `to` is the diameter it leaves. */
export type Pass = { readonly take: Length; readonly to: Length; readonly reading: string };

export type NextCut = {
  /** Metal between what was measured and the aim, on the diameter; below zero is past the aim. */
  readonly left: Length;
  readonly passes: readonly Pass[];
  /** `cut`: go on; `polish`: less than a count of the readout is left; `stop`: within limits; `spoilt`: past the far limit. */
  readonly finding: 'cut' | 'polish' | 'stop' | 'spoilt';
  /** Past the far limit by this much; 0 but where spoilt. */
  readonly by: Length;
};

/**
 * How much to take next from what was measured: equal passes of at most the lathe's finishing cut to the aim, a spring
 * pass at the last setting, then measure. A journal has two at least while more than one count of the readout is left
 * for each, as the last cut is to be as deep as the one before it, so that both spring alike.
 *
 * Within limits and less than a count of the readout from the aim there is nothing to set: stop there. Out of limits by
 * less than a count: size by micrometer and polish.
 *
 * @param shift - What the readout is off by now (true = shown + shift), as it counts.
 */
export function nextCut(
  size: { measured: Length; aim: Length; min: Length; max: Length },
  shift: Length,
  lathe: ResolvedLathe,
  how: { inside?: boolean; journal?: boolean } = {},
): NextCut {
  const inside = how.inside ?? false;
  const { measured, aim, min, max } = size;
  const left = inside ? minus(aim, measured) : minus(measured, aim);
  const count = lathe.readout.resolution * (lathe.readout.x === 'radius' ? 2 : 1);
  const { verdict, by } = verdictOf(measured, min, max);
  const nothing = { left, passes: [], by: pm(0) };
  if (verdict === (inside ? 'over' : 'under')) return { ...nothing, finding: 'spoilt', by };
  if (left < count) return { ...nothing, finding: verdict === 'in' ? 'stop' : 'polish' };
  const least = how.journal && left >= 2 * count ? 2 : 1;
  const passes = Math.max(least, Math.ceil(left / lathe.cut.finish));
  return { left, passes: equal(measured, left, passes, { shift, lathe, inside }), finding: 'cut', by: pm(0) };
}

function equal(
  measured: Length,
  left: Length,
  passes: number,
  { shift, lathe, inside }: { shift: Length; lathe: ResolvedLathe; inside: boolean },
): Pass[] {
  let before = measured;
  return Array.from({ length: passes }, (_, k) => {
    const off = pm(Math.round((left * (k + 1)) / passes));
    const to = pm(measured + (inside ? off : negate(off)));
    const take = inside ? minus(to, before) : minus(before, to);
    before = to;
    const shown = pm(onReadout(to, lathe) - shift);
    const reading = writeReading(shown, lathe.unit, lathe.readout.resolution, inside ? 'down' : 'up');
    return { take, to, reading };
  });
}
