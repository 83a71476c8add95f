import { pm } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';
import { diametersAt } from '../profile.ts';
import type { Mark } from '../types.ts';
import { ruleLength, showsValue } from './counts.ts';
import { flaw, inMm } from './flaw.ts';
import { at } from './scene.ts';
import type { Held, Scene, Step } from './scene.ts';

/**
 * Scribe lines. Codes: `mark-station` (the station does not lie there), `mark-reading`, `mark-text`, `mark-from`
 * (what the rule stands against does not exist), `mark-rule` (the rule's mark is not the nearest 1/64 in or 0.5 mm),
 * `mark-before` (no such cut in this holding), `mark-on-air` (no metal to scribe), `mark-lost` (the cut it is
 * scribed for takes it away; a line that bounds no waste is for off the lathe, so that no later cut may either),
 * `mark-waste` (the side said to be waste is not), `mark-gripped` (it is in the holder, or behind the grip).
 */
export function markFlaws(scene: Scene): Problem[] {
  return scene.held.flatMap((held) =>
    held.holding.marks.flatMap((mark) => [
      ...placeFlaws(scene, held, mark),
      ...ruleFlaws(scene, held, mark),
      ...timeFlaws(scene, held, mark),
      ...gripFlaws(held, mark),
    ]),
  );
}

function placeFlaws(scene: Scene, { holding, where }: Held, mark: Mark): Problem[] {
  const out: Problem[] = [];
  const z = at(mark.z_mm);
  if (scene.outline.stations.get(mark.station) !== z)
    out.push(
      flaw(
        'mark-station',
        where,
        `${mark.station} does not lie at ${mark.z_mm} mm, where ${where} scribes it.`,
      ),
    );
  if (Math.abs(at(holding.zero_z_mm + holding.z_sign * mark.reading_mm) - z) > 2)
    out.push(
      flaw(
        'mark-reading',
        where,
        `The reading of the line ${mark.station} in ${where} does not stand at ${mark.z_mm} mm.`,
      ),
    );
  if (!showsValue(mark.text, mark.reading_mm, scene.lathe, 'nearest'))
    out.push(
      flaw('mark-text', where, `“${mark.text}” is not ${mark.reading_mm} mm as the readout shows it.`),
    );
  return out;
}

function ruleFlaws({ outline, lathe }: Scene, { where }: Held, mark: Mark): Problem[] {
  const from = outline.stations.get(mark.from);
  if (from === undefined)
    return [flaw('mark-from', where, `There is no station ${mark.from} for the rule to stand against.`)];
  if (mark.rule_text === null) return [];
  const shown = ruleLength(mark.rule_text, lathe.unit);
  const away = Math.abs(at(mark.z_mm) - from);
  const half = (lathe.unit === 'in' ? 396_875_000 : 500_000_000) / 2;
  return shown !== null && Math.abs(Math.abs(shown) - away) <= half + 1
    ? []
    : [
        flaw(
          'mark-rule',
          where,
          `“${mark.rule_text}” on the rule is not ${inMm(away)} from ${mark.from} to ${mark.station}.`,
        ),
      ];
}

function timeFlaws({ target, steps }: Scene, held: Held, mark: Mark): Problem[] {
  const step = held.steps.find((s) => s.cut.n === mark.before);
  const { where } = held;
  if (!step)
    return [flaw('mark-before', where, `${where} has no cut ${mark.before} to scribe ${mark.station} for.`)];
  const z = at(mark.z_mm);
  const [left, right] = diametersAt(step.before.outside, z);
  const out: Problem[] = [];
  if (!left && !right)
    return [flaw('mark-on-air', where, `Ahead of cut ${mark.before} no metal stands at ${mark.station}.`)];
  // A line that bounds no waste is wanted when the work is out of the lathe.
  const later = mark.waste === 'none' ? steps.filter((s) => s.cut.n > mark.before) : [];
  const loser = losesLine(step, z) ? step : later.find((s) => losesLine(s, z) && thinner(s, z));
  if (loser) out.push(flaw('mark-lost', where, `Cut ${loser.cut.n} takes the line ${mark.station} away.`));
  if (mark.waste === 'none') return out;
  const stands = mark.waste === 'left' ? left : right;
  const wanted = diametersAt(target.outside, z)[mark.waste === 'left' ? 0 : 1] ?? 0;
  if (stands === null || stands <= wanted)
    out.push(
      flaw(
        'mark-waste',
        where,
        `To the ${mark.waste} of ${mark.station} nothing is waste ahead of cut ${mark.before}.`,
      ),
    );
  return out;
}

const thinner = ({ before, after }: Step, z: number): boolean => {
  const most = (d: readonly (number | null)[]): number => Math.max(...d.map((side) => side ?? 0));
  return most(diametersAt(after.outside, pm(z))) < most(diametersAt(before.outside, pm(z)));
};

/** No scriber comes to what is in the jaws, the collet or the dog, nor to what is behind them, nor to the very edge. */
function gripFlaws({ grip, toHead, where, holding }: Held, mark: Mark): Problem[] {
  if (!grip) return [];
  const beyondEdge = toHead > 0 ? at(mark.z_mm) - grip.z0 : grip.z1 - at(mark.z_mm);
  return beyondEdge < 0
    ? []
    : [
        flaw(
          'mark-gripped',
          where,
          `${where} scribes ${mark.station} ${inMm(beyondEdge)} inboard of the edge of the ${holding.device === 'centres' ? 'dog' : holding.device}.`,
        ),
      ];
}

function losesLine({ curve, inside }: Step, z: number): boolean {
  return curve !== null && !inside && curve.z0 < z && z < curve.z1;
}
