import { writeShort } from '../lengths/write.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { Situation } from './situation.ts';
import type { ChainsReport } from './types.ts';

type Missing = ChainsReport['missing'][number];

/** Stations tied together, as lists in drawn order; points stand where they were sketched. */
export function listGroups({ part, graph, all }: Situation): string[][] {
  const groups: string[][] = Array.from({ length: all.trees }, () => []);
  const place = (id: string) => part.sketched.get(id) ?? Infinity;
  const points = [...part.points].sort((a, b) => place(a) - place(b));
  const drawn: string[] = [];
  let p = 0;
  for (const face of part.faces) {
    for (; p < points.length && place(points[p] as string) < place(face); p++)
      drawn.push(points[p] as string);
    drawn.push(face);
  }
  for (const id of [...drawn, ...points.slice(p)])
    groups[all.tree[graph.numberOf.get(id) as number] as number]?.push(id);
  return groups;
}

/**
 * A smallest set of lengths that would tie everything together: between neighbouring faces, in drawn order, then from each loose
 * point (or group of points) to the nearest face as sketched.
 */
export function listMissing(situation: Situation): Missing[] {
  const { part, graph, all } = situation;
  const missing: Missing[] = [];
  const above = Array.from({ length: all.trees }, (_, tree) => tree);
  const top = (tree: number): number => (above[tree] === tree ? tree : top(above[tree] as number));
  const treeOf = (id: string) => top(all.tree[graph.numberOf.get(id) as number] as number);
  const tie = (left: string, right: string) => {
    const [p, q] = [treeOf(left), treeOf(right)];
    if (p === q) return;
    above[Math.max(p, q)] = Math.min(p, q);
    missing.push({ between: [left, right], why: reason(part, left, right) });
  };
  part.faces.slice(1).forEach((face, k) => tie(part.faces[k] as string, face));
  for (const [point, face] of byNearness(part)) {
    const pointIsLeft = (part.sketched.get(point) ?? 0) < (part.sketched.get(face) ?? 0);
    tie(...(pointIsLeft ? ([point, face] as const) : ([face, point] as const)));
  }
  return missing;
}

function byNearness(part: ResolvedPart): [point: string, face: string][] {
  const place = (id: string) => part.sketched.get(id) ?? 0;
  const pairs = part.points.map((point) => {
    const away = (face: string) => Math.abs(place(face) - place(point));
    const face = part.faces.reduce<string | null>(
      (best, f) => (best === null || away(f) < away(best) ? f : best),
      null,
    );
    return { point, face, away: face === null ? Infinity : away(face) };
  });
  return pairs
    .sort((a, b) => a.away - b.away)
    .flatMap(({ point, face }) => (face === null ? [] : [[point, face] as [string, string]]));
}

function reason(part: ResolvedPart, left: string, right: string): string {
  const called = (id: string) => (part.names.get(id) ? `${id} (${part.names.get(id)})` : id);
  const wish = part.requirements.find(({ from, to }) => from === left && to === right);
  const asked = wish
    ? ` Requirement ${wish.id} asks for ${writeShort(wish.min, part.unit)} to ${writeShort(wish.max, part.unit)} here.`
    : '';
  return `No length ties ${called(left)} to ${called(right)}, directly or through others.${asked}`;
}
