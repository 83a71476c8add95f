import type { Problem } from '../problem.ts';
import type { Outline, OutlineHole } from './types.ts';

/** Outside of the part along a stretch, from edge to edge: the edge's own shape where one is cut. */
type Stretch = {
  readonly z0: number;
  readonly z1: number;
  readonly d0: number;
  readonly d1: number;
  readonly round: boolean;
};

/**
 * Holes that come out of the side of the part: along some of their depth they are as wide as the outside. Code
 * `no-outline`, where the hole is. Centre holes are left out, which only their mouth may make too wide.
 */
export function brokenWalls(outline: Outline): Problem[] {
  const outside: Stretch[] = [
    ...outline.segments.map((s) => ({ ...s, round: false })),
    ...outline.edges.map((e) => ({ ...e, round: e.form !== 'chamfer' })),
  ];
  return outline.holes
    .filter(({ form }) => form !== 'centre')
    .flatMap((hole) => {
      const { z0, z1 } = span(hole, outline.length);
      const thin = outside.some((stretch) => leastOver(stretch, z0, z1) <= hole.diameter);
      const say = `The sizes give no body: hole ${hole.id} is as wide as the outside somewhere along it.`;
      return thin ? [{ code: 'no-outline', where: hole.id, say }] : [];
    });
}

/**
 * Chamfers with nothing to cut: the taper rises from their face at least as steeply as they would. Code `no-outline`, where the
 * chamfer is.
 */
export function idleChamfers({ edges, segments }: Outline): Problem[] {
  return edges.flatMap((edge) => {
    const segment = segments.find(({ id }) => id === edge.segment);
    if (edge.form !== 'chamfer' || !segment) return [];
    const [cut, stands] = edge.side === 'right' ? [edge.d0, segment.d0] : [edge.d1, segment.d1];
    const say = `The sizes give no body: chamfer ${edge.id} cuts nothing, as ${segment.id} rises from that face as steeply as it does.`;
    return cut >= stands ? [{ code: 'no-outline', where: edge.id, say }] : [];
  });
}

function span({ from, depth }: OutlineHole, length: number): { z0: number; z1: number } {
  const deep = Math.min(depth ?? length, length);
  return from === 'first' ? { z0: 0, z1: deep } : { z0: length - deep, z1: length };
}

/** The thinnest of a stretch between two places; infinite where it does not lie there. */
function leastOver({ z0, z1, d0, d1, round }: Stretch, from: number, to: number): number {
  const [a, b] = [Math.max(z0, from), Math.min(z1, to)];
  if (a >= b) return Infinity;
  if (round) return Math.min(d0, d1);
  const at = (z: number): number => d0 + ((d1 - d0) * (z - z0)) / (z1 - z0);
  return Math.min(at(a), at(b));
}
