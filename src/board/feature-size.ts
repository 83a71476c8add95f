import { withText } from '../core/part/commands.ts';
import type { Transaction } from '../core/part/edit.ts';
import { setItem } from '../core/part/feature-commands.ts';
import { edgeIds } from '../core/part/resolve-edges.ts';
import type { Crossing, Edge, Hole, Part, SizeText } from '../core/part/types.ts';

type Feature = { readonly kind: 'hole' | 'crossing' | 'edge'; readonly id: string };
/** The one size of a hole, crossing or edge that is typed on the drawing; the others stand in the panel. */
type MainSize = {
  readonly list: 'holes' | 'crossings' | 'edges';
  readonly at: number;
  readonly field: string;
  readonly size: SizeText;
  readonly reads: 'size' | 'thread';
};

export function mainSize(part: Part, { kind, id }: Feature): MainSize | null {
  if (kind === 'edge') {
    const at = edgeIds(part).indexOf(id);
    const edge = part.edges[at];
    return edge ? { list: 'edges', at, reads: 'size', ...edgeSize(edge) } : null;
  }
  if (kind === 'hole') {
    const at = part.holes.findIndex((hole) => hole.id === id);
    const found = part.holes[at] && holeSize(part.holes[at]);
    return found ? { list: 'holes', at, ...found } : null;
  }
  const at = part.crossings.findIndex((crossing) => crossing.id === id);
  const found = part.crossings[at] && crossingSize(part.crossings[at]);
  return found ? { list: 'crossings', at, reads: 'size', ...found } : null;
}

/** Types that size. Nothing where there is no such feature, or none of its sizes is typed on the drawing. */
export function setFeatureSize(part: Part, feature: Feature, text: string): Transaction {
  const main = mainSize(part, feature);
  if (!main) return { edits: [], did: '' };
  const now = main.reads === 'thread' ? text : withText(main.size, text);
  return setItem(part, main.list, main.at, { [main.field]: now });
}

function edgeSize(edge: Edge): { field: string; size: SizeText } {
  if (edge.form === 'chamfer') return { field: 'size', size: edge.size };
  return edge.form === 'fillet'
    ? { field: 'radius', size: edge.radius }
    : { field: 'width', size: edge.width };
}

function holeSize(hole: Hole): { field: string; size: SizeText; reads: 'size' | 'thread' } | null {
  if (hole.form === 'centre') return null;
  if (hole.form === 'tap') return { field: 'thread', size: hole.thread, reads: 'thread' };
  return { field: 'diameter', size: hole.diameter, reads: 'size' };
}

function crossingSize(crossing: Crossing): { field: string; size: SizeText } | null {
  if (crossing.form === 'hole') return { field: 'diameter', size: crossing.diameter };
  if (crossing.form === 'keyseat') return { field: 'width', size: crossing.width };
  const field = crossing.across === undefined ? 'depth' : 'across';
  const size = crossing.across ?? crossing.depth;
  return size === undefined ? null : { field, size };
}
