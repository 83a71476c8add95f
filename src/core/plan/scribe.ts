import { pm } from '../lengths/length.ts';
import { writeReading } from '../lengths/write.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { faceAllowance } from './outside-job.ts';
import { zValue } from './readings.ts';
import { zOf } from './frame.ts';
import type { ScribedPlace } from './scribed-places.ts';
import type { Cut, CutKind, Mark } from './types.ts';
import { ruleText } from './words.ts';

/**
 * The lines to scribe in one holding: each shoulder ahead of the first cut that works up to it, by when what stands
 * on both sides has been roughed down to it; the end that is faced to length; the places of crossings, for when the
 * work is out of the lathe. Cuts must be numbered.
 *
 * @param places - Where each crossing is scribed, of all holdings.
 */
export function scribeLines(draft: HoldingDraft, places: readonly ScribedPlace[]): Mark[] {
  const crossings = places
    .filter((place) => place.draft === draft)
    .map(({ station, before }) => mark(draft, station, before, 'none'));
  return [...shoulders(draft), ...freeEnd(draft), ...crossings].sort((a, b) => a.before - b.before);
}

function mark(draft: HoldingDraft, station: string, before: Cut, waste: 'tail' | 'head' | 'none'): Mark {
  const { work, bench } = draft;
  const u = draft.at(station);
  const z = zOf(work, u);
  const value = zValue(draft.zero, z);
  const { from, reachable } = ruleFrom(draft, station, before);
  const side =
    waste === 'none' ? 'none' : (waste === 'tail') === (work.headstock === 'right') ? 'left' : 'right';
  return {
    station,
    z_mm: z / 1e9,
    reading_mm: value / 1e9,
    text: writeReading(pm(value), bench.lathe.unit, bench.lathe.readout.resolution, 'nearest'),
    rule_text: reachable ? ruleText(u - draft.at(from), bench.lathe) : null,
    from,
    before: before.n,
    waste: side,
  };
}

/** What a rule stands against: the datum, or the faced end of a stub that stays before it. */
function ruleFrom(draft: HoldingDraft, station: string, before: Cut): { from: string; reachable: boolean } {
  const from = draft.setup.datum.station;
  const { tailStub } = draft.work;
  if (tailStub?.face === from && station !== tailStub.outer)
    return { from: tailStub.outer, reachable: endStands(draft, before) };
  return { from, reachable: draft.at(from) > 0 ? from !== station : endStands(draft, before) };
}

/** A rule stands against the end only once it is faced and no stub covers it. */
function endStands(draft: HoldingDraft, before: Cut): boolean {
  const faced = draft.cuts.find((c) => c.kind === 'face');
  if (faced)
    return (
      draft.cuts.indexOf(faced) < draft.cuts.indexOf(before) && faced.readings.some((r) => r.station !== null)
    );
  return !draft.startsInWaste;
}

function shoulders(draft: HoldingDraft): Mark[] {
  const { lands } = draft.work;
  const shaping = draft.cuts.filter((cut) => SHAPING.has(cut.kind));
  const marks: Mark[] = [];
  for (let i = 1; i < lands.length; i++) {
    const tail = lands[i - 1];
    const head = lands[i];
    if (!tail || !head || tail.blank === head.blank) continue;
    const small = tail.blank < head.blank ? tail : head;
    const slack = Math.max(faceAllowance(draft), filletAt(draft, head.u0));
    const first = shaping.find((cut) => worksUpTo(draft, cut, head.u0, slack, small === tail));
    if (first) marks.push(mark(draft, head.tailFace, first, small === tail ? 'tail' : 'head'));
  }
  return marks;
}

const SHAPING: ReadonlySet<CutKind> = new Set<CutKind>(['rough', 'finish', 'groove']);

/** A roughing, finishing or grooving cut on the lower side that ends at a shoulder, or its allowance short of it. */
function worksUpTo(
  { work }: HoldingDraft,
  cut: Cut,
  face: number,
  slack: number,
  lowerAtTail: boolean,
): boolean {
  const a = zOf(work, Math.round(cut.z0_mm * 1e9));
  const b = zOf(work, Math.round(cut.z1_mm * 1e9));
  const end = lowerAtTail ? Math.max(a, b) : Math.min(a, b);
  const short = lowerAtTail ? face - end : end - face;
  return short >= 0 && short <= slack;
}

/** Radius of the fillet in the corner at a face; 0 where none. */
function filletAt({ work }: HoldingDraft, face: number): number {
  const here = work.corners.filter((c) => c.edge.form === 'fillet' && (c.u0 === face || c.u1 === face));
  return Math.max(0, ...here.map((c) => c.u1 - c.u0));
}

function freeEnd(draft: HoldingDraft): Mark[] {
  const cut = draft.cuts.find((c) => c.kind === 'face' && c.readings.some((r) => r.station !== null));
  const end = draft.work.lands[0]?.tailFace;
  // Before anything is turned there is nothing to measure the first end from.
  if (!cut || !end || draft.setup.datum.station === end) return [];
  return [mark(draft, end, cut, 'tail')];
}
