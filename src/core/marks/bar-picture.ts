import { fromMm, type Unit } from '../lengths/length.ts';
import { nearestFraction, writeDecimal } from '../lengths/write.ts';
import { packLeaders } from '../outline/lanes.ts';
import { hatchLines } from '../outline/hatching.ts';
import type { AreaRole, LineRole, Picture, PictureItem } from '../outline/picture.ts';
import { between, clipTo, combine, radiusAt, runs } from '../outline/radial.ts';
import type { Radial } from '../outline/radial.ts';
import type { Bar } from '../plan/bar.ts';
import type { Holding, Plan, Support } from '../plan/types.ts';
import { centre, collet, dog, jaws, steadyJaws } from './device-shapes.ts';
import type { GripPlace } from './device-shapes.ts';
import { heldBar, radialOf, signOf, supportAt } from './held-bar.ts';
import type { HeldBar } from './held-bar.ts';

export type BarPictureOptions = {
  /** For the stick-out dimension; left out: millimetres. */
  readonly unit?: Unit;
  /** Between hatch lines, in mm of the part; left out: a hundredth of what is drawn. */
  readonly hatch?: number;
};

const SUPPORT_NAMES: Readonly<Record<Support, string>> = {
  centre: 'centre',
  steady: 'steady',
  'travelling-steady': 'travelling steady',
};

/**
 * The bar as it is held, **as the operator sees it**: headstock always at the left, so that x is the part's z, or -z
 * where the drawn right is toward the headstock. Waste of this holding is hatched, what the step cuts is hatched closer
 * with a heavy border; device, support, stick-out and the Z zero are drawn and named. Scribed lines are there until the
 * metal they stand on is cut.
 *
 * @param cutNumber - `n` of the step, before which the bar is shown; null for the holding at a glance, as it begins.
 * @returns An empty picture where the plan has no such holding.
 */
export function barPicture(
  plan: Plan,
  holdingIndex: number,
  cutNumber: number | null,
  options: BarPictureOptions = {},
): Picture {
  const holding = plan.holdings[holdingIndex];
  const held = heldBar(plan, holdingIndex, cutNumber);
  if (!holding || !held) return { items: [] };
  const scene = sceneOf(holding, held, cutNumber, options);
  return {
    items: [
      ...bodyOf(scene),
      ...wasteOf(scene),
      ...deviceOf(scene),
      ...supportsOf(scene),
      ...marksOf(scene),
      ...axisOf(scene),
      ...stickOutOf(scene),
      ...zeroOf(scene),
    ],
  };
}

type Scene = {
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

function sceneOf(
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

const line = (points: readonly number[], role: LineRole, id?: string): PictureItem =>
  id === undefined ? { kind: 'line', points, role } : { kind: 'line', points, role, id };
const area = (points: readonly number[], role: AreaRole): PictureItem => ({ kind: 'area', points, role });
const SIDES = [1, -1] as const;

/** The bar seen from outside; holes as hidden lines. */
function bodyOf({ outside, inside, broken }: Scene): PictureItem[] {
  const holes = inside.filter((p) => p.r0 > 0 || p.r1 > 0);
  const edges = outside.flatMap((p, i) => {
    const next = outside[i + 1];
    if (!next) return [[p.x1, p.r1] as const];
    return p.r1 !== next.r0 || (p.r0 === p.r1) !== (next.r0 === next.r1)
      ? [[p.x1, Math.max(p.r1, next.r0)] as const]
      : [];
  });
  const first = outside[0];
  const across = [...(first && !broken ? [[first.x0, first.r0] as const] : []), ...edges];
  return [
    ...SIDES.flatMap((side) => between(outside, [], side).map((points) => area(points, 'steel'))),
    ...SIDES.flatMap((side) => runs(outside, side).map((points) => line(points, 'outline'))),
    ...(first && broken ? [breakLine(first.x0, first.r0)] : []),
    ...across.filter(([, r]) => r > 0).map(([x, r]) => line([x, -r, x, r], 'outline')),
    ...SIDES.flatMap((side) => runs(holes, side).map((points) => line(points, 'hidden'))),
    ...holes
      .filter((p, i) => p.r1 > (holes[i + 1]?.r0 ?? 0))
      .map((p) => line([p.x1, -p.r1, p.x1, p.r1], 'hidden')),
  ];
}

/** The free-hand end of a bar that goes on. */
function breakLine(x: number, r: number): PictureItem {
  const points = Array.from({ length: 17 }, (_, i) => {
    const t = i / 8 - 1;
    return [x - Math.sin(t * Math.PI) * r * 0.12, t * r];
  });
  return line(points.flat(), 'thin');
}

/** Metal that goes, as closed areas: between two states of the bar, outside and in the holes. */
function goneBetween(was: Bar, is: Bar, { sign, from, to }: Scene): number[][] {
  const radial = (profile: Bar['outside']): Radial => clipTo(radialOf(profile, sign), from, to);
  const [outWas, outIs, inWas, inIs] = [was.outside, is.outside, was.inside, is.inside].map(radial);
  if (!outWas || !outIs || !inWas || !inIs) return [];
  const bored = combine(inIs, outIs, 'smaller');
  return SIDES.flatMap((side) => [
    ...between(outWas, combine(outIs, inWas, 'larger'), side),
    ...between(bored, combine(inWas, bored, 'smaller'), side),
  ]);
}

function wasteOf(scene: Scene): PictureItem[] {
  const { held, hatch } = scene;
  const later = goneBetween(held.after, held.end, scene);
  const now = goneBetween(held.before, held.after, scene);
  const hatched = (areas: number[][], apart: number, slope: 1 | -1): PictureItem[] =>
    areas.flatMap((points) => hatchLines(points, apart, slope).map((p) => line(p, 'hatch')));
  const border = (areas: number[][], role: LineRole): PictureItem[] =>
    areas.map((points) => line([...points, points[0] ?? 0, points[1] ?? 0], role));
  return [
    ...later.map((points) => area(points, 'waste')),
    ...now.map((points) => area(points, 'cutting')),
    ...hatched(later, hatch, -1),
    ...hatched(now, hatch / 2, 1),
    ...border(later, 'thin'),
    ...border(now, 'heavy'),
  ];
}

function deviceOf({ holding, grip, outside, radius, row, from }: Scene): PictureItem[] {
  const end = outside[0]?.x0 ?? 0;
  const label = (what: string): PictureItem => ({
    kind: 'text',
    x: from - radius * 0.6,
    y: radius * 2.4 + row * 2,
    text: `headstock: ${what}`,
    align: 'start',
  });
  if (holding.device === 'centres')
    return [...centre(end, radiusAt(outside, end), -1), ...(grip ? dog(grip) : []), label('centre and dog')];
  if (!grip) return [];
  return [...(holding.device === 'collet' ? collet(grip) : jaws(grip)), label(holding.device)];
}

function supportsOf({ holding, held, cutNumber, outside, radius, row, sign }: Scene): PictureItem[] {
  const free = outside.at(-1)?.x1 ?? 0;
  return supportAt(holding, cutNumber).flatMap(({ kind, at_mm }): PictureItem[] => {
    const work = held.cut ? sign * held.cut.z0_mm : free - radius * 2;
    const x = kind === 'centre' ? free : kind === 'steady' && at_mm !== null ? sign * at_mm : work;
    const text = SUPPORT_NAMES[kind];
    if (kind === 'centre') {
      const y = -radius - row * 0.8;
      return [
        ...centre(free, radiusAt(outside, free), 1),
        { kind: 'text', x: free + row * 0.3, y, text, align: 'start' },
      ];
    }
    const r = radiusAt(outside, x);
    const jaw = steadyJaws(x, r);
    return [...jaw, { kind: 'text', x, y: r * 2.1 + row * 0.3, text, align: 'middle' }];
  });
}

/** Lines that are scribed by now (or, at a glance, in this holding), and still stand, each with its station. */
function marksOf(scene: Scene): PictureItem[] {
  const { holding, cutNumber, outside, sign, radius, row } = scene;
  const shown = holding.marks
    .filter(({ before }) => cutNumber === null || before <= cutNumber)
    .map(({ z_mm, station }) => ({ x: sign * z_mm, station }))
    .filter((mark, i, all) => all.findIndex((m) => m.x === mark.x && m.station === mark.station) === i)
    .filter(({ x }) => radiusAt(outside, x) > 0);
  const letter = letterOf(scene);
  const wishes = shown.map(({ x, station }, i) => ({
    id: String(i),
    x,
    width: letter * [...station].length,
  }));
  const leaders = packLeaders(wishes, letter / 2);
  return shown.flatMap(({ x, station }, i): PictureItem[] => {
    const r = radiusAt(outside, x);
    const y = -radius - row * (0.9 + 0.6 * (leaders[i]?.row ?? 0));
    return [
      line([x, r, x, y], 'mark', station),
      { kind: 'text', x: x + letter / 4, y, text: station, align: 'start', id: station },
    ];
  });
}

function axisOf({ from, to, radius }: Scene): PictureItem[] {
  return [line([from - radius * 0.6, 0, to + radius * 0.6, 0], 'centre')];
}

/** About how wide a letter comes out where the picture, as long or as tall as it is, fills its place. */
const letterOf = ({ from, to, radius, row }: Scene): number =>
  Math.max((to - from) / 75, (radius * 5.4 + row * 4) / 41);

/** Rows that the names of scribed lines take under the bar. */
const markRows = ({ holding }: Scene): number => (holding.marks.length === 0 ? 0 : 2.5);

function stickOutOf(scene: Scene): PictureItem[] {
  const { holding, grip, held, sign, radius, row, unit } = scene;
  if (holding.stick_out_mm === null || !grip) return [];
  const free = radialOf(held.start.outside, sign).at(-1)?.x1 ?? 0;
  const y = -Math.max(radius * 2, radius + row * (1 + markRows(scene)));
  const text = `stick-out ${rough(holding.stick_out_mm, unit)}`;
  const beside = Math.abs(free - grip.to) < text.length * letterOf(scene);
  const label: PictureItem = beside
    ? { kind: 'text', x: free + letterOf(scene), y: y - row * 0.1, text, align: 'start' }
    : { kind: 'text', x: (grip.to + free) / 2, y: y + row * 0.12, text, align: 'middle' };
  return [
    line([grip.to, -grip.radius * 1.05, grip.to, y - row * 0.3], 'thin'),
    line([free, -radius * 1.05, free, y - row * 0.3], 'thin'),
    line([grip.to, y, free, y], 'thin'),
    arrow(scene, grip.to, y, -1),
    arrow(scene, free, y, 1),
    label,
  ];
}

/** The tip of a line that ends at x, running that way. */
function arrow({ from, to }: Scene, x: number, y: number, way: number): PictureItem {
  const tip = (to - from) / 70;
  return line([x - way * tip, y + tip / 3.5, x, y, x - way * tip, y - tip / 3.5], 'thin');
}

/** A length to set with a rule: the nearest 1/16 in or whole millimetre. */
const rough = (mm: number, unit: Unit): string =>
  unit === 'in' ? `${nearestFraction(fromMm(mm), 16).text} in` : `${writeDecimal(fromMm(mm), 'mm', 0)} mm`;

/** Where the readout's Z stands at zero, and which way it counts up. */
function zeroOf(scene: Scene): PictureItem[] {
  const { holding, sign, radius, row, from, to } = scene;
  const x = sign * holding.zero_z_mm;
  const way = sign * holding.z_sign;
  const y = radius * 2.4 + row;
  const end = x + way * ((to - from) / 14);
  const gap = (to - from) / 150;
  return [
    line([x, radius * 1.1, x, y + row * 0.3], 'centre'),
    line([x, y, end, y], 'thin'),
    arrow(scene, end, y, way),
    { kind: 'text', x: x - way * gap, y: y - row * 0.15, text: 'Z 0', align: way > 0 ? 'end' : 'start' },
    { kind: 'text', x: end + way * gap, y: y - row * 0.15, text: 'Z +', align: way > 0 ? 'start' : 'end' },
  ];
}
