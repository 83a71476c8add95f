import type { HoldingDraft } from './holding-draft.ts';
import type { Cut, CutKind } from './types.ts';

const MAKES_FACES: ReadonlySet<CutKind> = new Set<CutKind>(['face', 'finish', 'groove', 'fillet', 'taper']);

export type Maker = { cut: Cut; byOtherEdge: boolean };

/** The cut that makes each face in a holding: the last one that works the lower side of a shoulder up to it. */
export function facesMade(draft: HoldingDraft): Map<string, Maker> {
  const found = new Map<string, Maker>();
  const { lands } = draft.work;
  for (const cut of draft.cuts) {
    if (!MAKES_FACES.has(cut.kind)) continue;
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
