import type { ResolvedPart } from '../part/resolved.ts';
import { facesMade } from './faces-made.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { Cut } from './types.ts';

/** A face whose last cut goes by a length measured at the lathe, from a face that stands by then. */
export type MeasuredFace = {
  readonly draft: HoldingDraft;
  readonly cut: Cut;
  readonly station: string;
  readonly from: string;
  readonly length: string;
};

/**
 * The faces that are cut to a measured length, for the lengths that were settled to be measured: of the two ends of
 * each the one that is made last.
 *
 * @returns The sentence why a length cannot be measured, instead.
 */
export function measuredFaces(part: ResolvedPart, drafts: readonly HoldingDraft[]): MeasuredFace[] | string {
  const found: MeasuredFace[] = [];
  const made = drafts.flatMap((draft, i) =>
    [...facesMade(draft)].map(([station, { cut }]) => ({
      draft,
      station,
      cut,
      order: i * 1e6 + draft.cuts.indexOf(cut),
    })),
  );
  for (const id of part.pins.measured ?? []) {
    const length = part.lengths.find((l) => l.id === id);
    const ends = made
      .filter(({ station }) => station === length?.from || station === length?.to)
      .sort((a, b) => b.order - a.order);
    const last = ends[0];
    const from = last?.station === length?.from ? length?.to : length?.from;
    const stands = ends.some(({ station }) => station === from);
    if (!length || !last || from === undefined || !stands)
      return `${id} cannot be measured in the lathe: it does not run between two faces that are cut there`;
    if (last.cut.kind !== 'face' && last.cut.kind !== 'finish')
      return `${id} cannot be measured before the last cut of face ${last.station}, a ${last.cut.kind}: nothing is left on that face by then`;
    if (ends.every(({ order }) => order === last.order))
      return `${id} cannot be measured before its last cut: both its faces are made by it`;
    found.push({ draft: last.draft, cut: last.cut, station: last.station, from, length: id });
  }
  return found;
}

/** Says at the step what is measured before it. */
export function sayMeasured(faces: readonly MeasuredFace[]): void {
  for (const { cut, station, from, length } of faces)
    cut.say = `First stop with the tool against face ${station} as it stands, measure ${length} from ${from}, and set Z to show what it is. ${cut.say}`;
}
