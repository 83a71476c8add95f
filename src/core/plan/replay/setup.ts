import { minus, pm } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';
import { diametersAt } from '../profile.ts';
import type { Support } from '../types.ts';
import { flaw, inMm } from './flaw.ts';
import { at, freeEnd } from './scene.ts';
import type { Frame, Held, Scene, Step } from './scene.ts';

/**
 * How a holding is set up. Codes: `stick-out-wrong`, `too-long-for-bed`, `no-drive` (between centres without a
 * faceplate and dog), `support-not-at-hand`, `support-idle` (a
 * step that changes nothing), `steady-nowhere`, `steady-on-rough` (no turned band under it),
 * `z-sign-wrong`, `datum-wrong`, `holding-twice` (two holdings of one id).
 */
export function setupFlaws(scene: Scene): Problem[] {
  const ids = new Set<string>();
  return scene.held.flatMap((held) => {
    const twice = ids.has(held.where);
    ids.add(held.where);
    return [
      ...(twice ? [flaw('holding-twice', held.where, `There are two holdings named ${held.where}.`)] : []),
      ...stickOutFlaws(scene, held),
      ...zeroFlaws(scene, held),
      ...supportFlaws(scene, held),
    ];
  });
}

function stickOutFlaws({ lathe }: Scene, held: Held): Problem[] {
  const { holding, where, bar, grip } = held;
  const long = (): Problem =>
    flaw('too-long-for-bed', where, `The bed takes ${inMm(lathe.betweenCentres)}; ${where} needs more.`);
  if (holding.device === 'centres') {
    const out: Problem[] = [];
    if (!lathe.betweenCentresDrive)
      out.push(flaw('no-drive', where, 'There is no faceplate and dog at hand.'));
    if (holding.stick_out_mm !== null)
      out.push(flaw('stick-out-wrong', where, 'Between centres nothing sticks out of a grip.'));
    if (minus(bar.z1, bar.z0) > lathe.betweenCentres) out.push(long());
    return out;
  }
  if (!grip) return [];
  const edge = held.toHead > 0 ? grip.z0 : grip.z1;
  const stickOut = Math.abs(freeEnd(bar, held.free) - edge);
  const out: Problem[] = [];
  if (holding.stick_out_mm === null || Math.abs(at(holding.stick_out_mm) - stickOut) > 1)
    out.push(
      flaw('stick-out-wrong', where, `From the grip of ${where} to the free end it is ${inMm(stickOut)}.`),
    );
  if (stickOut > lathe.betweenCentres) out.push(long());
  return out;
}

function zeroFlaws({ lathe, outline }: Scene, held: Held): Problem[] {
  const { holding, where } = held;
  const out: Problem[] = [];
  const sign = lathe.readout.zPositive === 'headstock' ? held.toHead : -held.toHead;
  if (holding.z_sign !== sign)
    out.push(
      flaw('z-sign-wrong', where, `The carriage readout of this lathe counts the other way in ${where}.`),
    );
  if (outline.stations.get(holding.datum.station) !== at(holding.zero_z_mm))
    out.push(
      flaw(
        'datum-wrong',
        where,
        `${holding.datum.station} does not lie where the readout of ${where} shows zero.`,
      ),
    );
  return out;
}

/** Everything put up during a holding: at its beginning and by its steps of kind support. */
function supportFlaws(scene: Scene, held: Held): Problem[] {
  const { holding, where } = held;
  const start = at(holding.steady_at_mm ?? 0);
  const first =
    holding.support.includes('steady') && holding.steady_at_mm === null
      ? [flaw('steady-nowhere', where, `${where} does not say where the steady stands.`)]
      : supportAt(scene, holding.support, where, held, start);
  let inPlace = holding.support;
  const later = held.steps.flatMap((s) => {
    if (s.cut.kind !== 'support') return [];
    const idle = sameSupport(inPlace, s.support) && !s.support.includes('steady');
    inPlace = [...s.support];
    const work = { bar: s.before, grip: held.grip };
    return [
      ...(idle
        ? [
            flaw(
              'support-idle',
              s.where,
              `${s.where} puts up what is in place already, or takes away nothing.`,
            ),
          ]
        : []),
      ...supportAt(scene, s.cut.support, s.where, work, s.z0),
    ];
  });
  return [...first, ...later];
}

const sameSupport = (a: readonly Support[], b: readonly Support[]): boolean =>
  a.length === b.length && a.every((s) => b.includes(s));

function supportAt(
  scene: Scene,
  support: readonly Support[] | null,
  where: string,
  work: Pick<Frame, 'bar' | 'grip'>,
  steady: Step['z0'],
): Problem[] {
  if (!support) return [flaw('support-not-at-hand', where, 'The step does not say what is put up.')];
  const out = support
    .filter((s) => !scene.lathe.support.includes(s))
    .map((s) => flaw('support-not-at-hand', where, `There is no ${s} at hand.`));
  if (!support.includes('steady')) return out;
  const [left, right] = diametersAt(work.bar.outside, steady);
  const skin = at(scene.plan.stock.diameter_mm);
  const inGrip = work.grip && steady >= work.grip.z0 && steady <= work.grip.z1;
  const true_ = left !== null && left === right && left < skin && left > pm(0);
  return true_ && !inGrip
    ? out
    : [
        ...out,
        flaw('steady-on-rough', where, 'The steady needs a turned band to run on, and there is none.'),
      ];
}
