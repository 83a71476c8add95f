import { pm } from '../lengths/length.ts';
import type { OutlineHole } from '../outline/types.ts';
import { centreDrillForWork } from '../standards/centre-drills.ts';
import { drillAtOrUnder, drillName } from '../standards/drills.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { quillReading } from './readings.ts';
import { list, size } from './words.ts';

/** Spots the end for the first drill; the spot stays inside what the drill takes. */
export function spot(draft: HoldingDraft, hole: OutlineHole): void {
  const drill = centreDrillForWork(hole.diameter, draft.bench.lathe.unit);
  const d = Math.min(drill.mouth, Math.floor(hole.diameter * 0.8));
  const u = draft.pieces[0]?.u0 ?? 0;
  draft.add({
    kind: 'centre-drill',
    u0: u,
    u1: u + Math.min(d, hole.depth ?? d),
    d0: d,
    inside: true,
    surface: draft.bench.material.speed.drill.low,
    setting: { centre_drill: `${drill.designation} centre drill` },
    say: `Spot the end with the ${drill.designation} centre drill, no wider than ${size(d, draft.bench.lathe)}, so that the drill starts true.`,
  });
}

/**
 * Drills a hole, and bores or taps it where it asks for that.
 *
 * @param through - Where a through hole ends, in u: past the far end, waste included.
 * @param open - Diameter that earlier drills have opened.
 */
export function drillHole(
  draft: HoldingDraft,
  hole: OutlineHole,
  through: number,
  open: number,
): string | null {
  const end = hole.depth ?? through;
  const { lathe } = draft.bench;
  if (hole.form === 'bore') return bore(draft, hole, end, open);
  drill(draft, hole, hole.diameter, end, hole.toolName);
  if (hole.form === 'tap' && hole.thread && hole.threadDepth !== null) {
    const nominal = hole.thread.nominal;
    draft.add({
      kind: 'tap',
      u0: draft.pieces[0]?.u0 ?? 0,
      u1: hole.threadDepth,
      d0: nominal,
      makes: hole.id,
      inside: true,
      handTurned: true,
      readings: [quillReading(hole.threadDepth, lathe)],
      setting: { tap: hole.thread.designation, pitch_mm: hole.thread.pitch / 1e9 },
      say: `Countersink the mouth lightly, then tap ${hole.thread.designation}, ${size(hole.threadDepth, lathe)} of full thread, the spindle turned by hand and the tap kept true by the tailstock; ${draft.bench.material.oil}; back it off to break the chip.`,
    });
  }
  return null;
}

function drill(draft: HoldingDraft, hole: OutlineHole, d: number, end: number, name: string): void {
  const { lathe, material } = draft.bench;
  const from = draft.pieces[0]?.u0 ?? 0;
  const pecks = pecksFor(end - from, d);
  const readings = [quillReading(pm(end), lathe)];
  const quill = lathe.quillTravel !== null && end - from > lathe.quillTravel;
  draft.add({
    kind: 'drill',
    u0: from,
    u1: end,
    d0: d,
    makes: hole.id,
    inside: true,
    passes: pecks.length,
    surface: material.speed.drill.low,
    readings,
    setting: { drill: name, pecks_mm: pecks },
    say: `Drill ${name} ${size(end, lathe)} deep from the finished face (${list(readings)})${pecks.length > 1 ? ` in ${pecks.length} pecks, clearing the flutes each time` : ''}; ${material.oil}.${quill ? ' Deeper than the quill travels: move the tailstock up once, spindle stopped.' : ''}`,
  });
}

/**
 * Depth of each peck in mm: three diameters first, then one and a half, one beyond three and a half of them, half
 * beyond five (common practice, no source).
 */
export function pecksFor(depth: number, d: number): number[] {
  const pecks: number[] = [];
  let at = 0;
  while (at < depth - 1) {
    const deep = at / d;
    const step = deep === 0 ? 3 * d : deep < 3.5 ? 1.5 * d : deep < 5 ? d : 0.5 * d;
    const reach = at + Math.max(step, 500_000_000);
    // A last scrape under a quarter of a diameter is taken with the peck before it.
    const next = depth - reach < d / 4 ? depth : reach;
    pecks.push((next - at) / 1e9);
    at = next;
  }
  return pecks;
}

function bore(draft: HoldingDraft, hole: OutlineHole, end: number, open: number): string | null {
  const { lathe, material } = draft.bench;
  const tool = lathe.tools.find((t) => t.kind === 'bore' && t.minBore < hole.diameter && t.reach >= end);
  if (!tool || tool.kind !== 'bore')
    return `no boring tool in the lathe file goes into a bore of ${size(hole.diameter, lathe)}, ${size(end, lathe)} deep`;
  const under = drillAtOrUnder(pm(hole.diameter - 500_000_000));
  const pilot = Math.max(under?.diameter ?? 0, open);
  if (pilot < tool.minBore) return `no drill opens ${hole.id} for the boring tool`;
  if (pilot > open) drill(draft, hole, pilot, end, drillName(pm(pilot), lathe.unit));
  touch({ draft }, tool);
  const readings = [draft.x(hole.diameter, true), draft.z(end, null)];
  draft.add({
    kind: 'bore',
    u0: draft.pieces[0]?.u0 ?? 0,
    u1: end,
    d0: hole.diameter,
    makes: hole.id,
    tool,
    inside: true,
    passes: Math.max(2, Math.ceil((hole.diameter - pilot) / lathe.cut.finish)),
    surface: material.speed.finish.low,
    feed: lathe.feeds[0] ?? null,
    readings,
    say: `Bore to ${list(readings)}: light cuts, measure before the last, and let the tool pass once more at the same setting.`,
  });
  return null;
}
