import { roomWanted } from './billet.ts';
import type { Land } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { type TurnTool, turnTool } from './tool-choice.ts';
import { list, size } from './words.ts';

/**
 * Cuts a taper with the compound swung to half the included angle, the carriage locked.
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
  const degrees = (angle * 180) / Math.PI;
  const tool = toolFor(draft, land, degrees);
  if (!tool)
    return `no turning tool in the lathe file reaches ${land.id} between what stands on both sides of it`;
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
    say: `Swing the compound to ${degrees.toFixed(2)}° from the lathe axis, so that the tool ${smallAtTail ? 'backs away from' : 'closes in on'} the axis as it goes toward the headstock; lock the carriage with the tool at ${list(readings.slice(1))}, brush layout fluid on the blank and feed the compound ${size(travel, lathe)}. Cut until the small end is ${size(small, lathe)}. A band of fluid left at the large end means the angle is too steep; the small end still large when the cut reaches the large end, too shallow.`,
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

/**
 * The tool that climbs the cone toward its large end, or the other hand where the cone is shallower than its trailing
 * edge; either needs room behind it.
 */
function toolFor(draft: HoldingDraft, land: Land, degrees: number): TurnTool | null {
  const { lathe } = draft.bench;
  const climbing = land.d0 < land.d1 ? 'right' : 'left';
  for (const hand of climbing === 'right' ? (['right', 'left'] as const) : (['left', 'right'] as const)) {
    const tool = turnTool(lathe, hand);
    if (!tool || (hand !== climbing && degrees >= tool.trailingDeg)) continue;
    const tip = hand === 'right' ? { u: land.u0, d: land.d0 } : { u: land.u1, d: land.d1 };
    const edge = { trailingDeg: tool.trailingDeg, slack: lathe.cut.allowance };
    if (roomWanted(draft.pieces, tip, hand === 'right' ? 'tail' : 'head', edge) === 0) return tool;
  }
  return null;
}
