import type { Link } from './error-tree.ts';
import { facesMade } from './faces-made.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { MeasuredFace } from './measured.ts';
import { endDatum } from './way.ts';

/** A length taken with a depth micrometer or a vernier: ± 0.02 mm (common practice, no source). */
export const MEASURED = 20_000_000;

/**
 * How every face of a plan hangs from another: finished faces from the tool that made them, the tool from the
 * zero of its holding, the zero from the face it was touched on. Where Z is set by a measured length before a cut, its tool
 * hangs from the face that was measured from, for that cut and those after it. Nodes are "H1:B" for a face as made in a holding, "H1:datum", "H1:T3"; "face B" joins
 * what is known of one face.
 */
export const chartLinks = (drafts: readonly HoldingDraft[], measured: readonly MeasuredFace[]): Link[] =>
  drafts.flatMap((draft, i) =>
    linksOf(
      draft,
      i === 0,
      measured.filter((m) => m.draft === draft),
    ),
  );

function linksOf(draft: HoldingDraft, first: boolean, measured: readonly MeasuredFace[]): Link[] {
  const { lathe } = draft.bench;
  const id = draft.setup.id;
  const links: Link[] = [];
  const made = new Set<string>();
  for (const [station, maker] of facesMade(draft)) {
    made.add(station);
    const tool = lathe.tools.find((t) => t.id === maker.cut.tool);
    const face = `${id}:${station}`;
    const width = maker.byOtherEdge && tool?.kind === 'blade' ? tool.widthKnownTo : 0;
    // Z was set anew for this tool by a measured length: from then on it hangs from where that was measured from.
    const anew = measured.findLast((m) => m.cut.tool === maker.cut.tool && m.cut.n <= maker.cut.n);
    const node = `${id}:${tool?.id ?? 'hand'}${anew ? ` by ${anew.length}` : ''}`;
    links.push({ a: `face ${station}`, b: face, error: 0 });
    links.push({ a: face, b: node, error: lathe.readout.repeat + width });
    if (anew) links.push({ a: node, b: `face ${anew.from}`, error: lathe.readout.repeat + MEASURED });
    else links.push({ a: node, b: `${id}:datum`, error: lathe.readout.touch });
  }
  const datum = draft.setup.datum.station;
  if (!made.has(datum)) links.push({ a: `${id}:datum`, b: `face ${datum}`, error: 0 });
  else if (!first && draft.datumU === endDatum(draft.work, 0, lathe).u) {
    // The zero was set by measuring the whole length from the other end.
    const far = draft.work.lands.at(-1)?.headFace ?? datum;
    links.push({ a: `${id}:datum`, b: `face ${far}`, error: lathe.readout.repeat });
  }
  return links;
}
