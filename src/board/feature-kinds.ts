import type { Unit } from '../core/lengths/length.ts';
import type { Transaction } from '../core/part/edit.ts';
import { addCrossing, addEdge, addHole } from '../core/part/feature-commands.ts';
import type { Part } from '../core/part/types.ts';

/** Something that can be put on a station, with its name and what puts it there. */
export type Kind = { readonly name: string; readonly add: (part: Part) => Transaction };

const small: Readonly<Record<Unit, string>> = { in: '1/64', mm: '0.5' };

/** Edges that can be put on a face. They begin with a common size, to be typed over. */
export const edgeKinds = (face: string, side: 'left' | 'right', unit: Unit): readonly Kind[] => [
  {
    name: 'chamfer',
    add: (part) => addEdge(part, { face, side, form: 'chamfer', size: small[unit], angle: '45°' }),
  },
  { name: 'fillet', add: (part) => addEdge(part, { face, side, form: 'fillet', radius: small[unit] }) },
  {
    name: 'undercut',
    add: (part) =>
      addEdge(part, {
        face,
        side,
        form: 'undercut',
        width: unit === 'in' ? '1/16' : '2',
        depth: unit === 'in' ? '1/64' : '0.3',
      }),
  },
];

/** Holes along the axis that can begin at an end face. */
export function holeKinds(from: string, unit: Unit): readonly Kind[] {
  const [bore, deep] = unit === 'in' ? ['1/8', '1/2'] : ['3', '12'];
  const thread = unit === 'in' ? '8-32 UNC' : 'M4';
  const threadDeep = unit === 'in' ? '3/8' : '8';
  return [
    {
      name: 'drilled hole',
      add: (part) => addHole(part, { from, form: 'drill', diameter: bore, depth: deep }),
    },
    {
      name: 'tapped hole',
      add: (part) => addHole(part, { from, form: 'tap', thread, depth: threadDeep, drill_depth: deep }),
    },
    {
      name: 'bore',
      add: (part) =>
        addHole(part, { from, form: 'bore', diameter: unit === 'in' ? '1/4' : '6', depth: deep }),
    },
    {
      name: 'centre hole',
      add: (part) => addHole(part, { from, form: 'centre', size: unit === 'in' ? '#2' : 'A 2/5' }),
    },
  ];
}

/** What can cross the shaft at a point. `to` is the other end of a keyseat or a flat; those need a second point. */
export function crossingKinds(at: string, to: string | null, unit: Unit): readonly Kind[] {
  const hole: Kind = {
    name: 'cross hole',
    add: (part) =>
      addCrossing(part, {
        at,
        form: 'hole',
        diameter: unit === 'in' ? '1/16' : '2',
        reaches: 'axis',
        angle: '0°',
      }),
  };
  if (to === null) return [hole];
  const [width, depth] = unit === 'in' ? ['1/8', '1/16'] : ['3', '1.8'];
  return [
    hole,
    {
      name: 'keyseat',
      add: (part) => addCrossing(part, { at, form: 'keyseat', to, width, depth, angle: '0°' }),
    },
    { name: 'flat', add: (part) => addCrossing(part, { at, form: 'flat', to, depth, angle: '0°' }) },
  ];
}
