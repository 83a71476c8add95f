import type { SolvedChains } from '../chains/types.ts';
import { pm } from '../lengths/length.ts';
import { largestDiameter, solidOf } from '../outline/solid.ts';
import type { Outline } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Pins } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import { type Bar, barsFor } from './bars.ts';
import { chart } from './chart.ts';
import { measuredFaces, sayMeasured } from './measured.ts';
import { workOf, type Work } from './frame.ts';
import type { Bench } from './holding-draft.ts';
import { beyondTools } from './no-tool.ts';
import { offLathe } from './off-lathe.ts';
import { orderOf } from './order.ts';
import { stiffnessRows } from './rigidity.ts';
import { scribeLines } from './scribe.ts';
import { materialOf } from './speeds.ts';
import type { Holding, Plan } from './types.ts';
import type { Trial } from './trial.ts';
import { replay } from './virtual-lathe.ts';
import { matchedApart, planWarnings } from './warnings.ts';
import { barWays } from './way-bar.ts';
import { centresWays } from './way-centres.ts';
import { stageWays } from './way-stages.ts';
import { splitWays } from './way-split.ts';
import { MOST_STEPS, noBar, notKept, noWay, outOfSwing, tooMany } from './no-plan.ts';
import { bindingPins, againstPins, pinItems, wantsWay } from './pins.ts';
import { stubWarnings, withStubs } from './stubs.ts';
import { endFace, isRefused, type Refused, type Way } from './way.ts';

export type Planned = {
  readonly plan: Plan | null;
  /** The part as that plan leaves it (a land that keeps the bar's skin has the bar's size); null without a plan. */
  readonly outline: Outline | null;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
};

type Candidate = {
  name: string;
  plan: Plan;
  outline: Outline;
  warnings: () => Problem[];
  cost: number[];
  pins: Pins;
};
type Settled<T> = T & { readonly pins: Pins };

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
  const beyond = beyondTools(rough, lathe);
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
      if (isRefused(way)) refused.push(way);
      else weigh(part, outline, lathe, way, candidates, refused);
    }
  }
  candidates.sort((a, b) => compare(a.cost, b.cost));
  const best = nextSound(candidates, lathe, refused);
  if (!best) return noWay(refused, part);
  const second = nextSound(candidates, lathe, refused);
  const left = [
    ...(second ? [{ ...second, why: whyBeaten(best.cost, second.cost, true), can: true }] : []),
    ...candidates.map((c) => ({ ...c, why: whyBeaten(best.cost, c.cost, false), can: false })),
    ...refused.map((r) => ({ ...r, why: `${r.why}.`, can: false })),
  ];
  const rejected = left.map(({ name, why, pins, can }, i) => ({
    way: name,
    why,
    pins: pins.bar === best.pins.bar ? withoutBar(pins) : pins,
    runner_up: can && i === 0,
  }));
  return {
    plan: { ...best.plan, rejected, order: orderOf(best.plan, best.outline, lathe) },
    outline: best.outline,
    errors: [],
    warnings: best.warnings(),
  };
}

/**
 * The first of the candidates that its own replay finds sound, taken off the list; what it refuses is refused. Only
 * what is taken or comes second is played through: what is beaten by both need not be.
 */
function nextSound(
  candidates: Candidate[],
  lathe: ResolvedLathe,
  refused: Settled<Refused>[],
): Candidate | undefined {
  for (let next = candidates.shift(); next; next = candidates.shift()) {
    const flaw = replay(next.plan, next.outline, lathe)[0];
    if (!flaw) return next;
    const why = `its own replay stops at ${flaw.where}: ${flaw.say}`.replace(/\.$/, '');
    refused.push({ name: next.name, why, pins: next.pins });
  }
  return undefined;
}

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

/** Numbers the cuts, adds marks, chart, stiffness and what is cut elsewhere, and costs it. */
function weigh(
  part: ResolvedPart,
  outline: Outline,
  lathe: ResolvedLathe,
  way: Settled<Way>,
  candidates: Candidate[],
  refused: Settled<Refused>[],
): void {
  const measured = measuredFaces(part, way.drafts);
  const against = typeof measured === 'string' ? measured : againstPins(part.pins, way.drafts);
  if (against !== null || typeof measured === 'string') {
    refused.push({ name: way.name, why: against ?? '', pins: way.pins });
    return;
  }
  sayMeasured(measured);
  const cuts = way.drafts.flatMap((d) => d.cuts);
  const after = offLathe(outline, part, lathe);
  [...cuts, ...after].forEach((cut, i) => (cut.n = i + 1));
  const holdings = way.drafts.map((d): Holding => ({ ...d.finished(), marks: scribeLines(d) }));
  const charted = chart(part, way.drafts, measured);
  const stiffness = stiffnessRows(way.drafts);
  const plan: Plan = {
    stock: way.stock,
    holdings,
    off_lathe: after,
    chart: charted.rows,
    stock_removal: charted.stock,
    stiffness,
    way: { name: way.name, pins: way.pins, split: way.split ?? null },
    rejected: [],
  };
  const apart = matchedApart(outline, plan).length;
  const cost = [
    charted.rows.filter((r) => !r.ok).length,
    stiffness.filter((r) => !r.ok).length,
    apart + journalsApart(part, plan),
    way.shimmed ? 1 : 0,
    way.unsupported ? 1 : 0,
    way.centreLeft ? 1 : 0,
    holdings.length,
    way.stock.length_mm,
  ];
  const warnings = (): Problem[] => [
    ...charted.warnings,
    ...planWarnings(part, outline.kept?.bare ?? outline, lathe, way, plan),
    ...stubWarnings(outline),
  ];
  candidates.push({ name: way.name, plan, outline, warnings, cost, pins: way.pins });
}

/** Holdings beyond one in which journals and seats are finished. */
function journalsApart(part: ResolvedPart, plan: Plan): number {
  const running = new Set(
    part.segments.filter((s) => s.role === 'journal' || s.role === 'seat').map((s) => s.id),
  );
  const holdings = plan.holdings.filter((h) =>
    h.cuts.some((c) => c.kind === 'finish' && running.has(c.segment ?? '')),
  );
  return Math.max(0, holdings.length - 1);
}

const REASONS = [
  'fewer drawing lengths are held by it',
  'more of its finishing cuts spring beyond their limits',
  'it finishes journals in different holdings, so that they may not run true to each other',
  'it grips a finished seat in hard jaws',
  'it lets long work stand out with nothing to hold it up',
  'it leaves a centre hole that the drawing does not show',
  'it takes more holdings',
  'it takes more bar',
];

function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}

function whyBeaten(best: readonly number[], other: readonly number[], proved: boolean): string {
  const at = best.findIndex((x, i) => x !== other[i]);
  if (at < 0) return proved ? 'It is as good, and comes second.' : 'It is no better.';
  const reason = REASONS[at] ?? 'it is worse';
  return proved ? `It can be done, but ${reason}.` : `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.`;
}
