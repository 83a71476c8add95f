import { roomWanted, thickest } from './billet.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { Land } from './frame.ts';
import { isFine, MOST_PLUNGES, type OutsideJob, plunges, touch } from './outside-job.ts';
import { type BladeTool, bladeFor, type TurnTool, turnTool } from './tool-choice.ts';
import type { Reading } from './types.ts';
import type { ResolvedTool } from '../part/resolved.ts';
import { polishing } from './polishing.ts';
import { fineSize, list, size } from './words.ts';

/**
 * Finishes one land from face to face with a tool that can make its shoulders: right-hand for a shoulder that looks
 * to the tailstock, left-hand for one that looks to the headstock, the blade for both.
 *
 * @returns Why it cannot be done, or null.
 */
export function finish(job: OutsideJob, i: number): string | null {
  const land = job.lands[i];
  if (!land || land.segment.keepsSkin) return null;
  const tailWall = i > 0 && (job.lands[i - 1]?.blank ?? 0) > land.blank;
  const headWall = (job.lands[i + 1]?.blank ?? 0) > land.blank;
  const reach = filletReach(job, i);
  const span = { u0: land.u0 + reach.tail, u1: land.u1 - reach.head };
  if (span.u1 <= span.u0) return `the fillets leave nothing of ${land.id} to finish`;
  const choice = pickTool(job, land, tailWall, headWall);
  if (typeof choice === 'string') return choice;
  touch(job, choice);
  const from = standing(job, i, land);
  const plan = { job, land, ...span, tool: choice, from };
  const fine = isFine(land);
  // A groove runs from wall to wall; with a fillet in its corner it is finished up to where that begins.
  const wide = choice.kind === 'blade' && plunges(span.u1 - span.u0, choice.width) > MOST_PLUNGES;
  if (choice.kind === 'blade' && !fine && !wide && reach.tail + reach.head === 0) groove(plan);
  else if (fine) trialFinish(plan);
  else plainFinish(plan);
  return null;
}

type Finish = {
  job: OutsideJob;
  land: Land;
  u0: number;
  u1: number;
  tool: ResolvedTool;
  /** Diameter the land stands at, away from the allowance on its shoulders. */
  from: number;
};

function standing(job: OutsideJob, i: number, land: Land): number {
  const lo = Math.max(land.u0, job.bounds[i] ?? land.u0);
  const hi = Math.min(land.u1, job.bounds[i + 1] ?? land.u1);
  return lo < hi ? thickest(job.draft.pieces, lo, hi) : thickest(job.draft.pieces, land.u0, land.u1);
}

function pickTool(job: OutsideJob, land: Land, tailWall: boolean, headWall: boolean): ResolvedTool | string {
  const { lathe } = job.draft.bench;
  const right = turnTool(lathe, 'right');
  const left = turnTool(lathe, 'left');
  const slack = lathe.cut.allowance;
  const clear = (tool: TurnTool, side: 'tail' | 'head'): boolean => {
    const tip = { u: side === 'tail' ? land.u0 : land.u1, d: land.blank };
    return roomWanted(job.draft.pieces, tip, side, { trailingDeg: tool.trailingDeg, slack }) === 0;
  };
  if (!tailWall && right && clear(right, 'tail')) return right;
  if (!headWall && left && clear(left, 'head')) return left;
  if (!right) return 'the lathe file has no right-hand turning tool';
  const depth = (deepestNeighbour(job, land) - land.blank) / 2;
  const blade = bladeFor(lathe, land.u1 - land.u0, depth);
  if (blade) return blade;
  if (!lathe.tools.some((t) => t.kind === 'blade' && t.width <= land.u1 - land.u0))
    return `${land.id} is ${size(land.u1 - land.u0, lathe)} wide, narrower than every blade in the lathe file`;
  return `no blade in the lathe file reaches the bottom of ${land.id}, ${size(depth, lathe)} deep`;
}

function deepestNeighbour(job: OutsideJob, land: Land): number {
  const margin = 2e9;
  return thickest(job.draft.pieces, land.u0 - margin, land.u1 + margin);
}

function filletReach(job: OutsideJob, i: number): { tail: number; head: number } {
  const of = (atTail: boolean): number =>
    Math.max(
      0,
      ...job.draft.work.corners
        .filter((c) => c.land === i && c.edge.form === 'fillet' && c.atTail === atTail)
        .map((c) => c.u1 - c.u0),
    );
  return { tail: of(true), head: of(false) };
}

/** The Z readings of a finishing cut: the shoulder it makes, or the face it runs out at. */
function wallReadings({ job, land, u0, u1, tool }: Finish): Reading[] {
  const { draft } = job;
  // Where a fillet stands the cut stops short of the face, on no station.
  const tail = u0 === land.u0 ? land.tailFace : null;
  const head = u1 === land.u1 ? land.headFace : null;
  if (tool.kind === 'blade')
    return [draft.bladeZ(u0, 'right', tail, tool), draft.bladeZ(u1, 'left', head, tool)];
  const left = tool.kind === 'turn' && tool.hand === 'left';
  return [left ? draft.z(u0, tail) : draft.z(u1, head)];
}

function plainFinish(f: Finish): void {
  const { draft } = f.job;
  const passes = Math.max(1, Math.ceil((f.from - f.land.blank) / draft.bench.lathe.cut.finish));
  const readings = [draft.x(f.land.blank), ...wallReadings(f)];
  const cuts = passes > 1 ? ` in ${passes} equal cuts, measuring before the last` : '';
  const say =
    f.tool.kind === 'blade'
      ? `Plunge the blade down both walls, then feed it lightly sideways between them: ${list(readings)}${cuts}.`
      : `Finish to ${list(readings)}${cuts}.`;
  add(f, 'finish', f.land.blank, passes, readings, say);
  measure(f, f.land.blank, 'Stop the lathe and measure.');
}

function groove(f: Finish): void {
  const { draft } = f.job;
  const blade = f.tool as BladeTool;
  const count = plunges(f.u1 - f.u0, blade.width);
  const readings = [draft.x(f.land.blank), ...wallReadings(f)];
  const plunge =
    count === 1
      ? 'one plunge'
      : count === 2
        ? 'a plunge at either wall'
        : `${count} plunges, the walls first`;
  add(f, 'groove', f.land.blank, count, readings, `Groove to ${list(once(readings))}, ${plunge}.`);
  measure(f, f.land.blank, 'Stop the lathe and measure the groove.');
}

/** A blade as wide as its groove stands at one reading for both walls. */
const once = (readings: readonly Reading[]): Reading[] =>
  readings.filter((r, i) => readings.findIndex((o) => o.axis === r.axis && o.text === r.text) === i);

/** Test cut at finishing depth, spring pass, cool, measure, re-set; then the rest in equal cuts, spring, measure. */
function trialFinish(f: Finish): void {
  const { draft } = f.job;
  const { from } = f;
  const d = f.land.blank;
  const count = Math.max(2, Math.ceil((from - d) / draft.bench.lathe.cut.finish));
  for (let k = 1; k <= count; k++) {
    const now = k === count ? d : Math.round(from - ((from - d) * k) / count);
    const readings = [draft.x(now), ...wallReadings(f)];
    const what = k === 1 ? 'Test cut at finishing depth' : k === count ? 'Take the rest' : 'An equal cut';
    add(f, 'finish', now, 1, readings, `${what}: ${list(readings)}.`);
    add(f, 'spring', now, 1, readings, `Spring pass at the same setting: ${list(readings)}.`);
    if (k > 1 && k < count) continue;
    const say =
      k === 1
        ? `Stop, let the work cool, measure, and enter the measured size for X. All that then stands over ${fineSize(d, draft.bench.lathe)} comes off in ${count === 2 ? 'one more cut' : `${count - 1} equal cuts`}.${centreNote(draft)}`
        : `Stop, let the work cool and measure near both ends: ${fineSize(d, draft.bench.lathe)} is the aim, ${fineSize(f.land.segment.min, draft.bench.lathe)} to ${fineSize(f.land.segment.max, draft.bench.lathe)} the limits.${finerThanReadout(f) ? ` That is finer than the readout shows: stop a touch large by the micrometer and polish to size. ${polishing(draft)}` : ''}`;
    measure(f, now, say);
  }
}

/** Warm work has grown against the centre. */
const centreNote = (draft: HoldingDraft): string =>
  draft.support.includes('centre') || draft.setup.device === 'centres'
    ? ' The work has warmed and grown: ease the centre, bring it up again and lock the quill.'
    : '';

function finerThanReadout(f: Finish): boolean {
  const { readout } = f.job.draft.bench.lathe;
  const count = readout.resolution * (readout.x === 'radius' ? 2 : 1);
  return f.land.segment.max - f.land.segment.min < 2 * count;
}

function add(
  f: Finish,
  kind: 'finish' | 'spring' | 'groove',
  d: number,
  passes: number,
  readings: Reading[],
  say: string,
): void {
  const { draft } = f.job;
  const { speed } = draft.bench.material;
  // A plunge is eased to its size: what counts is the last of it.
  const most = kind === 'groove' ? draft.bench.lathe.cut.finish / 2 : Infinity;
  const depth = (thickest(draft.pieces, f.u0, f.u1) - d) / 2 / passes;
  if (kind !== 'spring') draft.noteFinish(f.land.id, f.u0, f.u1, Math.min(most, depth));
  draft.add({
    kind,
    u0: f.u0,
    u1: f.u1,
    d0: d,
    segment: f.land.id,
    tool: f.tool,
    passes,
    surface: f.tool.kind === 'blade' ? speed.part.low : speed.finish.low,
    // One speed for all cuts of a land.
    across: f.tool.kind === 'blade' ? undefined : f.land.blank,
    feed: f.tool.kind === 'blade' ? null : f.job.fineFeed,
    readings,
    say,
  });
}

function measure(f: Finish, d: number, say: string): void {
  const u = Math.round((f.u0 + f.u1) / 2);
  const { draft } = f.job;
  draft.add({ kind: 'measure', u0: u, u1: u, d0: d, segment: f.land.id, readings: [draft.x(d)], say });
}
