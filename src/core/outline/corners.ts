import { type Length, nearest, pm } from '../lengths/length.ts';
import type { ResolvedEdge, ResolvedPart } from '../part/resolved.ts';
import type { OutlineEdge, OutlineSegment } from './types.ts';

/** Diameter of a segment at a place along it, in pm; linear along a taper. */
export function diameterAt(segment: OutlineSegment, z: number): number {
  if (segment.d0 === segment.d1) return segment.d0;
  return Math.round(segment.d0 + ((segment.d1 - segment.d0) * (z - segment.z0)) / (segment.z1 - segment.z0));
}

/** Chamfers, fillets and undercuts as pieces of the outside profile; an edge on a face that bounds no segment is left out. */
export function outlineEdges(part: ResolvedPart, segments: readonly OutlineSegment[]): OutlineEdge[] {
  return part.edges.flatMap((edge) => {
    const segment = segments.find((s) => (edge.side === 'right' ? s.left : s.right) === edge.face);
    return segment ? [piece(edge, segment)] : [];
  });
}

function piece(edge: ResolvedEdge, segment: OutlineSegment): OutlineEdge {
  const atLeft = edge.side === 'right';
  const face = atLeft ? segment.z0 : segment.z1;
  const reach =
    edge.form === 'chamfer'
      ? edge.size.nominal
      : edge.form === 'fillet'
        ? edge.radius.nominal
        : edge.width.nominal;
  const inner = pm(atLeft ? face + reach : face - reach);
  const at = diameterAt(segment, inner);
  const [dFace, dInner] = ends(edge, at);
  return {
    id: edge.id,
    face: edge.face,
    side: edge.side,
    segment: segment.id,
    form: edge.form,
    z0: atLeft ? face : inner,
    z1: atLeft ? inner : face,
    d0: atLeft ? dFace : dInner,
    d1: atLeft ? dInner : dFace,
    angleDeg: edge.form === 'chamfer' ? edge.angleDeg : 0,
  };
}

/** Diameters at the face and at the inner end: a chamfer falls to the face, a fillet rises to it, an undercut is level. */
function ends(edge: ResolvedEdge, at: number): [Length, Length] {
  if (edge.form === 'chamfer') {
    const tan = edge.angleDeg === 45 ? 1 : Math.tan((edge.angleDeg * Math.PI) / 180);
    return [nearest(Math.max(0, at - 2 * edge.size.nominal * tan)), nearest(at)];
  }
  if (edge.form === 'fillet') return [nearest(at + 2 * edge.radius.nominal), nearest(at)];
  const bottom = nearest(Math.max(0, at - 2 * edge.depth.nominal));
  return [bottom, bottom];
}
