import { ZERO } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';
import { isApart } from '../bar.ts';
import { between } from '../profile.ts';
import { differences, most, rounding, sideBySide } from './compare.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene } from './scene.ts';

/**
 * What is left in the hand at the end against the drawing. Codes: `ends-differ` (the bar does not end where the part
 * does), `outside-differs`, `hole-differs`. Exact to the picometre on cylinders; 1 µm on fillets.
 */
export function resultFlaws(scene: Scene): Problem[] {
  const { final, outline } = scene;
  const out: Problem[] = [];
  if (isApart(final) || final.z0 !== ZERO || final.z1 !== outline.length)
    out.push(
      flaw(
        'ends-differ',
        'result',
        `What is left runs from ${inMm(final.z0)} to ${inMm(final.z1)}; the part is ${inMm(outline.length)} long.`,
      ),
    );
  return [...out, ...outsideFlaws(scene), ...holeFlaws(scene)];
}

function outsideFlaws({ final, target, outline }: Scene): Problem[] {
  const wrong = new Map<string, number>();
  const all = sideBySide(between(final.outside, ZERO, outline.length), target.outside);
  for (const stretch of all) {
    const off = worst(differences(stretch));
    const id = nameAt(outline.segments, stretch.z0);
    if (Math.abs(off) > rounding(stretch.a, stretch.b) && Math.abs(off) > Math.abs(wrong.get(id) ?? 0))
      wrong.set(id, off);
  }
  return [...wrong].map(([id, off]) =>
    flaw('outside-differs', id, `${id} comes out ${inMm(Math.abs(off))} too ${off > 0 ? 'thick' : 'thin'}.`, {
      off_pm: off,
    }),
  );
}

const worst = (all: readonly number[]): number =>
  all.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);

const nameAt = (segments: Scene['outline']['segments'], z: Length): string =>
  segments.find((s) => s.z0 <= z && z < s.z1)?.id ?? 'result';

function holeFlaws({ insideWithoutCentres, target, outline }: Scene): Problem[] {
  const drawn = between(target.inside, ZERO, outline.length);
  const off = sideBySide(insideWithoutCentres, drawn).filter(
    (s) => Math.max(most(1, s), most(-1, s)) > rounding(s.a, s.b),
  );
  const first = off[0];
  return first
    ? [
        flaw('hole-differs', 'result', `From ${inMm(first.z0)} on, the hole is not as drawn.`, {
          z_pm: first.z0,
        }),
      ]
    : [];
}
