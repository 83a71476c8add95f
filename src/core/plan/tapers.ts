import type { Land } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { type Bite, diameterAt, type Entry, taperBites, toolWanted } from './taper-bites.ts';
import { fineSize, list, size } from './words.ts';

/**
 * Cuts a taper with the compound swung to half the included angle, the carriage locked; one longer than the compound
 * travels, or that no single tool gets at, in several bites at one angle.
 *
 * Travel = L / cos α. The blank stands at the large diameter.
 * @returns Why it cannot be done, or null.
 */
export function cutTaper(draft: HoldingDraft, i: number): string | null {
  const land = draft.work.lands[i];
  // Drawn as a taper between equal diameters, it is turned when its blank is.
  if (!land || land.d0 === land.d1) return null;
  const { lathe } = draft.bench;
  if (lathe.compoundTravel === 0) return `${land.id} is a taper, and the lathe file has no compound travel`;
  const angle = Math.atan(Math.abs(land.d1 - land.d0) / 2 / (land.u1 - land.u0));
  const degrees = (angle * 180) / Math.PI;
  const cut = taperBites(lathe, draft.pieces, land, degrees);
  if (!cut)
    return `no turning tool in the lathe file, nor two together, get at all of ${land.id} between what stands on both sides of it; ${toolWanted(lathe, draft.pieces, land, degrees)}`;
  const { entry, bites } = cut;
  if (entry) roughEntry(draft, land, entry);
  const used = new Set(bites.map((bite) => bite.tool));
  // The compound is swung once for all bites; each tool under it is touched off again.
  for (const tool of used) draft.unset(tool);
  bites.forEach((bite, k) => cutBite(draft, land, { ...bite, angle, first: k === 0, of: bites.length }));
  for (const tool of used) draft.unset(tool);
  measureTaper(draft, land, angle);
  return null;
}

/** The slope by which the descending tool gets to its end of the cone: with the carriage, before the compound is swung. */
function roughEntry(draft: HoldingDraft, land: Land, entry: Entry): void {
  const { lathe, material } = draft.bench;
  const { tool, d0, d1 } = entry;
  const low = Math.min(d0, d1);
  const passes = Math.ceil((land.blank - low) / lathe.cut.rough);
  const readings = [draft.x(low), draft.z(d0 < d1 ? entry.u0 : entry.u1, null)];
  touch({ draft }, tool);
  draft.add({
    ...entry,
    kind: 'rough',
    segment: land.id,
    passes,
    surface: material.speed.rough.low,
    feed: lathe.feeds.at(-1) ?? null,
    readings,
    say: `Rough a way down into the blank of ${land.id}, each cut begun a little farther from the wall at its large end, to ${list(readings)} in ${passes} ${passes === 1 ? 'cut' : 'cuts'}: no steeper than the ${Math.round(tool.trailingDeg)}° at which the edge of ${tool.id} falls away behind its point. There ${tool.id} begins the taper; what is left of the blank beside the wall comes off with the other tool.`,
  });
}

type Cutting = Bite & { readonly angle: number; readonly first: boolean; readonly of: number };

function cutBite(draft: HoldingDraft, land: Land, bite: Cutting): void {
  const { lathe, material } = draft.bench;
  const { tool, u0, u1, angle } = bite;
  touch({ draft }, tool);
  const [d0, d1] = [diameterAt(land, u0), diameterAt(land, u1)];
  const small = Math.min(d0, d1);
  const end = d0 < d1 ? u0 : u1;
  const station = end === land.u0 ? land.tailFace : end === land.u1 ? land.headFace : null;
  const readings = [draft.x(small), draft.z(end, station)];
  const travel = (u1 - u0) / Math.cos(angle);
  const passes = Math.max(2, Math.ceil((land.blank - small) / lathe.cut.rough) + 1);
  draft.add({
    kind: 'taper',
    u0,
    u1,
    d0,
    d1,
    segment: land.id,
    tool,
    passes,
    surface: material.speed.finish.low,
    across: land.blank,
    readings,
    setting: {
      compound_deg: (angle * 180) / Math.PI,
      compound_travel_mm: travel / 1e9,
      infeeds_mm: Array.from({ length: passes }, () => (land.blank - small) / passes / 1e9),
    },
    say: sentence(draft, land, bite, { small, travel, at: list(readings.slice(1)) }),
  });
}

function sentence(
  draft: HoldingDraft,
  land: Land,
  { angle, first, of }: Cutting,
  { small, travel, at }: { small: number; travel: number; at: string },
): string {
  const { lathe } = draft.bench;
  const way = land.d0 < land.d1 ? 'backs away from' : 'closes in on';
  const set = first
    ? `Swing the compound to ${((angle * 180) / Math.PI).toFixed(2)}° from the lathe axis, so that the tool ${way} the axis as it goes toward the headstock;`
    : 'The compound stays at its angle: wind it back to its start mark;';
  const parts = of > 1 ? ` This is one of ${of} bites at one angle: they must meet without a step.` : '';
  return `${set} lock the carriage with the tool at ${at}, brush layout fluid on the blank and feed the compound ${size(travel, lathe)}. Cut until the small end is ${fineSize(small, lathe)}.${parts} A band of fluid left at the large end means the angle is too steep; the small end still large when the cut reaches the large end, too shallow.`;
}

/** Two diameters a known way apart tell the angle: they differ by 2 s tan α. */
function measureTaper(draft: HoldingDraft, land: Land, angle: number): void {
  const { lathe } = draft.bench;
  const small = Math.min(land.d0, land.d1);
  const end = land.d0 < land.d1 ? land.u0 : land.u1;
  const long = (land.u1 - land.u0) * 0.8;
  const steps = lathe.unit === 'mm' ? [50e9, 20e9, 10e9, 5e9, 2e9] : [50.8e9, 25.4e9, 12.7e9, 6.35e9];
  const apart = steps.find((step) => step <= long) ?? long;
  draft.add({
    kind: 'measure',
    u0: end,
    u1: end,
    d0: small,
    segment: land.id,
    readings: [draft.x(small)],
    say: `Stop and measure the small end: ${fineSize(small, lathe)}. Two diameters ${size(apart, lathe)} apart along the axis must differ by ${fineSize(2 * apart * Math.tan(angle), lathe)}. Try the mate with a little fluid where there is one. Set the compound back.`,
  });
}
