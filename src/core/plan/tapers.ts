import { roomWanted } from './billet.ts';
import type { Land } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { turnTool } from './tool-choice.ts';
import { list, size } from './words.ts';

/**
 * Cuts a taper with the compound swung to half the included angle, the carriage locked. The tool is the one that
 * climbs the cone toward its large end, or, where a shoulder stands over the small end, the one that runs down into it.
 *
 * Travel = L / cos α. The blank stands at the large diameter.
 * @returns Why it cannot be done, or null.
 */
export function cutTaper(draft: HoldingDraft, i: number): string | null {
  const land = draft.work.lands[i];
  if (!land) return null;
  const { lathe, material } = draft.bench;
  const length = land.u1 - land.u0;
  const angle = Math.atan(Math.abs(land.d1 - land.d0) / 2 / length);
  const travel = length / Math.cos(angle);
  if (lathe.compoundTravel !== null && travel > lathe.compoundTravel)
    return `${land.id} needs ${size(travel, lathe)} of compound travel, more than the lathe has`;
  const smallAtTail = land.d0 < land.d1;
  const walled = wallOverSmallEnd(draft, i, land);
  const hand = smallAtTail !== walled ? 'right' : 'left';
  const tool = turnTool(lathe, hand);
  const degrees = (angle * 180) / Math.PI;
  if (!tool) return `the lathe file has no ${hand}-hand turning tool for ${land.id}`;
  if (walled && degrees >= tool.trailingDeg)
    return `${land.id} is steeper than the trailing edge of ${tool.id}`;
  const behind = hand === 'right' ? ('tail' as const) : ('head' as const);
  const tip = hand === 'right' ? { u: land.u0, d: land.d0 } : { u: land.u1, d: land.d1 };
  const room = roomWanted(draft.pieces, tip, behind, {
    trailingDeg: tool.trailingDeg,
    slack: lathe.cut.allowance,
  });
  if (room > 0) return `${land.id} lies between shoulders where ${tool.id} has no room behind it`;
  draft.unset(tool);
  touch({ draft }, tool);
  const small = Math.min(land.d0, land.d1);
  const end = smallAtTail ? land.u0 : land.u1;
  const readings = [draft.x(small), draft.z(end, smallAtTail ? land.tailFace : land.headFace)];
  const passes = Math.max(2, Math.ceil((land.blank - small) / lathe.cut.rough) + 1);
  const infeeds = Array.from({ length: passes }, () => (land.blank - small) / passes / 1e9);
  draft.add({
    kind: 'taper',
    u0: land.u0,
    u1: land.u1,
    d0: land.d0,
    d1: land.d1,
    segment: land.id,
    tool,
    passes,
    surface: material.speed.finish.low,
    readings,
    setting: { compound_deg: degrees, compound_travel_mm: travel / 1e9, infeeds_mm: infeeds },
    say: `Swing the compound to ${degrees.toFixed(2)}° from the lathe axis, lock the carriage with the tool at ${list(readings.slice(1))}, brush layout fluid on the blank and feed the compound ${size(travel, lathe)}. Cut until the small end is ${size(small, lathe)}. A band of fluid left at the large end means the angle is too steep; the small end still large when the cut reaches the large end, too shallow.`,
  });
  // The compound is swung back: the tool's setting is lost.
  draft.unset(tool);
  draft.add({
    kind: 'measure',
    u0: end,
    u1: end,
    d0: small,
    segment: land.id,
    readings: [draft.x(small)],
    say: `Stop and measure the small end: ${size(small, lathe)}. Try the mate with a little fluid where there is one. Set the compound back.`,
  });
  return null;
}

function wallOverSmallEnd(draft: HoldingDraft, i: number, land: Land): boolean {
  const { lands } = draft.work;
  if (land.d0 < land.d1) return (lands[i - 1]?.d1 ?? 0) > land.d0;
  return (lands[i + 1]?.d0 ?? 0) > land.d1;
}
