import type { Length } from '../../lengths/length.ts';
import type { ResolvedTool } from '../../part/resolved.ts';
import type { Problem } from '../../problem.ts';
import { removesMetal } from '../bar.ts';
import type { Reading } from '../types.ts';
import { ruleLength, showsValue } from './counts.ts';
import type { Rounding } from './counts.ts';
import { flaw, inMm } from './flaw.ts';
import { depthOf } from './holes.ts';
import { at } from './scene.ts';
import type { Scene, Step } from './scene.ts';
import { toolOf } from './tools.ts';

type Blade = Extract<ResolvedTool, { kind: 'blade' }>;

/**
 * What the readout is to show. Codes: `reading-wrong` (the value is not where the cut stands by zero, sense, blade
 * width and touched-off edge, or not its diameter), `reading-station` (the named face does not lie there),
 * `reading-edge` (not the edge that the lathe file says is touched off, or none for a blade), `reading-other` (the
 * other edge's value), `reading-text` (not the value in whole counts, rounded as it must be), `reading-missing`.
 */
export function readingFlaws(scene: Scene): Problem[] {
  return scene.steps.flatMap((step) => [
    ...missing(scene, step),
    ...step.cut.readings.flatMap((reading) => {
      if (reading.axis === 'quill') return quillFlaws(scene, step, reading);
      if (reading.axis === 'X') return xFlaws(scene, step, reading);
      const blade = toolOf(scene, step.cut);
      return blade?.kind === 'blade' && blade.width > 0
        ? bladeFlaws(scene, step, reading, blade)
        : zFlaws(scene, step, reading);
    }),
  ]);
}

const wants: Partial<Record<Step['cut']['kind'], readonly Reading['axis'][]>> = {
  face: ['Z'],
  rough: ['X', 'Z'],
  finish: ['X', 'Z'],
  groove: ['X', 'Z'],
  taper: ['X', 'Z'],
  'part-off': ['Z'],
  drill: ['quill'],
};

function missing(scene: Scene, { cut, where, inside, z0, z1, held }: Step): Problem[] {
  const out = (wants[cut.kind] ?? [])
    .filter((axis) => !cut.readings.some((r) => r.axis === axis) && !(inside && axis !== 'quill'))
    .map((axis) => flaw('reading-missing', where, `${where} has no reading on ${axis}.`));
  if (cut.kind !== 'groove' || out.length > 0) return out;
  const stations = cut.readings
    .filter((r) => r.axis === 'Z')
    .map((r) => scene.outline.stations.get(r.station ?? ''));
  return [z0, z1].every((wall) => stations.includes(wall))
    ? out
    : [
        flaw(
          'reading-missing',
          where,
          `${where} does not have one Z reading for each wall in ${held.where}.`,
        ),
      ];
}

const wrong = (step: Step, reading: Reading, say: string): Problem =>
  flaw('reading-wrong', step.where, `${reading.axis} ${reading.text} of ${step.where} ${say}`);

function textFlaws(
  scene: Scene,
  step: Step,
  reading: Pick<Reading, 'text' | 'value_mm'>,
  rounding: Rounding,
): Problem[] {
  return showsValue(reading.text, reading.value_mm, scene.lathe, rounding)
    ? []
    : [
        flaw(
          'reading-text',
          step.where,
          `“${reading.text}” is not ${reading.value_mm} mm as the readout of this lathe shows it.`,
        ),
      ];
}

function xFlaws(scene: Scene, step: Step, reading: Reading): Problem[] {
  const { cut } = step;
  const rounding = !removesMetal(cut) ? 'either' : step.inside ? 'down' : 'up';
  const out = textFlaws(scene, step, reading, rounding);
  if (cut.kind === 'thread' || (cut.d0_mm === null && cut.d1_mm === null)) return out;
  const diameter = at(reading.value_mm * (scene.lathe.readout.x === 'radius' ? 2 : 1));
  const own = [cut.d0_mm, cut.d1_mm].some((d) => d !== null && Math.abs(at(d) - diameter) <= 2);
  return own ? out : [...out, wrong(step, reading, `is not the diameter that the cut leaves.`)];
}

/** Where the readout of this holding stands in part coordinates. */
export const standsAt = ({ holding }: Step['held'], value_mm: number): Length =>
  at(holding.zero_z_mm + holding.z_sign * value_mm);

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 2;

function stationFlaws(scene: Scene, step: Step, reading: Reading, place: Length): Problem[] {
  if (reading.station === null || reading.station === undefined) return [];
  const lies = scene.outline.stations.get(reading.station);
  return lies !== undefined && near(lies, place)
    ? []
    : [
        flaw(
          'reading-station',
          step.where,
          `${reading.station} does not lie where Z ${reading.text} of ${step.where} works.`,
        ),
      ];
}

function zFlaws(scene: Scene, step: Step, reading: Reading): Problem[] {
  const out = textFlaws(scene, step, reading, 'nearest');
  const place = standsAt(step.held, reading.value_mm);
  const end = [step.z0, step.z1].find((z) => near(z, place));
  if (end === undefined)
    return [...out, wrong(step, reading, `stands at ${inMm(place)}, at neither end of the cut.`)];
  return [...out, ...stationFlaws(scene, step, reading, place)];
}

/**
 * A blade cuts the headstock-side wall with its left edge and the tailstock-side wall with its right one; the
 * readout shows where the touched-off edge stands meanwhile.
 */
function bladeFlaws(scene: Scene, step: Step, reading: Reading, blade: Blade): Problem[] {
  const { cut, held } = step;
  const out = textFlaws(scene, step, reading, 'nearest');
  if (!reading.edge || reading.edge !== blade.edge)
    return [
      ...out,
      flaw(
        'reading-edge',
        step.where,
        `Z ${reading.text} of ${step.where} does not name the edge that is touched off.`,
      ),
    ];
  const place = standsAt(held, reading.value_mm);
  const across = held.toHead * blade.width;
  if (!removesMetal(cut)) return [...out, ...standingFlaws(step, reading, blade, place)];
  const [headWall, tailWall] = held.toHead > 0 ? [step.z1, step.z0] : [step.z0, step.z1];
  const walls = [
    { wall: headWall, left: headWall, right: headWall - across },
    { wall: tailWall, left: tailWall + across, right: tailWall },
  ];
  const hit = walls.filter((w) => near(w[blade.edge], place));
  const named = reading.station ? scene.outline.stations.get(reading.station) : undefined;
  const found = hit.find((w) => named === undefined || near(w.wall, named)) ?? hit[0];
  if (!found) return [...out, wrong(step, reading, `does not bring an edge of the blade to either wall.`)];
  return [
    ...out,
    ...stationFlaws(scene, step, reading, found.wall),
    ...otherFlaws(scene, step, reading, found[blade.edge === 'left' ? 'right' : 'left']),
  ];
}

/** Touching off, the blade stands against a face with one of its edges; the readout shows where the named edge is. */
function standingFlaws(step: Step, reading: Reading, blade: Blade, place: Length): Problem[] {
  const across = step.held.toHead * blade.width * (blade.edge === 'left' ? 1 : -1);
  if (!near(place, step.z0) && !near(place, step.z0 + across))
    return [wrong(step, reading, `does not bring an edge of the blade to ${inMm(step.z0)}.`)];
  const { other } = reading;
  return other && (other.edge === blade.edge || !near(standsAt(step.held, other.value_mm), place - across))
    ? [otherWrong(step, reading)]
    : [];
}

const otherWrong = ({ where }: Step, { text }: Reading): Problem =>
  flaw('reading-other', where, `Z ${text} of ${where} does not say rightly what the other edge would read.`);

function otherFlaws(scene: Scene, step: Step, reading: Reading, place: number): Problem[] {
  const { other } = reading;
  const fits = other && other.edge !== reading.edge && near(standsAt(step.held, other.value_mm), place);
  if (!other || !fits) return [otherWrong(step, reading)];
  return textFlaws(scene, step, other, 'nearest');
}

/** The quill's scale counts from the finished face, to 1 mm or 1/32 in. */
function quillFlaws(scene: Scene, step: Step, reading: Reading): Problem[] {
  const inch = scene.lathe.unit === 'in';
  const count = inch ? 793_750_000 : 1_000_000_000;
  const shown = ruleLength(reading.text, scene.lathe.unit);
  const value = at(reading.value_mm);
  const out: Problem[] = [];
  if (
    shown === null ||
    !near(Math.round(shown / count) * count, shown) ||
    Math.abs(shown - value) > count / 2 + 1
  )
    out.push(
      flaw(
        'reading-text',
        step.where,
        `“${reading.text}” is not ${reading.value_mm} mm to the nearest ${inch ? '1/32 in' : 'millimetre'}.`,
      ),
    );
  const deep = depthOf(step, scene.outline.length);
  if (step.cut.kind !== 'centre-drill' && !near(value, deep))
    out.push(wrong(step, reading, `is not how deep the hole goes below the finished face.`));
  return out;
}
