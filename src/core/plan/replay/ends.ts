import { ZERO } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';
import { removesMetal } from '../bar.ts';
import { flaw } from './flaw.ts';
import { freeEnd } from './scene.ts';
import type { Held, Scene, Step } from './scene.ts';

/**
 * The ends of the work. Codes: `face-not-at-end` (facing elsewhere than from the standing end), `face-figures` (a
 * face leaves a diameter), `end-not-faced`, `cut-after-part-off`, `pip-not-severed`, `part-off-no-stock` (nothing is
 * left to face the end), `part-off-beside` (the kerf is not between the part and the holder), `sever-figures`, `sever-without-part-off`.
 */
export function endFlaws(scene: Scene): Problem[] {
  return [
    ...scene.steps.flatMap(faceFlaws),
    ...scene.held.flatMap((held) => partOffFlaws(scene, held)),
    ...facedFlaws(scene),
  ];
}

function faceFlaws(step: Step): Problem[] {
  const { cut, where, held, before } = step;
  if (cut.kind !== 'face') return [];
  const outer = held.free === 'left' ? step.z0 : step.z1;
  const out: Problem[] = [];
  const end = freeEnd(before, held.free);
  if (held.free === 'left' ? outer > end : outer < end)
    out.push(flaw('face-not-at-end', where, `${where} faces where no free end stands.`));
  if (cut.d0_mm !== 0 || cut.d1_mm !== 0)
    out.push(flaw('face-figures', where, `A face removes everything; ${where} leaves a diameter standing.`));
  return out;
}

function facedFlaws({ steps, outline }: Scene): Problem[] {
  const faced = (side: 'left' | 'right'): boolean =>
    steps.some(
      (s) =>
        s.cut.kind === 'face' &&
        s.held.free === side &&
        (side === 'left' ? s.z1 === ZERO : s.z0 === outline.length),
    );
  const first = outline.segments[0]?.left ?? '';
  const last = outline.segments.at(-1)?.right ?? '';
  const out: Problem[] = [];
  if (!faced('left') && !staysAt(outline, 'first'))
    out.push(flaw('end-not-faced', first, `No step faces the part's left end, ${first}.`));
  if (!faced('right') && !staysAt(outline, 'last'))
    out.push(flaw('end-not-faced', last, `No step faces the part's right end, ${last}.`));
  return out;
}

/** A stub that is to stay stands at this end: its own end is left as it comes. */
const staysAt = ({ kept }: Scene['outline'], end: 'first' | 'last'): boolean =>
  kept?.stubs.some((stub) => stub.end === end) ?? false;

function partOffFlaws(scene: Scene, held: Held): Problem[] {
  const i = held.steps.findIndex((s) => s.cut.kind === 'part-off');
  const off = held.steps[i];
  if (!off) return held.steps.filter((s) => s.cut.kind === 'sever').map(sawnWhole);
  const later = held.steps.slice(i + 1);
  const out = later
    .filter(
      (s) =>
        s.cut.kind !== 'sever' && (removesMetal(s.cut) || s.cut.kind === 'thread' || s.cut.kind === 'tap'),
    )
    .map((s) =>
      flaw(
        'cut-after-part-off',
        s.where,
        `After parting off only sawing may follow, not the ${s.cut.kind} of ${s.where}.`,
      ),
    );
  const pip = (off.cut.d0_mm ?? 0) > 0 || (off.cut.d1_mm ?? 0) > 0;
  if (pip && !later.some((s) => s.cut.kind === 'sever'))
    out.push(
      flaw('pip-not-severed', off.where, `${off.where} leaves a pip that no later step saws through.`),
    );
  return [
    ...out,
    ...kerfFlaws(scene, off),
    ...later.filter((s) => s.cut.kind === 'sever').flatMap(severFlaws),
  ];
}

const sawnWhole = ({ where }: Step): Problem =>
  flaw('sever-without-part-off', where, `${where} severs work that no blade has parted down to a pip.`);

function severFlaws({ cut, where }: Step): Problem[] {
  return cut.d0_mm === 0 && cut.d1_mm === 0
    ? []
    : [flaw('sever-figures', where, `${where} severs the work, yet leaves a diameter standing.`)];
}

function kerfFlaws({ outline }: Scene, off: Step): Problem[] {
  const { z0, z1, where, held } = off;
  const stock = held.toHead > 0 ? z0 - outline.length : -z1;
  if (stock > 0 || (stock === 0 && staysAt(outline, held.toHead > 0 ? 'last' : 'first'))) return [];
  return stock === 0
    ? [
        flaw(
          'part-off-no-stock',
          where,
          `${where} parts off on the finished face and leaves nothing to face there.`,
        ),
      ]
    : [flaw('part-off-beside', where, `The kerf of ${where} does not lie between the part and the holder.`)];
}
