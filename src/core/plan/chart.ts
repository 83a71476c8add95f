import type { ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { type Link, resultant } from './error-tree.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { ChartRow, Cut } from './types.ts';

/** A line scribed in the lathe and split by eye at the drill or the mill: ± 0.05 mm (common practice, no source). */
const SCRIBED = 50_000_000;

/**
 * The tolerance chart: every finished face hangs from its holding's datum by the errors of how it is located, the
 * datum from the face it was touched on, and so on to a tree. A drawing length is held to the sum of the errors on the
 * path between its ends; a zero error common to both ends cancels because the path does not pass it.
 */
export function chart(
  part: ResolvedPart,
  drafts: readonly HoldingDraft[],
): { rows: ChartRow[]; warnings: Problem[] } {
  const links = drafts.flatMap((draft, i) => linksOf(draft, i === 0));
  const rows: ChartRow[] = [];
  const warnings: Problem[] = [];
  const first = drafts[0];
  for (const length of part.lengths) {
    if (length.size.reference || !first) continue;
    const from = first.bench.outline.stations.get(length.from);
    const to = first.bench.outline.stations.get(length.to);
    const path = resultant(links, `face ${length.from}`, `face ${length.to}`);
    if (from === undefined || to === undefined || !path) continue;
    const distance = to - from;
    const { min, max } = length.size;
    const ok = distance - path.error >= min && distance + path.error <= max;
    rows.push({
      length: length.id,
      allowed_mm: [min / 1e9, max / 1e9],
      held_mm: [(distance - path.error) / 1e9, (distance + path.error) / 1e9],
      ok,
      // Nodes are "H1:B" for a face as made in a holding, "H1:datum", "H1:T3"; bare faces only join them.
      through: path.through.filter((node) => node.includes(':')),
    });
    if (!ok) warnings.push(notHeld(length.id, path.error, (max - min) / 2));
  }
  return { rows, warnings };
}

const notHeld = (id: string, error: number, half: number): Problem => ({
  code: 'not-held',
  where: id,
  say: `The plan holds ${id} only to ±${(error / 1e9).toFixed(3)} mm where ±${(half / 1e9).toFixed(3)} mm are allowed: measure it at the lathe and re-zero before its last cut, cut both its faces in one holding, or ask for wider limits.`,
});

function linksOf(draft: HoldingDraft, first: boolean): Link[] {
  const { lathe } = draft.bench;
  const id = draft.setup.id;
  const links: Link[] = [];
  const made = new Set<string>();
  for (const [station, maker] of facesMade(draft)) {
    made.add(station);
    const tool = lathe.tools.find((t) => t.id === maker.cut.tool);
    const node = `${id}:${tool?.id ?? 'hand'}`;
    const face = `${id}:${station}`;
    const width = maker.byOtherEdge && tool?.kind === 'blade' ? tool.widthKnownTo : 0;
    links.push({ a: `face ${station}`, b: face, error: 0 });
    links.push({ a: face, b: node, error: lathe.readout.repeat + width });
    links.push({ a: node, b: `${id}:datum`, error: lathe.readout.touch });
  }
  const datum = draft.setup.datum.station;
  if (!made.has(datum)) links.push({ a: `${id}:datum`, b: `face ${datum}`, error: 0 });
  else if (!first && draft.datumU === 0) {
    // The zero was set by measuring the whole length from the other end.
    const far = draft.work.lands.at(-1)?.headFace ?? datum;
    links.push({ a: `${id}:datum`, b: `face ${far}`, error: lathe.readout.repeat });
  }
  if (draft.finishes.length)
    for (const point of draft.points) {
      links.push({ a: `face ${point}`, b: `${id}:${point}`, error: 0 });
      links.push({ a: `${id}:${point}`, b: `${id}:datum`, error: SCRIBED });
    }
  return links;
}

export type Maker = { cut: Cut; byOtherEdge: boolean };

/** The cut that makes each face in a holding: the last one that works the lower side of a shoulder up to it. */
export function facesMade(draft: HoldingDraft): Map<string, Maker> {
  const found = new Map<string, Maker>();
  const { lands } = draft.work;
  for (const cut of draft.cuts) {
    if (!['face', 'finish', 'groove', 'fillet', 'taper'].includes(cut.kind)) continue;
    for (const reading of cut.readings) {
      if (reading.axis !== 'Z' || !reading.station) continue;
      const { station } = reading;
      const head = lands.findIndex((l) => l.tailFace === station);
      const lower = head > 0 ? lowerSide(lands[head - 1]?.blank ?? 0, lands[head]?.blank ?? 0) : null;
      const owner = lower === 'tail' ? lands[head - 1]?.id : lower === 'head' ? lands[head]?.id : cut.segment;
      if (cut.kind !== 'face' && owner !== cut.segment) continue;
      const place = Math.abs(
        reading.value_mm * 1e9 * draft.zero.sign + draft.zero.z - placeOf(draft, station),
      );
      found.set(station, { cut, byOtherEdge: place > 1 });
    }
  }
  for (const [station, cut] of levelFaces(draft))
    if (!found.has(station)) found.set(station, { cut, byOtherEdge: false });
  return found;
}

/** Faces with no step at the time they were turned: where the taper or the thread of a neighbour begins. */
function levelFaces(draft: HoldingDraft): [string, Cut][] {
  const order = ['taper', 'thread', 'finish', 'groove'];
  return draft.work.lands.flatMap((land, i): [string, Cut][] => {
    const before = draft.work.lands[i - 1];
    if (!before || before.blank !== land.blank) return [];
    const touching = draft.cuts.filter(
      (c) => order.includes(c.kind) && (c.segment === land.id || c.segment === before.id),
    );
    const cut = touching.sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind))[0];
    return cut ? [[land.tailFace, cut]] : [];
  });
}

const lowerSide = (tail: number, head: number): 'tail' | 'head' | null =>
  tail < head ? 'tail' : head < tail ? 'head' : null;

const placeOf = (draft: HoldingDraft, station: string): number =>
  draft.bench.outline.stations.get(station) ?? 0;
