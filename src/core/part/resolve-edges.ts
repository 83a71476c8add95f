import { readAngle } from '../lengths/read-angle.ts';
import { fault, valueAt, type ResolveContext } from './resolve-context.ts';
import type { ResolvedEdge } from './resolved.ts';
import { resolveSize } from './resolve-size.ts';
import { idsOf } from './edit.ts';
import type { Edge, Part } from './types.ts';

/** The id of each edge: its own, else where it stands, told apart where something else is called that. */
export function edgeIds(part: Part): readonly string[] {
  const taken = new Set(idsOf(part));
  return part.edges.map((edge) => {
    if (edge.id !== undefined) return edge.id;
    let id = `edge ${edge.face} ${edge.side}`;
    while (taken.has(id)) id += "'";
    taken.add(id);
    return id;
  });
}

/** Notes a face that is not there, and a side that lies off the part. */
function faceKnown(context: ResolveContext, { face, side }: Edge, where: string): boolean {
  const place = context.faces.get(face);
  if (place === undefined) {
    fault(context, 'unknown-face', `${where}.face`, `There is no face “${face}”.`, { id: face });
    return false;
  }
  const off = side === 'left' ? place === 0 : place === context.faces.size - 1;
  if (off) {
    fault(context, 'edge-off-the-part', `${where}.side`, `There is no metal ${side} of face “${face}”.`, {
      id: face,
    });
  }
  return !off;
}

function resolveEdge(context: ResolveContext, edge: Edge, index: number, id: string): ResolvedEdge | null {
  const where = `edges[${index}]`;
  const known = faceKnown(context, edge, where);
  const common = { id, index, face: edge.face, side: edge.side };
  if (edge.form === 'fillet') {
    const radius = resolveSize(context, edge.radius, `${where}.radius`, 'edge');
    return known && radius ? { ...common, form: 'fillet', radius } : null;
  }
  if (edge.form === 'undercut') {
    const width = resolveSize(context, edge.width, `${where}.width`, 'length');
    const depth = resolveSize(context, edge.depth, `${where}.depth`, 'length');
    return known && width && depth ? { ...common, form: 'undercut', width, depth } : null;
  }
  const size = resolveSize(context, edge.size, `${where}.size`, 'edge');
  const angleDeg = chamferAngle(context, edge.angle ?? '45°', `${where}.angle`);
  return known && size && angleDeg !== null ? { ...common, form: 'chamfer', size, angleDeg } : null;
}

function chamferAngle(context: ResolveContext, text: string, where: string): number | null {
  const angle = valueAt(context, readAngle(text), where);
  if (angle === null || (angle > 0 && angle < 90)) return angle;
  fault(context, 'angle-out-of-range', where, `A chamfer's angle lies between 0° and 90°, not at ${text}.`, {
    text,
  });
  return null;
}

/** All edges that can be read and whose face is known. A chamfer without an angle has 45°. */
export function resolveEdges(context: ResolveContext, part: Part): readonly ResolvedEdge[] {
  const ids = edgeIds(part);
  return part.edges.flatMap((edge, i) => resolveEdge(context, edge, i, ids[i] ?? '') ?? []);
}
