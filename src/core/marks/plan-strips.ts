import type { Part } from '../part/types.ts';
import type { Report } from '../report-types.ts';
import { stripsOf, type Strip } from './strip.ts';
import { wrapStrip, type Wrap } from './wrap.ts';

export type SegmentWrap = Wrap & { readonly segment: string };
export type PlanStrips = { readonly strips: readonly Strip[]; readonly wraps: readonly SegmentWrap[] };

/** All strips that go with a plan: along the bar by holding, round it by segment. None where there is no plan. */
export function planStrips(part: Part, { chains, diameters, plan }: Report): PlanStrips {
  if (!plan) return { strips: [], wraps: [] };
  const places = new Map(
    Object.entries(chains.stations).flatMap(([id, { aim_mm }]) =>
      aim_mm === null ? [] : [[id, aim_mm] as const],
    ),
  );
  const strips = plan.holdings.flatMap((holding) => stripsOf(holding, places));
  return { strips, wraps: wrapsOf(part, diameters, places) };
}

/** One strip for each segment that carries something clocked about the axis. */
function wrapsOf(
  part: Part,
  diameters: Report['diameters'],
  places: ReadonlyMap<string, number>,
): SegmentWrap[] {
  const bySegment = new Map<number, { id: string; degrees: number }[]>();
  for (const crossing of part.crossings) {
    const z = places.get(crossing.at);
    if (z === undefined) continue;
    const after = part.faces.findLastIndex(({ id }) => (places.get(id) ?? Infinity) <= z);
    const index = Math.min(Math.max(after, 0), part.segments.length - 1);
    const degrees = Number.parseFloat(crossing.angle ?? '0');
    if (!Number.isFinite(degrees)) continue;
    bySegment.set(index, [...(bySegment.get(index) ?? []), { id: crossing.id, degrees }]);
  }
  return [...bySegment].flatMap(([index, clocked]) => {
    const segment = part.segments[index]?.id;
    const diameter = diameters.find((row) => row.segment === segment)?.aim_mm ?? null;
    return segment === undefined || diameter === null ? [] : [{ segment, ...wrapStrip(diameter, clocked) }];
  });
}
