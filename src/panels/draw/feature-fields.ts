import type { Crossing, Edge, Hole, SizeText } from '../../core/part/types.ts';
import { sizeText, tolText } from '../length-words.ts';
import { centreDrills, holeSizes, threads, type Complete } from '../tables/completions.ts';

/** One field of an edge, a hole or a crossing, as text. `choices` where only some words make sense. */
export type FeatureField = {
  readonly key: string;
  readonly label: string;
  readonly value: string;
  readonly wide: number;
  readonly choices?: readonly string[];
  /** What completes it from the tables. */
  readonly complete?: Complete;
};

const sized = (size: SizeText | undefined): string =>
  [sizeText(size), tolText(size)].filter(Boolean).join(' ');
const size = (key: string, label: string, value: SizeText | undefined, wide = 8): FeatureField => ({
  key,
  label,
  value: sized(value),
  wide,
});

export function edgeFields(edge: Edge): readonly FeatureField[] {
  const side = { key: 'side', label: 'cut on its', value: edge.side, wide: 5, choices: ['left', 'right'] };
  if (edge.form === 'chamfer') {
    return [
      size('size', 'along the axis', edge.size),
      size('angle', 'angle to the axis', edge.angle ?? '45°', 5),
      side,
    ];
  }
  if (edge.form === 'fillet') return [size('radius', 'radius', edge.radius), side];
  return [size('width', 'width', edge.width), size('depth', 'depth', edge.depth), side];
}

export function holeFields(hole: Hole): readonly FeatureField[] {
  if (hole.form === 'centre') return [{ ...size('size', 'centre drill', hole.size), complete: centreDrills }];
  if (hole.form === 'tap') {
    return [
      { ...size('thread', 'thread', hole.thread, 12), complete: threads },
      size('depth', 'thread deep', hole.depth),
      size('drill_depth', 'drilled deep', hole.drill_depth),
    ];
  }
  const depth = hole.through ? 'through' : hole.depth;
  return [
    { ...size('diameter', 'diameter', hole.diameter, 12), complete: holeSizes },
    size('depth', 'depth, or “through”', depth),
  ];
}

export function crossingFields(crossing: Crossing): readonly FeatureField[] {
  const angle = size('angle', 'clocked at', crossing.angle ?? '0°', 5);
  if (crossing.form === 'hole') {
    return [
      size('diameter', 'diameter', crossing.diameter),
      size('reaches', 'reaches: “axis”, “through” or a depth', crossing.reaches),
      angle,
    ];
  }
  const to = size('to', 'to point', crossing.to, 4);
  if (crossing.form === 'keyseat') {
    return [size('width', 'width', crossing.width), size('depth', 'depth', crossing.depth), to, angle];
  }
  return [size('across', 'across', crossing.across), size('depth', 'or deep', crossing.depth), to, angle];
}
