import type { Outline } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Pins } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import { chart } from './chart.ts';
import { chartLinks } from './chart-links.ts';
import { measuredFaces, sayMeasured } from './measured.ts';
import { offLathe } from './off-lathe.ts';
import { againstPins } from './pins.ts';
import { stiffnessRows } from './rigidity.ts';
import { scribeLines } from './scribe.ts';
import { scribedLinks, scribedPlaces } from './scribed-places.ts';
import type { Holding, Plan } from './types.ts';
import { stubWarnings } from './stubs.ts';
import { matchedApart, planWarnings } from './warnings.ts';
import { whyUnheld } from './unheld.ts';
import type { Refused, Way } from './way.ts';

/** With what would have to be settled to ask for it. */
export type Settled<T> = T & { readonly pins: Pins };

/** A way with its plan and what it costs; its warnings are worked out for the one that is taken. */
export type Candidate = {
  readonly name: string;
  readonly plan: Plan;
  readonly outline: Outline;
  readonly warnings: () => Problem[];
  readonly cost: readonly number[];
  readonly pins: Pins;
};

/** Numbers the cuts, adds marks, chart, stiffness and what is cut elsewhere, and costs it; or says what was settled against it. */
export function weigh(
  part: ResolvedPart,
  outline: Outline,
  lathe: ResolvedLathe,
  way: Settled<Way>,
): Candidate | Settled<Refused> {
  const measured = measuredFaces(part, way.drafts);
  const against = typeof measured === 'string' ? measured : againstPins(part.pins, way.drafts);
  if (against !== null || typeof measured === 'string')
    return { name: way.name, why: against ?? '', pins: way.pins };
  sayMeasured(measured);
  const cuts = way.drafts.flatMap((d) => d.cuts);
  const after = offLathe(outline, part, lathe);
  [...cuts, ...after].forEach((cut, i) => (cut.n = i + 1));
  const links = chartLinks(way.drafts, measured);
  const places = scribedPlaces(part, way.drafts);
  const unheld = whyUnheld(way);
  if (unheld !== null) return { name: way.name, why: unheld, pins: way.pins };
  const holdings = way.drafts.map((d): Holding => ({ ...d.finished(), marks: scribeLines(d, places) }));
  const charted = chart(part, way.drafts, [...links, ...scribedLinks(places)]);
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
  return { name: way.name, plan, outline, warnings, cost, pins: way.pins };
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

/** Which of two costs is less: the first figure that differs decides. */
export function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}

/** What a way that can be done lost on against the one that is taken. */
export function whyBeaten(best: readonly number[], other: readonly number[], second: boolean): string {
  const at = best.findIndex((x, i) => x !== other[i]);
  if (at < 0) return second ? 'It is as good, and comes second.' : 'It can be done, but it is no better.';
  return `It can be done, but ${REASONS[at] ?? 'it is worse'}.`;
}
