import type { ResolvedPart } from '../part/resolved.ts';
import { removesMetal } from './bar.ts';
import type { Link } from './error-tree.ts';
import { zOf } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { Cut } from './types.ts';

/** A line scribed in the lathe and split by eye at the drill or the mill: ± 0.05 mm (common practice, no source). */
const SCRIBED = 50_000_000;

/** The place of a crossing, the holding in which its line is scribed, and the cut before which that is done. */
export type ScribedPlace = {
  readonly station: string;
  readonly draft: HoldingDraft;
  readonly before: Cut;
};

/**
 * Where each place along the axis at which something crosses it is scribed: once, in a holding in which it is out of the
 * holder and after which nothing cuts there any more. Of several the one whose zero is the face that the place is
 * dimensioned from; else the first, in which the land under the line was turned.
 *
 * @returns Nothing for a place that no holding has out.
 */
export function scribedPlaces(part: ResolvedPart, drafts: readonly HoldingDraft[]): ScribedPlace[] {
  const stations = drafts[0]?.bench.points ?? [];
  return stations.flatMap((station) => {
    const found = placesIn(station, drafts);
    const from = dimensionedFrom(part, station, stations);
    const best = found.find(({ draft }) => from.has(draft.setup.datum.station)) ?? found[0];
    return best ? [best] : [];
  });
}

/** Each place hangs from the zero of the one holding it is scribed in. */
export const scribedLinks = (places: readonly ScribedPlace[]): Link[] =>
  places.flatMap(({ station, draft: { setup } }) => [
    { a: `face ${station}`, b: `${setup.id}:${station}`, error: 0 },
    { a: `${setup.id}:${station}`, b: `${setup.id}:datum`, error: SCRIBED },
  ]);

function placesIn(station: string, drafts: readonly HoldingDraft[]): ScribedPlace[] {
  return drafts.flatMap((draft, i) => {
    const later = drafts.slice(i + 1);
    const before = lastFreeCut(draft, station);
    const stays = later.every(({ cuts }) => !cuts.some((cut) => runsOver(draft, station, cut)));
    return before && stays && !isGripped(draft, station) ? [{ station, draft, before }] : [];
  });
}

/**
 * The first cut of a holding ahead of which the land of a place is done and everything that is finished there, or the last
 * of all where nothing is finished.
 */
function lastFreeCut(draft: HoldingDraft, station: string): Cut | null {
  const { cuts } = draft;
  const done = cuts.findLastIndex(({ kind }) => ['finish', 'groove', 'measure'].includes(kind));
  const over = cuts.findLastIndex((cut) => runsOver(draft, station, cut));
  const least = Math.max(done < 0 ? cuts.length - 2 : done, over);
  return cuts[least + 1] ?? null;
}

/** Whether a cut takes a line at a place away; a thread cut over it spoils it as well. */
function runsOver(draft: HoldingDraft, station: string, cut: Cut): boolean {
  if (cut.inside || !(removesMetal(cut) || cut.kind === 'thread')) return false;
  const z_mm = zOf(draft.work, draft.at(station)) / 1e9;
  return cut.z0_mm < z_mm && z_mm < cut.z1_mm;
}

/** Nobody scribes what is in the collet or the jaws, nor behind them: it is scribed when it is out. */
function isGripped(draft: HoldingDraft, station: string): boolean {
  const { setup, work } = draft;
  const { grips } = setup;
  if (!grips) return false;
  const z_mm = zOf(work, draft.at(station)) / 1e9;
  return work.headstock === 'right' ? z_mm >= grips.z0_mm : z_mm <= grips.z1_mm;
}

/** The faces that lengths tie a place to, by way of other places where need be. */
function dimensionedFrom(part: ResolvedPart, place: string, places: readonly string[]): Set<string> {
  const reached = new Set([place]);
  for (const here of reached) {
    if (!places.includes(here)) continue;
    for (const { from, to, size } of part.lengths) {
      if (size.reference || (from !== here && to !== here)) continue;
      reached.add(from === here ? to : from);
    }
  }
  return reached;
}
