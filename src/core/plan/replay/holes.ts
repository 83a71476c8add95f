import { minus } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { OutlineHole } from '../../outline/types.ts';
import type { Problem } from '../../problem.ts';
import { flaw, inMm } from './flaw.ts';
import { freeEnd } from './scene.ts';
import type { Scene, Side, Step } from './scene.ts';

const BORING = new Set(['centre-drill', 'drill', 'bore']);

/**
 * Holes along the axis. Codes: `hole-not-from-end` (it does not begin at the end that stands free),
 * `hole-in-rough-end` (before that end was faced), `drill-without-spot`, `hole-missing` (no step makes it),
 * `hole-differs` (a centre hole of another size), `tap-wrong` (not tapped, before its drilling, or to another depth).
 * Diameters and depths of drilled and bored holes are compared in the result.
 */
export function holeFlaws(scene: Scene): Problem[] {
  return [
    ...scene.steps.flatMap((s) => startFlaws(scene, s)),
    ...scene.outline.holes.flatMap((h) => made(scene, h)),
  ];
}

function startFlaws(scene: Scene, step: Step): Problem[] {
  const { cut, where, held, before } = step;
  if (!BORING.has(cut.kind)) return [];
  const outer = held.free === 'left' ? step.z0 : step.z1;
  const end = freeEnd(before, held.free);
  if (outer !== end)
    return [
      flaw(
        'hole-not-from-end',
        where,
        `The ${cut.kind} of ${where} does not begin at the end that stands free.`,
      ),
    ];
  const earlier = scene.steps.filter((s) => s.cut.n < cut.n && s.held.free === held.free);
  const out: Problem[] = [];
  if (!earlier.some((s) => s.cut.kind === 'face'))
    out.push(flaw('hole-in-rough-end', where, `${where} goes into an end that was not faced.`));
  const spotted = earlier.some((s) => s.cut.kind === 'centre-drill');
  if (cut.kind === 'drill' && !spotted)
    out.push(
      flaw('drill-without-spot', where, `${where} drills where nothing was spotted with a centre drill.`),
    );
  return out;
}

const sideOf = (hole: OutlineHole): Side => (hole.from === 'first' ? 'left' : 'right');

function made(scene: Scene, hole: OutlineHole): Problem[] {
  const own = scene.steps.filter((s) => s.cut.makes === hole.id && s.inside);
  const kinds =
    hole.form === 'centre'
      ? ['centre-drill']
      : hole.form === 'bore'
        ? ['bore', 'drill']
        : ['drill', 'bore', 'tap'];
  if (!own.some((s) => kinds.includes(s.cut.kind)))
    return [flaw('hole-missing', hole.id, `No step makes the hole ${hole.id}.`)];
  if (hole.form === 'centre' && scene.finalMouths[sideOf(hole)] !== hole.diameter)
    return [
      flaw(
        'hole-differs',
        hole.id,
        `At the end the centre hole ${hole.id} is not ${inMm(hole.diameter)} wide.`,
      ),
    ];
  return hole.form === 'tap' ? tapFlaws(scene, hole, own) : [];
}

function tapFlaws(scene: Scene, hole: OutlineHole, own: readonly Step[]): Problem[] {
  const tap = own.find((s) => s.cut.kind === 'tap');
  if (!tap) return [flaw('tap-wrong', hole.id, `The hole ${hole.id} is never tapped.`)];
  const drilled = scene.steps.some(
    (s) => s.cut.n < tap.cut.n && (s.cut.kind === 'drill' || s.cut.kind === 'bore') && s.held.free === sideOf(hole) &&
      s.curve !== null && s.curve.d0 === hole.diameter,
  ); // prettier-ignore
  if (!drilled || tap.held.free !== sideOf(hole))
    return [flaw('tap-wrong', tap.where, `${tap.where} taps where no hole for the tap was drilled.`)];
  const deep = depthOf(tap, scene.outline.length);
  return hole.threadDepth !== null && deep !== hole.threadDepth
    ? [
        flaw(
          'tap-wrong',
          tap.where,
          `${tap.where} taps ${inMm(deep)} deep; drawn are ${inMm(hole.threadDepth)}.`,
        ),
      ]
    : [];
}

/** How deep a step goes below the finished face of the free end. */
export const depthOf = (step: Step, length: Length): Length =>
  step.held.free === 'left' ? step.z1 : minus(length, step.z0);
