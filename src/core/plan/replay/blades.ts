import { minus } from '../../lengths/length.ts';
import type { ResolvedTool } from '../../part/resolved.ts';
import type { Problem } from '../../problem.ts';
import { between } from '../profile.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene, Step } from './scene.ts';
import { toolOf } from './tools.ts';

const OVERHANG_WIDTHS = 10;

type Blade = Extract<ResolvedTool, { kind: 'blade' }>;

/**
 * What a blade can do. Codes: `blade-too-wide` (wider than its groove or undercut), `blade-too-short` (deeper than
 * it reaches), `blade-overhang` (deeper than ten widths), `kerf-width` (a kerf is as wide as the blade),
 * `too-few-plunges`, `groove-walls` (a groove runs from wall to wall of its segment, level at the bottom).
 */
export function bladeFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => {
    const tool = toolOf(scene, step.cut);
    const shape = step.cut.kind === 'groove' ? grooveFlaws(scene, step) : [];
    return tool?.kind === 'blade' && step.curve
      ? [...shape, ...widthFlaws(step, tool), ...depthFlaws(step, tool)]
      : shape;
  });
}

function grooveFlaws({ outline }: Scene, step: Step): Problem[] {
  const { cut, where, z0, z1 } = step;
  const segment = outline.segments.find((s) => s.id === cut.segment);
  const level = cut.d0_mm === cut.d1_mm;
  return segment && segment.z0 === z0 && segment.z1 === z1 && level
    ? []
    : [flaw('groove-walls', where, `${where} does not run from wall to wall of its groove.`)];
}

function widthFlaws(step: Step, blade: Blade): Problem[] {
  const { cut, where, z0, z1 } = step;
  const wide = minus(z1, z0);
  if (cut.kind === 'part-off')
    return wide === blade.width
      ? []
      : [
          flaw(
            'kerf-width',
            where,
            `The kerf of ${where} is ${inMm(wide)}; the blade is ${inMm(blade.width)} wide.`,
          ),
        ];
  if (cut.kind === 'face') return [];
  if (blade.width > wide)
    return [flaw('blade-too-wide', where, `A blade of ${inMm(blade.width)} does not go into ${inMm(wide)}.`)];
  return cut.kind === 'groove' && cut.passes * blade.width < wide
    ? [
        flaw(
          'too-few-plunges',
          where,
          `${cut.passes} plunges of ${inMm(blade.width)} do not clear ${inMm(wide)}.`,
        ),
      ]
    : [];
}

function depthFlaws(step: Step, blade: Blade): Problem[] {
  const { curve, before, where, cut } = step;
  if (!curve || cut.kind === 'face') return [];
  const under = between(before.outside, curve.z0, curve.z1);
  // A groove is as deep as the walls beside it, cleared or not.
  const beside = before.outside.filter((p) => p.z1 === curve.z0 || p.z0 === curve.z1);
  const high = Math.max(
    0,
    ...[...under, ...(cut.kind === 'groove' ? beside : [])].map((p) => Math.max(p.d0, p.d1)),
  );
  const deep = (high - Math.min(curve.d0, curve.d1)) / 2;
  const out: Problem[] = [];
  if (deep > blade.reach)
    out.push(
      flaw(
        'blade-too-short',
        where,
        `${blade.id} reaches ${inMm(blade.reach)}; ${where} goes ${inMm(deep)} deep.`,
      ),
    );
  if (deep > OVERHANG_WIDTHS * blade.width)
    out.push(
      flaw(
        'blade-overhang',
        where,
        `${where} hangs ${blade.id} out by more than ${OVERHANG_WIDTHS} of its widths.`,
      ),
    );
  return out;
}
