import { fromInches, fromMm, type Unit } from '../../core/lengths/length.ts';
import { barOrigin, bars } from '../../core/standards/bars.ts';
import { seatOrigin, seatRows } from '../../core/standards/bearing-seats.ts';
import { bearingOrigin, boreOrigin, chamferOrigin } from '../../core/standards/bearing-table.ts';
import { allBearings } from '../../core/standards/bearings.ts';
import {
  centreDrillSource,
  inchCentreDrills,
  metricCentreDrills,
} from '../../core/standards/centre-drills.ts';
import { collets, colletSource } from '../../core/standards/collets.ts';
import { drillsOrigin } from '../../core/standards/drill-sizes.ts';
import { drills } from '../../core/standards/drills.ts';
import { inchKeyOrigin, inchKeyRows, metricKeyOrigin, metricKeyRows } from '../../core/standards/keyseats.ts';
import { material, materialKeys } from '../../core/standards/materials.ts';
import { namedTapers, readTaper } from '../../core/standards/tapers.ts';
import { undercuts, undercutSource } from '../../core/standards/undercuts.ts';
import { rowsOf, type Row, type Table } from './table.ts';

const inches = (size: number | null) => (size === null ? null : fromInches(size));
const end = (mm: number) => (mm === Infinity ? 'over' : fromMm(mm));

const tapers = [
  ...namedTapers,
  ...['Jarno', '7:24', '1:10', '1:20', '1:50'].flatMap((name) => {
    const read = readTaper(name);
    return read.ok ? [read.value] : [];
  }),
];

function materialRow(key: string): readonly Row[] {
  const found = material(key);
  if (!found) return [];
  const speed = ({ low, typical }: { low: number; typical: number }) => `${low} to ${typical}`;
  const { rough, finish, thread, drill, part } = found.speed;
  const cells = [
    found.name,
    ...[rough, finish, drill, part, thread].map(speed),
    `${found.youngs / 1000}`,
    `${found.density}`,
    found.kc11 === null ? null : `${found.kc11}`,
    found.mc === null ? null : `${found.mc}`,
    found.oil,
    found.chip,
  ];
  return [{ cells, from: found.provenance }];
}

/** Tables of tools, of what is bought, and of how features are cut. */
export const shopTables: readonly Table[] = [
  {
    id: 'drills',
    name: 'Drills',
    also: 'number letter fraction metric sizes',
    columns: ['drill', 'diameter', 'series'],
    rows: rowsOf(
      'published',
      drills.map(({ name, diameter, series }) => [name, diameter, series]),
    ),
    origins: [
      drillsOrigin,
      {
        source: 'metric sizes by arithmetic: what a cabinet holds is common practice, no source',
        provenance: 'rule',
      },
    ],
  },
  {
    id: 'centre-drills',
    name: 'Centre drills',
    also: 'center ISO 866 60 degrees pilot body',
    columns: ['size', 'pilot', 'body', 'usual centre hole'],
    rows: [...inchCentreDrills, ...metricCentreDrills].map(
      ({ designation, pilot, body, mouth, provenance }) => ({
        cells: [designation, pilot, body, mouth],
        from: provenance,
      }),
    ),
    origins: [{ source: centreDrillSource, provenance: 'memory' }],
  },
  {
    id: 'tapers',
    name: 'Tapers',
    also: 'Morse Brown Sharpe Jarno cone compound angle per foot MT',
    columns: [
      'taper',
      'compound from the axis',
      'whole angle',
      'inches per foot',
      'large end',
      'small end',
      'plug length',
    ],
    rows: tapers.map(({ name, halfDeg, includedDeg, perFoot, plug, provenance }) => ({
      cells: [
        name,
        `${halfDeg.toFixed(4)}°`,
        `${includedDeg.toFixed(4)}°`,
        perFoot.toFixed(5),
        plug?.large ?? null,
        plug?.small ?? null,
        plug?.length ?? null,
      ],
      from: provenance,
    })),
    origins: tapers.map(({ source, provenance }) => ({ source, provenance })),
  },
  {
    id: 'undercuts',
    name: 'Undercuts',
    also: 'DIN 509 relief grooves',
    columns: ['form', 'radius', 'depth', 'width', 'depth in the face', 'load', 'diameters over', 'up to'],
    rows: undercuts.map((u) => ({
      cells: [u.designation, u.radius, u.depth, u.width, u.faceDepth, u.load, u.over, u.upTo],
      from: u.provenance,
    })),
    origins: [{ source: undercutSource, provenance: 'published' }],
  },
  {
    id: 'keys-metric',
    name: 'Keys, metric',
    also: 'DIN 6885 keyseat keyway',
    columns: ['shaft over', 'up to', 'key width', 'key height', 'depth in the shaft', 'depth in the hub'],
    rows: rowsOf(
      'published',
      metricKeyRows.map((row) => row.map(fromMm)),
    ),
    origins: [metricKeyOrigin],
  },
  {
    id: 'keys-inch',
    name: 'Keys, inch',
    also: 'ASME B17.1 keyseat keyway square flat',
    columns: ['shaft over', 'up to', 'key width', 'height of a flat key'],
    rows: rowsOf(
      'memory',
      inchKeyRows.map((row) => row.map(inches)),
    ),
    origins: [inchKeyOrigin],
  },
  {
    id: 'bearings',
    name: 'Ball bearings',
    also: '608 6000 6200 R8 deep groove',
    columns: ['bearing', 'bore, most', 'bore, least', 'outside', 'width', 'corner chamfer, least (memory)'],
    rows: allBearings().map((b) => ({
      cells: [b.designation, b.bore.max, b.bore.min, b.outside, b.width, b.chamfer],
      from: b.provenance,
    })),
    origins: [bearingOrigin, boreOrigin, chamferOrigin],
  },
  {
    id: 'seats',
    name: 'Seats of bearings',
    also: 'recommended fit class inner ring load',
    columns: ['bore over', 'up to', 'ring', 'load', 'class', 'handbook'],
    rows: rowsOf(
      'published',
      seatRows.map(([handbook, ring, load, over, most, classes]) => [
        fromMm(over),
        end(most),
        ring,
        load,
        classes,
        handbook,
      ]),
    ),
    origins: [seatOrigin],
  },
  {
    id: 'collets',
    name: 'Collets',
    also: 'ER 5C 16C R8',
    columns: ['collet', 'smallest round', 'largest round', 'nut thread', 'use'],
    rows: collets.map(({ series, min, max, nutThread, use, provenance }) => ({
      cells: [series, min, max, nutThread, use],
      from: provenance,
    })),
    origins: [{ source: colletSource, provenance: 'published' }],
  },
  ...(['in', 'mm'] as const).map((unit: Unit): Table => ({
    id: `bars-${unit}`,
    name: unit === 'in' ? 'Round bar, inch' : 'Round bar, metric',
    also: 'stock sizes',
    columns: ['bar', 'diameter'],
    rows: rowsOf(
      'memory',
      bars[unit].map(({ name, diameter }) => [unit === 'in' ? `${name} in` : name, diameter]),
    ),
    origins: [barOrigin],
  })),
  {
    id: 'materials',
    name: 'Materials',
    also: 'steel brass aluminium speed density modulus oil',
    columns: [
      'material',
      'rough, m/min',
      'finish, m/min',
      'drill, m/min',
      'part off, m/min',
      'die, m/min',
      'modulus, GPa',
      'density, kg/m³',
      'kc1.1, N/mm²',
      'mc',
      'cutting oil',
      'chip',
    ],
    rows: materialKeys().flatMap(materialRow),
    origins: materialKeys().flatMap((key) => Object.values(material(key)?.from ?? {})),
  },
];
