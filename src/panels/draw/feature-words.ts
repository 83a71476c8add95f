import type { Crossing, Edge, Hole, Mate, Segment } from '../../core/part/types.ts';
import { sizeText, tolText } from '../length-words.ts';
import type { SizeText } from '../../core/part/types.ts';

const sized = (size: SizeText | undefined): string =>
  [sizeText(size) || '?', tolText(size)].filter(Boolean).join(' ');

/** "chamfer 1/64 at 45° on its right side". */
export function edgeWords(edge: Edge): string {
  const side = `on its ${edge.side} side`;
  if (edge.form === 'chamfer') return `chamfer ${sized(edge.size)} at ${edge.angle ?? '45°'} ${side}`;
  if (edge.form === 'fillet') return `fillet of radius ${sized(edge.radius)} ${side}`;
  return `undercut ${sized(edge.width)} wide, ${sized(edge.depth)} deep ${side}`;
}

/** "tapped M5x0.8-6H, 3/8 deep, drilled 1/2 deep". */
export function holeWords(hole: Hole): string {
  if (hole.form === 'centre') return `centre hole ${hole.size}`;
  if (hole.form === 'tap') {
    const drilled = hole.drill_depth === undefined ? '' : `, drilled ${sized(hole.drill_depth)} deep`;
    return `tapped ${hole.thread}, ${sized(hole.depth)} deep${drilled}`;
  }
  const verb = hole.form === 'drill' ? 'drilled' : 'bored';
  const depth = hole.through || hole.depth === undefined ? 'right through' : `${sized(hole.depth)} deep`;
  return `${verb} ${sized(hole.diameter)}, ${depth}`;
}

/** "keyseat 1/8 wide, .070 deep, to k2, at 90°". */
export function crossingWords(crossing: Crossing): string {
  const at = `at ${crossing.angle ?? '0°'}`;
  if (crossing.form === 'hole')
    return `cross hole ${sized(crossing.diameter)}, ${reach(crossing.reaches)}, ${at}`;
  if (crossing.form === 'keyseat') {
    return `keyseat ${sized(crossing.width)} wide, ${sized(crossing.depth)} deep, to ${crossing.to}, ${at}`;
  }
  const size =
    crossing.across === undefined ? `${sized(crossing.depth)} deep` : `${sized(crossing.across)} across`;
  return `flat ${size}, to ${crossing.to}, ${at}`;
}

function reach(reaches: SizeText): string {
  const text = sizeText(reaches);
  if (text === 'axis') return 'to the axis';
  return text === 'through' ? 'right through' : `${sized(reaches)} deep`;
}

/** "journal in bearing 6000"; empty where nothing is said. */
export function useWords({ role, mate }: Segment): string {
  return [role ?? '', mateWords(mate)].filter(Boolean).join(' in ');
}

export const mateWords = (mate: Mate | undefined): string =>
  mate?.bearing ? `bearing ${mate.bearing}` : mate?.bore ? `bore ${mate.bore}` : '';
