import type { Unit } from '../../core/lengths/length.ts';
import type { Transaction } from '../../core/part/edit.ts';
import { addCrossing, addEdge, addHole } from '../../core/part/feature-commands.ts';
import type { Crossing, Edge, Hole, Part, SizeText } from '../../core/part/types.ts';
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

/** What a typed text changes in a feature; an empty text takes an optional field out. */
export function typedFields(key: string, text: string): object {
  if (key === 'depth' && text.toLowerCase() === 'through') return { through: true, depth: undefined };
  if (key === 'depth') return { through: undefined, depth: text || undefined };
  return { [key]: text || undefined };
}

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
