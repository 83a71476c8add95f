import type { Unit } from '../lengths/length.ts';
import type { LineRole, PictureItem } from '../outline/picture.ts';
import { clipTo } from '../outline/radial.ts';
import type { Radial } from '../outline/radial.ts';
import type { Holding } from '../plan/types.ts';
import type { GripPlace } from './device-shapes.ts';
import { radialOf, signOf } from './held-bar.ts';
import type { HeldBar } from './held-bar.ts';

export type BarPictureOptions = {
  /** For the stick-out dimension; left out: millimetres. */
  readonly unit?: Unit;
  /** Between hatch lines, in mm of the part; left out: a hundredth of what is drawn. */
  readonly hatch?: number;
};

/** One step of one holding, ready to be drawn: x grows from the headstock to the tailstock. */
export type Scene = {
  readonly holding: Holding;
  readonly held: HeldBar;
  readonly cutNumber: number | null;
  readonly sign: 1 | -1;
  readonly outside: Radial;
  readonly inside: Radial;
  /** What is shown, along the axis, and the largest radius. */
  readonly from: number;
  readonly to: number;
  readonly broken: boolean;
  readonly radius: number;
  /** Between rows of labels: never less than what a text needs where a long bar is drawn small. */
  readonly row: number;
  readonly grip: GripPlace | null;
  readonly hatch: number;
  readonly unit: Unit;
};

export function sceneOf(
  holding: Holding,
  held: HeldBar,
  cutNumber: number | null,
  options: BarPictureOptions,
): Scene {
  const sign = signOf(holding);
  const all = radialOf(held.before.outside, sign);
  const start = radialOf(held.start.outside, sign);
  const radius = Math.max(...start.map((p) => Math.max(p.r0, p.r1)), 0.5);
  const ends = holding.grips ? [sign * holding.grips.z0_mm, sign * holding.grips.z1_mm] : null;
  const [g0, g1] = ends ? [Math.min(...ends), Math.max(...ends)] : [0, 0];
  const grip = ends ? { from: g0, to: g1, radius: gripRadius(all, g0, g1) } : null;
  const first = start[0]?.x0 ?? 0;
  const free = start.at(-1)?.x1 ?? 1;
  // A long bar that runs on into the spindle would make all else small: it is broken off behind the grip.
  const broken = grip !== null && holding.device !== 'centres' && g0 - first > free - g0;
  const from = broken ? g0 - radius : first;
  const to = free;
  return {
    holding,
    held,
    cutNumber,
    sign,
    outside: clipTo(all, from, to),
    inside: clipTo(radialOf(held.before.inside, sign), from, to),
    from,
    to,
    broken,
    radius,
    row: Math.max(radius * 0.6, (to - from) / 30),
    grip,
    hatch: options.hatch ?? (to - from) / 100,
    unit: options.unit ?? 'mm',
  };
}

function gripRadius(outside: Radial, from: number, to: number): number {
  return Math.max(...clipTo(outside, from, to).flatMap((p) => [p.r0, p.r1]), 0.5);
}

export const line = (points: readonly number[], role: LineRole, id?: string): PictureItem =>
  id === undefined ? { kind: 'line', points, role } : { kind: 'line', points, role, id };

/** About how wide a letter comes out where the picture, as long or as tall as it is, fills its place. */
export const letterOf = ({ from, to, radius, row }: Scene): number =>
  Math.max((to - from) / 75, (radius * 5.4 + row * 4) / 41);
