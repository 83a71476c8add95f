import type { Outline, OutlineSegment } from '../outline/types.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { type BladeTool, bladeReach } from './tool-choice.ts';
import { size } from './words.ts';

/**
 * What no tool of the lathe file can make however the work is held: grooves and undercuts that are narrower than every
 * blade, or deeper than one that goes in reaches. Each says which tool would do it. Code `no-tool`.
 */
export function beyondTools(outline: Outline, lathe: ResolvedLathe): Problem[] {
  const blades = lathe.tools.filter((t): t is BladeTool => t.kind === 'blade');
  return [...grooves(outline, lathe, blades), ...undercuts(outline, lathe, blades)];
}

function grooves(outline: Outline, lathe: ResolvedLathe, blades: readonly BladeTool[]): Problem[] {
  return outline.segments.flatMap((s, i) => {
    const [before, after] = [outline.segments[i - 1], outline.segments[i + 1]];
    if (!before || !after || s.form === 'taper' || s.keepsSkin) return [];
    const d = s.d0;
    if (before.d1 <= d || after.d0 <= d) return [];
    return unreachable(s, Math.min(before.d1, after.d0) - d, lathe, blades);
  });
}

/** @param walls - Height on the diameter of the lower of its two walls. */
function unreachable(
  s: OutlineSegment,
  walls: number,
  lathe: ResolvedLathe,
  blades: readonly BladeTool[],
): Problem[] {
  const [width, depth] = [s.z1 - s.z0, walls / 2];
  const narrow = blades.filter((b) => b.width <= width);
  if (narrow.some((b) => bladeReach(b) >= depth)) return [];
  const widest = Math.max(0, ...narrow.map(bladeReach));
  const short = narrow.length
    ? `the blades that go in reach ${size(widest, lathe)}`
    : 'every blade in the lathe file is wider';
  return [
    {
      code: 'no-tool',
      where: s.id,
      say: `${s.id} is a groove ${size(width, lathe)} wide and ${size(depth, lathe)} deep, and ${short}: a blade no wider than that, reaching as deep, would make it (no thinner than a tenth of its depth).`,
      facts: { width_mm: width / 1e9, depth_mm: depth / 1e9 },
    },
  ];
}

function undercuts(outline: Outline, lathe: ResolvedLathe, blades: readonly BladeTool[]): Problem[] {
  return outline.edges.flatMap((edge) => {
    const width = edge.z1 - edge.z0;
    if (edge.form !== 'undercut' || blades.some((b) => b.width <= width)) return [];
    if (lathe.tools.some((t) => t.kind === 'form' && t.nose <= width)) return [];
    return [
      {
        code: 'no-tool',
        where: edge.id,
        say: `The undercut ${edge.id} is ${size(width, lathe)} wide, narrower than every blade in the lathe file: a blade of that width, or a form tool, would make it.`,
        facts: { width_mm: width / 1e9 },
      },
    ];
  });
}
