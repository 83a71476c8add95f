import type { OutlineSegment } from '../../outline/types.ts';
import type { Problem } from '../../problem.ts';
import { between, diameterOn } from '../profile.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene, Step } from './scene.ts';
import { toolOf } from './tools.ts';

/**
 * How a size is reached. Codes: `rough-pass-too-deep`, `finish-pass-too-deep` (more off the diameter in a pass than
 * the lathe file allows), `one-finish-pass` (a journal or seat wants two), `passes-unequal`, `no-spring-pass`,
 * `spring-cuts` (metal is
 * left for it to take), `no-measure` (after the first finishing pass, and after the last), `measure-names` (a measure that names no
 * segment), `finish-not-face-to-face`.
 */
export function finishFlaws(scene: Scene): Problem[] {
  return [
    ...scene.steps.flatMap((s) => depthFlaws(scene, s)),
    ...scene.steps.flatMap((s) => spanFlaws(scene, s)),
    ...scene.steps.flatMap((s) => measureNames(scene, s)),
    ...scene.steps.filter((s) => s.cut.kind === 'spring' && takenOff(s) > 0).map(springCuts),
    ...scene.outline.segments.flatMap((s) => journalFlaws(scene, s)),
  ];
}

/** Metal taken off the diameter by a level cut, over the longest stretch it runs along: steps at its ends are walls. */
function takenOff({ curve, before }: Step): number {
  if (!curve) return 0;
  const under = between(before.outside, curve.z0, curve.z1);
  const longest = [...under].sort((a, b) => b.z1 - b.z0 - (a.z1 - a.z0))[0];
  if (!longest) return 0;
  return Math.max(longest.d0 - diameterOn(curve, longest.z0), longest.d1 - diameterOn(curve, longest.z1));
}

function depthFlaws(scene: Scene, step: Step): Problem[] {
  const { cut, where } = step;
  if (step.inside || toolOf(scene, cut)?.kind === 'blade') return [];
  if (cut.kind !== 'rough' && cut.kind !== 'finish') return [];
  const limit = cut.kind === 'rough' ? scene.lathe.cut.rough : scene.lathe.cut.finish;
  const each = takenOff(step) / Math.max(1, cut.passes);
  return each > limit + cut.passes
    ? [
        flaw(
          `${cut.kind}-pass-too-deep`,
          where,
          `${where} takes ${inMm(each)} off the diameter in a pass; ${inMm(limit)} is the most.`,
        ),
      ]
    : [];
}

/** A finish runs from face to face of its segment, short of its fillets, and out over the end of the part at most. */
function spanFlaws({ outline }: Scene, step: Step): Problem[] {
  const { cut, z0, z1, where } = step;
  if (cut.kind !== 'finish' || step.inside) return [];
  const segment = outline.segments.find((s) => s.id === cut.segment);
  if (!segment) return [];
  const fillets = outline.edges.filter((e) => e.segment === segment.id && e.form === 'fillet');
  const from = fillets.find((e) => e.z0 === segment.z0)?.z1 ?? segment.z0;
  const to = fillets.find((e) => e.z1 === segment.z1)?.z0 ?? segment.z1;
  const starts = z0 === from || (from === 0 && z0 < 0);
  const stops = z1 === to || (to === outline.length && z1 > to);
  return starts && stops
    ? []
    : [flaw('finish-not-face-to-face', where, `${where} does not finish ${segment.id} from face to face.`)];
}

const springCuts = ({ where }: Step): Problem =>
  flaw(
    'spring-cuts',
    where,
    `The spring pass of ${where} has metal to take: no pass at its setting went before it.`,
  );

function measureNames({ outline }: Scene, { cut, where }: Step): Problem[] {
  if (cut.kind !== 'measure' || outline.segments.some((s) => s.id === cut.segment)) return [];
  return [flaw('measure-names', where, `${where} does not say which segment is measured.`)];
}

/** Test cut, spring pass, measure, the rest in an equal cut, spring pass, measure. */
function journalFlaws(scene: Scene, segment: OutlineSegment): Problem[] {
  const fine = segment.role === 'journal' || segment.role === 'seat';
  if (!fine || segment.form !== 'cylinder' || segment.keepsSkin) return [];
  const own = scene.steps.filter((s) => s.cut.segment === segment.id && !s.inside);
  const passes = own.filter((s) => s.cut.kind === 'finish');
  const [first, last] = [passes[0], passes.at(-1)];
  if (!first || !last || first === last)
    return [
      flaw(
        'one-finish-pass',
        segment.id,
        `The ${segment.role} ${segment.id} wants at least two finishing cuts.`,
      ),
    ];
  return [
    ...unequal(scene, segment, passes),
    ...passes.flatMap((pass, i) => followed(own, pass, passes[i + 1], pass === first || pass === last)),
  ];
}

function unequal({ lathe }: Scene, segment: OutlineSegment, passes: readonly Step[]): Problem[] {
  const depths = passes.map((p) => takenOff(p) / Math.max(1, p.cut.passes));
  const spread = Math.max(...depths) - Math.min(...depths);
  return spread > 2 * lathe.readout.resolution
    ? [flaw('passes-unequal', segment.id, `The finishing cuts of ${segment.id} differ by ${inMm(spread)}.`)]
    : [];
}

/** After a finishing pass: a spring pass at the same setting, then, where it decides the size, a measure. */
function followed(own: readonly Step[], pass: Step, next: Step | undefined, measured: boolean): Problem[] {
  const until = next?.cut.n ?? Infinity;
  const after = own.filter((s) => s.cut.n > pass.cut.n && s.cut.n < until);
  const spring = after.find(
    (s) => s.cut.kind === 'spring' && s.cut.d0_mm === pass.cut.d0_mm && s.cut.tool === pass.cut.tool,
  );
  if (!spring)
    return [flaw('no-spring-pass', pass.where, `No spring pass at the same setting follows ${pass.where}.`)];
  const stop = after.some((s) => s.cut.kind === 'measure' && s.cut.n > spring.cut.n);
  return measured && !stop
    ? [flaw('no-measure', pass.where, `${pass.where} is not measured before the next cut on it.`)]
    : [];
}
