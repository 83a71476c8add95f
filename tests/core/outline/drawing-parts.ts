import type { ChainsReport } from '../../../src/core/chains/types.ts';
import type { Part } from '../../../src/core/part/types.ts';

/** A metric part from a few fields, for tests of the drawing. */
export const partOf = (fields: Partial<Part>): Part => ({
  shaftwright: 1,
  title: 'test shaft',
  unit: 'mm',
  faces: [],
  segments: [],
  points: [],
  lengths: [],
  edges: [],
  holes: [],
  crossings: [],
  requirements: [],
  matched: [],
  ...fields,
});

/** A chains report that places the given stations, in millimetres, and ties the groups given. */
export function chainsOf(places: Record<string, number | null>, groups: string[][] = []): ChainsReport {
  return {
    state: 'closed',
    groups: groups.length > 0 ? groups : [Object.keys(places)],
    missing: [],
    doubled: [],
    clashes: [],
    impossible: null,
    suspects: [],
    stations: Object.fromEntries(Object.entries(places).map(([id, mm]) => [id, { z_mm: mm, aim_mm: mm }])),
    spans: [],
  };
}

/** Cylinders of the given diameters and lengths, faces A, B, C …, all placed. */
export function stepped(...steps: (readonly [diameter: string, length: number])[]): {
  part: Part;
  solved: { chains: ChainsReport; diameters: [] };
} {
  const names = [...'ABCDEFGH'];
  const at = steps.reduce((list, [, length]) => [...list, (list.at(-1) ?? 0) + length], [0]);
  const faces = at.map((sketched, i) => ({ id: names[i] ?? '', sketched }));
  const segments = steps.map(([diameter], i) => ({ id: `s${i + 1}`, form: 'cylinder' as const, diameter }));
  const places = Object.fromEntries(faces.map(({ id, sketched }) => [id, sketched]));
  return { part: partOf({ faces, segments }), solved: { chains: chainsOf(places), diameters: [] } };
}
