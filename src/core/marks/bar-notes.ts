import { fromMm, type Unit } from '../lengths/length.ts';
import { nearestFraction, writeDecimal } from '../lengths/write.ts';
import { packLeaders } from '../outline/lanes.ts';
import type { PictureItem } from '../outline/picture.ts';
import { radiusAt } from '../outline/radial.ts';
import { letterOf, line, type Scene } from './bar-scene.ts';
import { radialOf } from './held-bar.ts';

/** Lines that are scribed by now (or, at a glance, in this holding), and still stand, each with its station. */
export function marksOf(scene: Scene): PictureItem[] {
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

/** Rows that the names of scribed lines take under the bar. */
const markRows = ({ holding }: Scene): number => (holding.marks.length === 0 ? 0 : 2.5);

export function stickOutOf(scene: Scene): PictureItem[] {
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
export function zeroOf(scene: Scene): PictureItem[] {
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
