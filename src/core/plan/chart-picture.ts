import type { Unit } from '../lengths/length.ts';
import type { ChartRow, Holding, Plan } from './types.ts';

/** A face or point of the chart and how far along the part it lies, 0 at the first, 1 at the last. */
export type ChartFace = { readonly id: string; readonly at: number };

/** A drawing length on the chart: where it runs, and its band against the allowed one. */
export type ChartLength = {
  readonly length: string;
  readonly from: number;
  readonly to: number;
  readonly ends: readonly [string, string];
  readonly row: ChartRow;
  /** Half widths, mm. */
  readonly allowed_mm: number;
  readonly held_mm: number;
  /** The band within the allowed one drawn from 0 to 1; beyond either where it is not held. */
  readonly band: readonly [number, number];
  /** "H2: datum, T1, B; H3: datum, C". */
  readonly through: string;
};

/** A working dimension: what the readout shows for a face, from the datum of its holding. */
export type WorkingDimension = {
  readonly holding: string;
  readonly datum: string;
  readonly face: string;
  readonly from: number;
  readonly to: number;
  readonly reading: string;
  readonly tool: string | null;
  readonly cut: number;
  /** What the cut finds to take on that face, mm: as planned, least, most; null where that is not charted. */
  readonly stock: {
    readonly taken_mm: number;
    readonly range_mm: readonly [number, number];
    readonly ok: boolean;
  } | null;
};

export type Chart = {
  readonly faces: readonly ChartFace[];
  readonly lengths: readonly ChartLength[];
  readonly working: readonly WorkingDimension[];
};

type Ends = { readonly id: string; readonly from: string; readonly to: string };

/**
 * The tolerance chart laid out for drawing: the faces across, a row for each drawing length with its band in the
 * allowed one, a row for each working dimension. What has no place (an unknown face) has no row.
 *
 * @param places - Aim places of stations, mm; null where one is not placed.
 * @param lengths - The ends of the drawing lengths, by id.
 */
export function chartOf(
  plan: Plan,
  places: Readonly<Record<string, { readonly aim_mm: number | null }>>,
  lengths: readonly Ends[],
): Chart {
  const known = Object.entries(places).flatMap(([id, { aim_mm }]) =>
    aim_mm === null ? [] : [{ id, z: aim_mm }],
  );
  const [first, last] = [Math.min(...known.map((s) => s.z)), Math.max(...known.map((s) => s.z))];
  const at = (z: number): number => (last > first ? (z - first) / (last - first) : 0);
  const faces = known.map(({ id, z }) => ({ id, at: at(z) })).sort((a, b) => a.at - b.at);
  const placeOf = new Map(faces.map((f) => [f.id, f.at]));
  return {
    faces,
    lengths: plan.chart.flatMap((row) => lengthRow(row, lengths, placeOf)),
    working: plan.holdings.flatMap((h) => workingRows(plan, h, placeOf)),
  };
}

function lengthRow(
  row: ChartRow,
  lengths: readonly Ends[],
  placeOf: ReadonlyMap<string, number>,
): ChartLength[] {
  const ends = lengths.find(({ id }) => id === row.length);
  const from = placeOf.get(ends?.from ?? '');
  const to = placeOf.get(ends?.to ?? '');
  if (!ends || from === undefined || to === undefined) return [];
  const [least, most] = row.allowed_mm;
  const within = (x: number): number => (most > least ? (x - least) / (most - least) : 0.5);
  return [
    {
      length: row.length,
      from: Math.min(from, to),
      to: Math.max(from, to),
      ends: [ends.from, ends.to],
      row,
      allowed_mm: (most - least) / 2,
      held_mm: (row.held_mm[1] - row.held_mm[0]) / 2,
      band: [within(row.held_mm[0]), within(row.held_mm[1])],
      through: pathWords(row.through),
    },
  ];
}

/** Nodes of one holding together: "H2: B, T1, datum". */
function pathWords(through: readonly string[]): string {
  const groups: { holding: string; nodes: string[] }[] = [];
  for (const node of through) {
    const cut = node.indexOf(':');
    const [holding, name] = [node.slice(0, cut), node.slice(cut + 1)];
    const last = groups.at(-1);
    if (last?.holding === holding) last.nodes.push(name);
    else groups.push({ holding, nodes: [name] });
  }
  return groups.map(({ holding, nodes }) => `${holding}: ${nodes.join(', ')}`).join('; ');
}

/** The last cut that makes each face is its working dimension. */
function workingRows(
  plan: Plan,
  { id: holding, datum: { station: datum }, cuts }: Holding,
  placeOf: ReadonlyMap<string, number>,
): WorkingDimension[] {
  const found = new Map<string, WorkingDimension>();
  const from = placeOf.get(datum);
  if (from === undefined) return [];
  for (const cut of cuts) {
    if (!['face', 'finish', 'groove', 'fillet', 'taper'].includes(cut.kind)) continue;
    for (const { axis, station, text } of cut.readings) {
      const to = axis === 'Z' && station ? placeOf.get(station) : undefined;
      if (to === undefined || !station) continue;
      const left = plan.stock_removal?.find((r) => r.holding === holding && r.face === station);
      const stock = left ?? null;
      const row = {
        holding,
        datum,
        face: station,
        from,
        to,
        reading: text,
        tool: cut.tool,
        cut: cut.n,
        stock,
      };
      found.set(station, row);
    }
  }
  return [...found.values()];
}

/** Half a band as it is read: "±.0025", "±0.064". */
export const halfBand = (half_mm: number, unit: Unit): string =>
  unit === 'mm' ? `±${half_mm.toFixed(3)}` : `±${(half_mm / 25.4).toFixed(4).replace(/^0/, '')}`;
