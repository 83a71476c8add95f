import { hatchLines } from '../outline/hatching.ts';
import type { AreaRole, LineRole, Picture, PictureItem } from '../outline/picture.ts';
import { between, clipTo, combine, radiusAt, runs } from '../outline/radial.ts';
import type { Radial } from '../outline/radial.ts';
import type { Bar } from '../plan/bar.ts';
import type { Plan, Support } from '../plan/types.ts';
import { marksOf, stickOutOf, zeroOf } from './bar-notes.ts';
import { line, sceneOf, type BarPictureOptions, type Scene } from './bar-scene.ts';
import { centre, collet, dog, jaws, steadyJaws } from './device-shapes.ts';
import { heldBar, radialOf, supportAt } from './held-bar.ts';

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

function axisOf({ from, to, radius }: Scene): PictureItem[] {
  return [line([from - radius * 0.6, 0, to + radius * 0.6, 0], 'centre')];
}
