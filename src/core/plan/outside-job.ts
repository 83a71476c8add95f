import type { ResolvedTool } from '../part/resolved.ts';
import { thickest } from './billet.ts';
import type { Corner, Land } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { list } from './words.ts';

/** The outside turning of a run of lands in one holding. Places in u (pm). */
export type OutsideJob = {
  readonly draft: HoldingDraft;
  readonly lands: readonly Land[];
  /** Rough diameter of each land: its blank and the allowance, or what stands if that is less. */
  readonly targets: readonly number[];
  /** Where roughing stops between lands: moved off each shoulder into the smaller side. lands.length + 1 of them. */
  readonly bounds: readonly number[];
  readonly roughFeed: number | null;
  readonly fineFeed: number | null;
  /** The land that a stretch lies in, null in waste or over several. */
  readonly landAt: (u0: number, u1: number) => string | null;
};

/** Which lands and corners a holding turns. */
export type Wanted = {
  readonly land: (i: number) => boolean;
  readonly corner: (corner: Corner) => boolean;
  /** Whose thread is cut in it with a single point; those of its lands where not said. */
  readonly thread?: (i: number) => boolean;
};

/** Half the allowance on the diameter stands on each shoulder. */
export const faceAllowance = (draft: HoldingDraft): number => Math.floor(draft.bench.lathe.cut.allowance / 2);

/**
 * @param lo - Free end (waste included).
 * @param hi - Where turning ends at the headstock side, in waste.
 * @param wanted - The lands turned in this holding; the others stand as they are.
 */
export function outsideJob(draft: HoldingDraft, lo: number, hi: number, wanted: Wanted): OutsideJob {
  const { lands, corners } = draft.work;
  const { lathe } = draft.bench;
  const standing = (land: Land): number => thickest(draft.pieces, land.u0, land.u1);
  const isRoughed = (land: Land, i: number): boolean =>
    !land.segment.keepsSkin && wanted.land(i) && land.blank + lathe.cut.allowance < standing(land);
  const targets = asReadTogether(
    draft,
    lands.map((land, i) =>
      isRoughed(land, i)
        ? { d: land.blank + lathe.cut.allowance, roughed: true }
        : { d: standing(land), roughed: false },
    ),
  );
  const bounds = [lo];
  for (let i = 1; i < lands.length; i++) {
    const face = lands[i]?.u0 ?? 0;
    const before = targets[i - 1] ?? 0;
    const after = targets[i] ?? 0;
    const off = Math.max(faceAllowance(draft), filletAt(corners, i));
    bounds.push(before < after ? face - off : before > after ? face + off : face);
  }
  bounds.push(hi);
  return {
    draft,
    lands,
    targets,
    bounds: ordered(bounds),
    roughFeed: lathe.feeds.at(-1) ?? null,
    fineFeed: lathe.feeds[0] ?? null,
    landAt: (u0, u1) => lands.find((l) => u0 >= l.u0 && u1 <= l.u1)?.id ?? null,
  };
}

/** Rough sizes that the readout shows alike are one, the thickest of them, so that no step is told twice. */
function asReadTogether(
  draft: HoldingDraft,
  sizes: readonly { readonly d: number; readonly roughed: boolean }[],
): number[] {
  // As a readout of radii shows them, two counts on the diameter: what is planned does not hang on which of the two it is.
  const counts = (d: number): number => Math.ceil(d / (2 * draft.bench.lathe.readout.resolution));
  const thickestOf = new Map<number, number>();
  for (const { d, roughed } of sizes)
    if (roughed) thickestOf.set(counts(d), Math.max(d, thickestOf.get(counts(d)) ?? 0));
  return sizes.map(({ d, roughed }) => (roughed ? (thickestOf.get(counts(d)) ?? d) : d));
}

/** A plain groove of few plunges is not roughed: it is plunged from full size. */
export function isPlunged(
  { draft, landAt, lands }: OutsideJob,
  lo: number,
  hi: number,
  blade: number,
): boolean {
  const id = landAt(lo, hi);
  const i = lands.findIndex((l) => l.id === id);
  const land = lands[i];
  if (!land || isFine(land)) return false;
  const rounded = draft.work.corners.some((c) => c.land === i && c.edge.form === 'fillet');
  return !rounded && plunges(land.u1 - land.u0, blade) <= MOST_PLUNGES;
}

/** More plunges than this nobody makes who can feed sideways, or turn (common practice, no source). */
export const MOST_PLUNGES = 4;

/** Plunges that clear a width, each overlapping the last by a fifth of the blade. */
export const plunges = (width: number, blade: number): number =>
  width <= blade ? 1 : 1 + Math.ceil((width - blade) / (0.8 * blade));

/** Radius of a fillet in the corner at the tailstock end of land i, whichever side it stands on; 0 where none. */
function filletAt(corners: readonly Corner[], i: number): number {
  const here = corners.filter(
    (c) => c.edge.form === 'fillet' && ((c.land === i && c.atTail) || (c.land === i - 1 && !c.atTail)),
  );
  return Math.max(0, ...here.map((c) => c.u1 - c.u0));
}

/** A land shorter than its allowances is not roughed: its bounds meet. */
function ordered(bounds: readonly number[]): number[] {
  const out: number[] = [];
  for (const bound of bounds) out.push(Math.max(bound, out.at(-1) ?? bound));
  return out;
}

/** Journals and seats, and whatever else must fit, are brought to size by test cut and micrometer. */
export const isFine = (land: Land): boolean =>
  land.segment.role === 'journal' ||
  land.segment.role === 'seat' ||
  land.segment.max - land.segment.min <= 30_000_000;

/** How a tool meets a face that looks to the tailstock. The point of a left-hand tool cannot be run against it. */
function touchingTool(tool: ResolvedTool): { what: string; meets: string } {
  if (tool.kind === 'blade')
    return { what: `${tool.id}, the blade,`, meets: 'where its headstock edge touches' };
  if (tool.kind === 'turn' && tool.hand === 'left')
    return {
      what: tool.id,
      meets: 'where its point comes up to a straight edge held flat against',
    };
  return { what: tool.id, meets: 'where it touches' };
}

/** The datum is an end of the part that waste covers, or a stub that stays and is not turned down to its wall yet. */
function isUnderWaste({ pieces, datumU, work, setup }: HoldingDraft): boolean {
  if (work.tailStub?.face !== setup.datum.station) return datumU <= 0;
  return thickest(pieces, datumU, datumU + 1) <= thickest(pieces, datumU - 1, datumU);
}

/** Touches a tool off before its first cut in a holding, on the turned or sawn surface it meets first. */
export function touch(job: Pick<OutsideJob, 'draft'>, tool: ResolvedTool): void {
  const { draft } = job;
  if (!draft.needsTouch(tool)) return;
  // While waste stands over the datum the tool touches the standing end, whose reading is known.
  const standing = draft.pieces[0]?.u0 ?? 0;
  const covered = standing < draft.datumU && isUnderWaste(draft);
  const at = covered ? standing : draft.datumU;
  // At a shoulder inside the work two diameters meet: X is then set on whichever is measured.
  const d = at <= standing ? thickest(draft.pieces, at, at + 1) : 0;
  const blade = tool.kind === 'blade';
  const station = covered ? null : draft.setup.datum.station;
  const readings = [
    // The datum looks to the tailstock: it is the headstock edge of a blade that meets it, whichever edge is kept.
    blade ? draft.bladeZ(at, 'left', station, tool) : draft.z(at, station),
    ...(d > 0 ? [draft.x(d)] : []),
  ];
  const how = touchingTool(tool);
  draft.add({
    kind: 'touch',
    u0: at,
    u1: at,
    d0: d > 0 ? d : null,
    tool,
    readings,
    say: `Set ${how.what} on centre height and touch off: ${how.meets} ${covered ? 'the standing end' : 'the datum'} the readout stands at ${list(readings.slice(0, 1))}; touch a measured diameter and enter what the micrometer says for X.`,
  });
}
