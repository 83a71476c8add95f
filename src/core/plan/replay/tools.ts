import type { ResolvedTool } from '../../part/resolved.ts';
import type { Problem } from '../../problem.ts';
import type { Cut, CutKind } from '../types.ts';
import { flaw, inMm } from './flaw.ts';
import { insideAt } from '../bar.ts';
import { freeEnd } from './scene.ts';
import type { Held, Scene, Step } from './scene.ts';

/** Which kinds of tool may do which kind of cut, and whether it may be done without one of the tool list (by hand). */
const MAY: Partial<
  Record<CutKind, { readonly kinds: readonly ResolvedTool['kind'][]; readonly bare: boolean }>
> = {
  face: { kinds: ['turn', 'blade'], bare: false },
  rough: { kinds: ['turn', 'blade'], bare: false },
  finish: { kinds: ['turn', 'blade'], bare: false },
  spring: { kinds: ['turn', 'blade', 'bore'], bare: false },
  taper: { kinds: ['turn', 'bore'], bare: false },
  groove: { kinds: ['blade'], bare: false },
  undercut: { kinds: ['blade', 'turn', 'form'], bare: false },
  'part-off': { kinds: ['blade'], bare: false },
  fillet: { kinds: ['turn', 'form'], bare: true },
  chamfer: { kinds: ['chamfer', 'turn', 'form', 'bore'], bare: true },
  bore: { kinds: ['bore'], bare: true },
  thread: { kinds: ['thread'], bare: true },
  drill: { kinds: [], bare: true },
  'centre-drill': { kinds: [], bare: true },
  tap: { kinds: [], bare: true },
};

/**
 * Tools as such. Codes: `no-such-tool`, `wrong-tool` (a kind that cannot make this cut, or none where one is needed),
 * `not-touched-off` (in this holding, before its first cut), `chamfer-angle`, `compound-angle`, `compound-travel`,
 * `bore-tool` (too thick for the hole, or too short).
 */
export function toolFlaws(scene: Scene): Problem[] {
  return scene.held.flatMap((held) => [
    ...held.steps.flatMap((s) => useFlaws(scene, s)),
    ...touchFlaws(held),
  ]);
}

function useFlaws(scene: Scene, step: Step): Problem[] {
  const { cut, where } = step;
  const tool = cut.tool === null ? null : scene.tools.get(cut.tool);
  if (tool === undefined)
    return [flaw('no-such-tool', where, `The lathe has no tool ${String(cut.tool)}, which ${where} wants.`)];
  const may = MAY[cut.kind];
  if (!may) return [];
  if (tool === null ? !may.bare : !may.kinds.includes(tool.kind))
    return [
      flaw(
        'wrong-tool',
        where,
        `A ${cut.kind} is not made with ${tool ? `a ${tool.kind} tool` : 'no tool'}.`,
      ),
    ];
  return [
    ...(cut.kind === 'chamfer' && !step.inside ? chamferFlaws(step, tool) : []),
    ...(cut.kind === 'taper' && !step.inside ? compoundFlaws(scene, step) : []),
    ...(tool?.kind === 'bore' ? boreFlaws(step, tool) : []),
  ];
}

/** A tool is set anew when it first comes to the work, and again when the compound under it is swung or swung back. */
type Setting = 'fresh' | 'straight' | 'swung';

function touchFlaws(held: Held): Problem[] {
  const set = new Map<string, Setting>();
  return held.steps.flatMap(({ cut, where }) => {
    if (cut.tool === null) return [];
    if (cut.kind === 'touch') set.set(cut.tool, 'fresh');
    if (MAY[cut.kind] === undefined) return [];
    const wants = cut.kind === 'taper' && cut.setting?.compound_deg !== undefined ? 'swung' : 'straight';
    const is = set.get(cut.tool);
    set.set(cut.tool, wants);
    return is === 'fresh' || is === wants
      ? []
      : [
          flaw(
            'not-touched-off',
            where,
            `${cut.tool} was not touched off in ${held.where} since it was set for ${where}.`,
          ),
        ];
  });
}

/** Half angle of the cone that a cut leaves, in degrees. */
export function slopeDeg({ curve }: Step): number {
  if (!curve || curve.z0 === curve.z1) return 0;
  return (Math.atan2(Math.abs(curve.d1 - curve.d0) / 2, curve.z1 - curve.z0) * 180) / Math.PI;
}

function chamferFlaws(step: Step, tool: ResolvedTool | null): Problem[] {
  if (!tool || tool.kind === 'form') return [];
  const set = tool.kind === 'chamfer' ? tool.angleDeg : step.cut.setting?.compound_deg;
  const wanted = slopeDeg(step);
  // A chamfer tool stands either way round; 0.1° is finer than anyone sets one.
  const fits = set !== undefined && [set, 90 - set].some((deg) => Math.abs(deg - wanted) < 0.1);
  return fits
    ? []
    : [
        flaw(
          'chamfer-angle',
          step.where,
          `${step.where} makes a chamfer of ${wanted.toFixed(2)}°, which ${tool.id} does not.`,
        ),
      ];
}

function compoundFlaws({ lathe, outline }: Scene, step: Step): Problem[] {
  const { cut, where } = step;
  const segment = outline.segments.find((s) => s.id === cut.segment);
  const wanted = segment && segment.form === 'taper' ? Math.abs(segment.halfAngleDeg) : slopeDeg(step);
  const set = cut.setting?.compound_deg;
  const travel = cut.setting?.compound_travel_mm;
  const out: Problem[] = [];
  if (set === undefined || !(Math.abs(Math.abs(set) - wanted) <= 0.01))
    out.push(
      flaw(
        'compound-angle',
        where,
        `The compound of ${where} wants ${wanted.toFixed(3)}°, not ${set ?? 'nothing'}.`,
      ),
    );
  const need = (step.z1 - step.z0) / Math.cos((wanted * Math.PI) / 180);
  if (
    travel === undefined ||
    !(travel * 1e9 >= need - 1e7) ||
    (lathe.compoundTravel !== null && need > lathe.compoundTravel)
  )
    out.push(flaw('compound-travel', where, `The compound has to travel ${inMm(need)} in ${where}.`));
  return out;
}

function boreFlaws(step: Step, tool: Extract<ResolvedTool, { kind: 'bore' }>): Problem[] {
  const { before, held, where } = step;
  if (!step.inside) return [flaw('wrong-tool', where, `${where} works outside with a boring tool.`)];
  const end = freeEnd(before, held.free);
  const [l, r] = insideAt(before, end);
  const hole = (held.free === 'left' ? r : l) ?? 0;
  const deep = Math.abs((held.free === 'left' ? step.z1 : step.z0) - end);
  return hole < tool.minBore || deep > tool.reach
    ? [flaw('bore-tool', where, `${tool.id} does not go into a hole of ${inMm(hole)}, ${inMm(deep)} deep.`)]
    : [];
}

/** The tool of a cut, null where it has none or the lathe knows none of that name. */
export const toolOf = (scene: Scene, cut: Cut): ResolvedTool | null =>
  cut.tool === null ? null : (scene.tools.get(cut.tool) ?? null);
