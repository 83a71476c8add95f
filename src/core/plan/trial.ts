import { thickest } from './billet.ts';
import type { Bench, HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { turnTool } from './tool-choice.ts';
import { fineSize, list, size } from './words.ts';

/** A fit that is to be proved in waste: the land it is for, and its aim and limits in pm. */
export type Trial = {
  readonly segment: string;
  readonly d: number;
  readonly min: number;
  readonly max: number;
  /** The mate can go on the finished land itself, once the centre is away: nothing thicker stands outboard of it. */
  readonly goesOn: boolean;
};

/** Waste wanted in front of the part for trial lands: 10 mm or 3/8 in long (common practice, no source); 0 for none. */
export const trialWaste = (bench: Bench): number =>
  bench.trials.length === 0 ? 0 : bench.lathe.unit === 'mm' ? 10_000_000_000 : 9_525_000_000;

/**
 * Turns the waste at the free end to the size of each fit that is to be proved, the largest first, the mate tried on
 * each, and faces it off again. Nothing stands outboard of it and no centre is up, so that the mate can be tried
 * there, whatever stands in front of the land itself.
 *
 * @param end - Where the waste that was left for it ends (u).
 */
export function proveTrials(draft: HoldingDraft, end: number): string | null {
  const { trials, lathe, material, bar } = draft.bench;
  if (!trials.length) return null;
  const right = turnTool(lathe, 'right');
  if (!right) return 'the lathe file has no right-hand turning tool for the trial land';
  const u0 = draft.pieces[0]?.u0 ?? end;
  for (const trial of [...trials].sort((a, b) => b.d - a.d)) {
    if (trial.d > bar) return `the bar leaves no room for a trial land of ${trial.segment}`;
    turnTrial(draft, trial, u0, end);
  }
  const readings = [draft.z(end, null)];
  draft.add({
    kind: 'face',
    u0,
    u1: end,
    d0: 0,
    makes: 'trial',
    tool: right,
    passes: Math.max(1, Math.ceil((end - u0) / lathe.cut.rough)),
    surface: material.speed.rough.low,
    feed: lathe.feeds[0] ?? null,
    readings,
    say: `The trial land has served: saw it off close to the line and face to ${list(readings)}.`,
  });
  return null;
}

function turnTrial(draft: HoldingDraft, trial: Trial, u0: number, u1: number): void {
  const { lathe, material } = draft.bench;
  const right = turnTool(lathe, 'right');
  if (!right) return;
  touch({ draft }, right);
  const rough = trial.d + lathe.cut.allowance;
  const standing = thickest(draft.pieces, u0, u1);
  const common = { u0, u1, makes: 'trial', tool: right };
  if (standing > rough) {
    const passes = Math.ceil((standing - rough) / lathe.cut.rough);
    const readings = [draft.x(rough), draft.z(u1, null)];
    const say = `Rough a trial land in the waste for ${trial.segment}: ${list(readings)} in ${passes} ${passes === 1 ? 'cut' : 'cuts'}.`;
    const feed = lathe.feeds.at(-1) ?? null;
    const surface = material.speed.rough.low;
    draft.add({ ...common, kind: 'rough', d0: rough, passes, surface, feed, readings, say });
  }
  const from = thickest(draft.pieces, u0, u1);
  const passes = Math.max(2, Math.ceil((from - trial.d) / lathe.cut.finish));
  const readings = [draft.x(trial.d), draft.z(u1, null)];
  draft.add({
    ...common,
    kind: 'finish',
    d0: trial.d,
    passes,
    surface: material.speed.finish.low,
    across: trial.d,
    feed: lathe.feeds[0] ?? null,
    readings,
    say: `Finish the trial land to ${list(readings)} in ${passes} equal cuts as ${trial.segment} will be, a spring pass after the last.`,
  });
  const u = Math.round((u0 + u1) / 2);
  draft.add({
    kind: 'prove',
    u0: u,
    u1: u,
    d0: trial.d,
    segment: trial.segment,
    makes: 'trial',
    say: proving(trial, draft),
  });
}

function proving(trial: Trial, { bench: { lathe } }: HoldingDraft): string {
  const limits = `${fineSize(trial.min, lathe)} to ${fineSize(trial.max, lathe)}`;
  const later = trial.goesOn
    ? `Once the centre is away it goes on ${trial.segment} itself as well.`
    : `It cannot be tried on ${trial.segment} itself, where something thicker stands outboard: there the size is only measured.`;
  return `Stop, let it cool, measure and try the mate on the trial land: nothing stands in front of it and no centre is up. Take off ${size(lathe.readout.resolution, lathe)} at a time until it fits, within ${limits}; what it measures then is the aim for ${trial.segment}. ${later}`;
}
