import { withText } from '../core/part/commands.ts';
import type { Transaction } from '../core/part/edit.ts';
import { setItem, typedFields } from '../core/part/feature-commands.ts';
import { edgeIds } from '../core/part/resolve-edges.ts';
import type { Crossing, Edge, Hole, Part, SizeText } from '../core/part/types.ts';

export type Feature = { readonly kind: 'hole' | 'crossing' | 'edge'; readonly id: string };
/** How a typed text is read: as a size, a thread, and so on; a reach also says "axis" or "through". */
export type Reads = 'size' | 'thread' | 'angle' | 'depth' | 'reach' | 'centre';
/** A size of a hole, a crossing or an edge, in the order in which a plan says them. */
export type FeatureSize = {
  readonly field: string;
  /** What it is, as a field for it is called. */
  readonly label: string;
  readonly size: SizeText;
  readonly reads: Reads;
};
type Found = {
  readonly list: 'holes' | 'crossings' | 'edges';
  readonly at: number;
  readonly sizes: readonly FeatureSize[];
};

function found(part: Part, { kind, id }: Feature): Found | null {
  if (kind === 'edge') {
    const at = edgeIds(part).indexOf(id);
    const edge = part.edges[at];
    return edge ? { list: 'edges', at, sizes: edgeSizes(edge) } : null;
  }
  if (kind === 'hole') {
    const at = part.holes.findIndex((hole) => hole.id === id);
    return part.holes[at] ? { list: 'holes', at, sizes: holeSizes(part.holes[at]) } : null;
  }
  const at = part.crossings.findIndex((crossing) => crossing.id === id);
  return part.crossings[at] ? { list: 'crossings', at, sizes: crossingSizes(part.crossings[at]) } : null;
}

/** All sizes of a feature that can be typed on the drawing; none where there is no such feature. */
export const featureSizes = (part: Part, feature: Feature): readonly FeatureSize[] =>
  found(part, feature)?.sizes ?? [];

/** One of them by its field. */
export const featureSize = (part: Part, feature: Feature & { readonly field: string }): FeatureSize | null =>
  featureSizes(part, feature).find(({ field }) => field === feature.field) ?? null;

/** Types a size of a feature. Nothing where there is no such feature or size. */
export function setFeatureSize(
  part: Part,
  feature: Feature & { readonly field: string },
  text: string,
): Transaction {
  const at = found(part, feature);
  const size = at?.sizes.find(({ field }) => field === feature.field);
  if (!at || !size) return { edits: [], did: '' };
  const fields =
    size.reads === 'size' ? { [size.field]: withText(size.size, text) } : typedFields(size.field, text);
  const did = `${size.label[0]?.toUpperCase()}${size.label.slice(1)} of ${feature.id} to ${text}`;
  return setItem(part, at.list, at.at, fields, did);
}

const one = (
  field: string,
  label: string,
  size: SizeText | undefined,
  reads: Reads = 'size',
): FeatureSize => ({
  field,
  label,
  size: size ?? '',
  reads,
});

function edgeSizes(edge: Edge): readonly FeatureSize[] {
  if (edge.form === 'chamfer')
    return [one('size', 'chamfer', edge.size), one('angle', 'angle', edge.angle ?? '45°', 'angle')];
  if (edge.form === 'fillet') return [one('radius', 'radius', edge.radius)];
  return [one('width', 'width', edge.width), one('depth', 'depth', edge.depth)];
}

function holeSizes(hole: Hole): readonly FeatureSize[] {
  if (hole.form === 'centre') return [one('size', 'centre drill', hole.size, 'centre')];
  if (hole.form === 'tap')
    return [
      one('thread', 'thread', hole.thread, 'thread'),
      one('depth', 'depth', hole.depth),
      one('drill_depth', 'drilled depth', hole.drill_depth),
    ];
  return [
    one('diameter', 'diameter', hole.diameter),
    one('depth', 'depth', hole.through ? 'through' : hole.depth, 'depth'),
  ];
}

function crossingSizes(crossing: Crossing): readonly FeatureSize[] {
  const angle = one('angle', 'angle', crossing.angle ?? '0°', 'angle');
  if (crossing.form === 'hole')
    return [
      one('diameter', 'diameter', crossing.diameter),
      one('reaches', 'reach', crossing.reaches, 'reach'),
      angle,
    ];
  if (crossing.form === 'keyseat')
    return [one('width', 'width', crossing.width), one('depth', 'depth', crossing.depth), angle];
  const size =
    crossing.across === undefined
      ? one('depth', 'depth', crossing.depth)
      : one('across', 'size across', crossing.across);
  return [size, angle];
}
