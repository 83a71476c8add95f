import type { SolvedChains } from '../chains/types.ts';
import { pm } from '../lengths/length.ts';
import { largestDiameter, solidOf } from '../outline/solid.ts';
import type { Outline } from '../outline/types.ts';
import { brokenWalls, idleChamfers } from '../outline/walls.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Pins } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import { type Bar, barsFor } from './bars.ts';
import { workOf, type Work } from './frame.ts';
import type { Bench } from './holding-draft.ts';
import { beyondTools } from './no-tool.ts';
import { orderOf } from './order.ts';
import { materialOf } from './speeds.ts';
import type { Plan } from './types.ts';
import type { Trial } from './trial.ts';
import { replay } from './virtual-lathe.ts';
import { type Candidate, compare, type Settled, weigh, whyBeaten } from './weigh.ts';
import { barWays } from './way-bar.ts';
import { centresWays } from './way-centres.ts';
import { stageWays } from './way-stages.ts';
import { splitWays } from './way-split.ts';
import { MOST_STEPS, noBar, notKept, noWay, outOfSwing, tooMany } from './no-plan.ts';
import { bindingPins, pinItems, wantsWay } from './pins.ts';
import { withStubs } from './stubs.ts';
import { endFace, isRefused, type Refused, type Way } from './way.ts';

export type Planned = {
  readonly plan: Plan | null;
  /** The part as that plan leaves it (a land that keeps the bar's skin has the bar's size); null without a plan. */
  readonly outline: Outline | null;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
};

/**
 * The best way to hold and cut a closed part on a lathe, proved by replaying it on the virtual lathe; every other way
 * that was thought through is named with the reason it was not taken. A way that fails its own replay is never given.
 *
 * @returns `plan` null with the reasons in `errors` where no way is found.
 */
export function planPart(whole: ResolvedPart, chains: SolvedChains, lathe: ResolvedLathe): Planned {
  const { pins, voids } = bindingPins(whole, lathe);
  const planned = planAsSettled({ ...whole, pins }, chains, lathe);
  if (planned.plan) return { ...planned, warnings: [...voids, ...planned.warnings] };
  const inTheWay = pinItems(pins).filter(
    ({ rest }) => planAsSettled({ ...whole, pins: rest }, chains, lathe).plan !== null,
  );
  return { ...planned, errors: [...planned.errors, ...inTheWay.map(notKept)], warnings: voids };
}

function planAsSettled(part: ResolvedPart, chains: SolvedChains, whole: ResolvedLathe): Planned {
  if (part.segments.length > MOST_STEPS) return tooMany(part.segments.length);
  const lathe = withPinnedBlade(whole, part.pins.blade);
  const bare = solidOf(part, chains, lathe, null);
  if (!bare.ok) return { plan: null, outline: null, errors: [bare.problem], warnings: [] };
  const rough = withStubs(bare.value, part.stubs, lathe, null);
  const walls = [...brokenWalls(rough), ...idleChamfers(rough)];
  const beyond = walls.length ? walls : beyondTools(rough, lathe);
  if (beyond.length) return { plan: null, outline: null, errors: beyond, warnings: [] };
  const largest = largestDiameter(rough);
  const bars = barsFor(part, lathe, largest);
  if (!bars.length) return noBar(largest, lathe, part.pins.bar);
  const thinnest = pm(Math.min(...bars.map((b) => b.diameter)));
  if (thinnest > lathe.swing) return outOfSwing(thinnest, lathe);
  const candidates: Candidate[] = [];
  const refused: Settled<Refused>[] = [];
  for (const bar of bars) {
    const solid = solidOf(part, chains, lathe, bar.diameter);
    if (!solid.ok) continue;
    const outline = withStubs(solid.value, part.stubs, lathe, bar.diameter);
    for (const way of waysWith(part, outline, lathe, bar)) {
      const weighed = isRefused(way) ? way : weigh(part, outline, lathe, way);
      if ('why' in weighed) refused.push(weighed);
      else candidates.push(weighed);
    }
  }
  const sound = soundOf(candidates, lathe, refused);
  const [best, ...beaten] = sound;
  if (!best) return noWay(refused, part);
  const left = [
    ...beaten.map((c, i) => ({ ...c, why: whyBeaten(best.cost, c.cost, i === 0), runner_up: i === 0 })),
    ...refused.map((r) => ({ ...r, why: `${r.why}.`, runner_up: false })),
  ];
  const rejected = left.map(({ name, why, pins, runner_up }) => ({
    way: name,
    why,
    pins: bars.length === 1 ? withoutBar(pins) : pins,
    runner_up,
  }));
  return {
    plan: { ...best.plan, rejected, order: orderOf(best.plan, best.outline, lathe) },
    outline: best.outline,
    errors: [],
    warnings: best.warnings(),
  };
}

/** The candidates that their own replay finds sound, the best first; what it finds wrong with the others refuses them. */
function soundOf(
  candidates: readonly Candidate[],
  lathe: ResolvedLathe,
  refused: Settled<Refused>[],
): Candidate[] {
  return [...candidates]
    .sort((a, b) => compare(a.cost, b.cost))
    .filter(({ plan, outline, name, pins }) => {
      const flaw = replay(plan, outline, lathe)[0];
      if (!flaw) return true;
      const why = `its own replay stops at ${flaw.where}: ${flaw.say}`.replace(/\.$/, '');
      refused.push({ name, why, pins });
      return false;
    });
}

/**
 * What asks for a way where there is but one bar to make it of. Where there are two the bar is asked for as well: with an end
 * settled that was not tried on it, the other one may come out first.
 */
const withoutBar = ({ way, first, seat }: Pins): Pins => ({
  ...(way === undefined ? {} : { way }),
  ...(first === undefined ? {} : { first }),
  ...(seat === undefined ? {} : { seat }),
});

function waysWith(
  part: ResolvedPart,
  outline: Outline,
  lathe: ResolvedLathe,
  bar: Bar,
): Settled<Way | Refused>[] {
  const points = [...new Set(part.crossings.flatMap((c) => (c.form === 'hole' ? [c.at] : [c.at, c.to])))];
  const { pins } = part;
  const material = materialOf(part.material);
  const { indexLine } = part;
  const common = { lathe, outline, material, bar: bar.diameter, points, pins, indexLine };
  return (['right', 'left'] as const).flatMap((headstock) => {
    const work = workOf(outline, headstock);
    const turned = workOf(outline, headstock === 'right' ? 'left' : 'right');
    const end = endFace(work);
    if (pins.first !== undefined && pins.first !== end) return [];
    const bench: Bench = { ...common, trials: trialsOf(part, work) };
    const input = { bench, work, turned, bar };
    const names = {
      bar: `out of the ${bar.text} bar, end ${end} at the tailstock first`,
      stages: `out of the ${bar.text} bar in stages, end ${end} first`,
      'both-ends': `from both ends of the ${bar.text} bar, end ${end} first`,
      centres: `${bar.text} blank between centres, end ${end} at the tailstock`,
    };
    return WAYS.flatMap(([way, thinkThrough]) =>
      wantsWay(pins, way)
        ? thinkThrough({ ...input, name: names[way] }).map((found) => ({
            ...found,
            pins: { way, first: end, bar: bar.text, ...(found.seat ? { seat: found.seat } : {}) },
          }))
        : [],
    );
  });
}

/** The fits to be proved in waste, each with whether its mate goes on the land itself from the tailstock end. */
const trialsOf = (part: ResolvedPart, work: Work): Trial[] =>
  work.lands.flatMap(({ id, blank, segment: { min, max, form } }, i) =>
    part.trials.includes(id) && form === 'cylinder'
      ? [{ segment: id, d: blank, min, max, goesOn: work.lands.slice(0, i).every((l) => l.blank <= blank) }]
      : [],
  );

const WAYS = [
  ['bar', barWays],
  ['stages', stageWays],
  ['both-ends', splitWays],
  ['centres', centresWays],
] as const;

/** The lathe with no blade but the pinned one, where one is pinned and there. */
function withPinnedBlade(lathe: ResolvedLathe, blade: string | undefined): ResolvedLathe {
  if (!lathe.tools.some((t) => t.kind === 'blade' && t.id === blade)) return lathe;
  return { ...lathe, tools: lathe.tools.filter((t) => t.kind !== 'blade' || t.id === blade) };
}
