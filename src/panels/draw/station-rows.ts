import { PM_PER, type Unit } from '../../core/lengths/length.ts';
import type { Crossing, Edge, Hole, Part, Segment } from '../../core/part/types.ts';
import type { Report } from '../../core/report-types.ts';

type Placed<T> = { readonly item: T; readonly index: number };

/** One row of the station table: a station, and what lies to its right and hangs on it. */
export type StationRow = {
  readonly id: string;
  readonly kind: 'face' | 'point';
  /** Its place in `part.faces` or `part.points`. */
  readonly index: number;
  readonly name: string;
  /** In mm from the first face; null while nothing places it. */
  readonly place: number | null;
  readonly segment: Placed<Segment> | null;
  readonly edges: readonly Placed<Edge>[];
  readonly holes: readonly Placed<Hole>[];
  readonly crossings: readonly Placed<Crossing>[];
};

const where = <T>(items: readonly T[], holds: (item: T) => boolean): readonly Placed<T>[] =>
  items.map((item, index) => ({ item, index })).filter(({ item }) => holds(item));

/** The rows in the order along the axis; a point stands after the last face that is left of it. */
export function stationRows(part: Part, report: Report): readonly StationRow[] {
  const placeOf = (id: string) => report.chains.stations[id]?.z_mm ?? null;
  const rough = (id: string, sketched: number) => placeOf(id) ?? inMm(sketched, part.unit);
  const points = part.points
    .map((point, index) => ({
      at: rough(point.id, point.sketched),
      row: pointRow(part, index, placeOf(point.id)),
    }))
    .sort((a, b) => a.at - b.at);
  const lastLeftOf = (at: number) =>
    Math.max(
      0,
      part.faces.findLastIndex((face) => rough(face.id, face.sketched) <= at),
    );
  return part.faces.flatMap((face, index) => [
    faceRow(part, index, placeOf(face.id)),
    ...points.filter(({ at }) => lastLeftOf(at) === index).map(({ row }) => row),
  ]);
}

function faceRow(part: Part, index: number, place: number | null): StationRow {
  const { id = '', name = '' } = part.faces[index] ?? {};
  const segment = part.segments[index];
  return {
    id,
    kind: 'face',
    index,
    name,
    place,
    segment: segment ? { item: segment, index } : null,
    edges: where(part.edges, (edge) => edge.face === id),
    holes: where(part.holes, (hole) => hole.from === id),
    crossings: [],
  };
}

function pointRow(part: Part, index: number, place: number | null): StationRow {
  const { id = '', name = '' } = part.points[index] ?? {};
  const crossings = where(part.crossings, (crossing) => crossing.at === id);
  return { id, kind: 'point', index, name, place, segment: null, edges: [], holes: [], crossings };
}

const inMm = (figure: number, unit: Unit): number => (figure * PM_PER[unit]) / PM_PER.mm;
