import { takeStock } from '../../core/chains/situation.ts';
import type { Length } from '../../core/lengths/length.ts';
import type { ResolvedPart } from '../../core/part/resolved.ts';
import type { DiameterRow } from '../../core/report-types.ts';

/** A length, or a taper that acts as one, with its ends and limits in pm. */
export type Tied = {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly min: number;
  readonly max: number;
};

/** All that ties stations to each other: binding lengths and tapers that act as one, by id. */
export function tiesOf(part: ResolvedPart): ReadonlyMap<string, Tied> {
  const { graph } = takeStock(part);
  const name = (station: number) => graph.stations[station] ?? '';
  return new Map(
    graph.ties.map(({ id, from, to, min, max }) => [id, { id, from: name(from), to: name(to), min, max }]),
  );
}

export type LoopLine = {
  readonly id: string;
  readonly x0: number;
  readonly x1: number;
  readonly lane: number;
};
/** The smallest drawing of a loop: its stations, its lengths in lanes, and the part's outline above them. */
export type LoopDrawing = {
  readonly width: number;
  readonly stations: readonly { readonly id: string; readonly x: number }[];
  readonly lines: readonly LoopLine[];
  readonly lanes: number;
  /** Segments between the outermost stations: their ends, and how high of the highest (0 to 1) at each. */
  readonly lands: readonly {
    readonly x0: number;
    readonly x1: number;
    readonly h0: number;
    readonly h1: number;
  }[];
};

const LEAST_WIDTH = 320;

/** Draws the given ties not to scale: long gaps are longer, and none is shorter than `room`. */
export function drawLoop(
  part: ResolvedPart,
  diameters: readonly DiameterRow[],
  ties: readonly Tied[],
  room: number,
): LoopDrawing {
  const sketched = (id: string): number => part.sketched.get(id) ?? 0;
  const stations = [...new Set(ties.flatMap(({ from, to }) => [from, to]))].sort(
    (a, b) => sketched(a) - sketched(b) || order(part, a) - order(part, b),
  );
  const places = placed(stations.map(sketched), room);
  const at = (id: string): number => places[stations.indexOf(id)] ?? 0;
  const lines = inLanes(
    ties.map(({ id, from, to }) => ({ id, x0: Math.min(at(from), at(to)), x1: Math.max(at(from), at(to)) })),
  );
  return {
    width: places.at(-1) ?? 0,
    stations: stations.map((id) => ({ id, x: at(id) })),
    lines,
    lanes: Math.max(0, ...lines.map(({ lane }) => lane + 1)),
    lands: landsOf(part, diameters, betweenThem(stations.map(sketched), places)),
  };
}

const order = (part: ResolvedPart, id: string): number => [...part.faces, ...part.points].indexOf(id);

/** Places with at least `room` between neighbours; what is left is given out as they are sketched. */
function placed(sketched: readonly number[], room: number): number[] {
  const gaps = sketched.slice(1).map((place, i) => Math.max(0, place - (sketched[i] ?? 0)));
  const total = gaps.reduce((sum, gap) => sum + gap, 0) || 1;
  const free = Math.max(LEAST_WIDTH - room * gaps.length, 0);
  let x = 0;
  return [0, ...gaps.map((gap) => (x += room + (free * gap) / total))];
}

/** Shorter lines inside, none over another. */
function inLanes(lines: readonly Omit<LoopLine, 'lane'>[]): LoopLine[] {
  const lanes: Omit<LoopLine, 'lane'>[][] = [];
  return [...lines]
    .sort((a, b) => a.x1 - a.x0 - (b.x1 - b.x0))
    .map((line) => {
      const free = lanes.findIndex((held) => held.every(({ x0, x1 }) => x1 <= line.x0 || x0 >= line.x1));
      const lane = free < 0 ? lanes.length : free;
      (lanes[lane] ??= []).push(line);
      return { ...line, lane };
    });
}

/** From sketched places to the drawing's, straight between the stations shown; null outside of them. */
function betweenThem(sketched: readonly number[], places: readonly number[]) {
  return (place: number): number | null => {
    for (let i = 0; i + 1 < sketched.length; i++) {
      const [a, b, x0, x1] = [sketched[i] ?? 0, sketched[i + 1] ?? 0, places[i] ?? 0, places[i + 1] ?? 0];
      if (place >= a && place <= b) return b > a ? x0 + ((x1 - x0) * (place - a)) / (b - a) : x0;
    }
    return null;
  };
}

function landsOf(
  part: ResolvedPart,
  diameters: readonly DiameterRow[],
  xAt: (place: Length | number) => number | null,
): LoopDrawing['lands'] {
  const aims = new Map(diameters.map((row) => [`${row.segment} ${row.end ?? ''}`, row.aim_mm]));
  const lands = part.segments.flatMap(({ id, left, right }) => {
    const [x0, x1] = [xAt(part.sketched.get(left) ?? 0), xAt(part.sketched.get(right) ?? 0)];
    const [start, end] = [aims.get(`${id} `) ?? aims.get(`${id} start`), aims.get(`${id} end`)];
    if (x0 === null || x1 === null || start == null) return [];
    return [{ x0, x1, h0: start, h1: end ?? start }];
  });
  const highest = Math.max(1e-9, ...lands.flatMap(({ h0, h1 }) => [h0, h1]));
  return lands.map((land) => ({ ...land, h0: land.h0 / highest, h1: land.h1 / highest }));
}

/** One step round an impossible loop. `id` is null where only the order of two faces is used. */
export type ProofStep = {
  readonly id: string | null;
  readonly from: string;
  readonly to: string;
  readonly min: number;
  readonly max: number;
};
/** Both ways round between two stations: `most` cannot reach what `least` needs at least. Figures in pm. */
export type ProofSides = {
  readonly most: readonly ProofStep[];
  readonly mostSum: number;
  readonly least: readonly ProofStep[];
  readonly leastSum: number;
};

/** The two sides of the proof: lengths that together reach so far at most, and lengths that need more at least. */
export function proofSides(
  part: ResolvedPart,
  { lengths, faces }: { readonly lengths: readonly string[]; readonly faces: readonly string[] },
): ProofSides | null {
  const all = tiesOf(part);
  const ties = lengths.flatMap((id) => all.get(id) ?? []);
  const forward: ProofStep[] = [];
  const backward: ProofStep[] = [];
  const used = new Set<string>();
  faces.forEach((here, i) => {
    const next = faces[(i + 1) % faces.length] ?? '';
    const tie = ties.find(
      ({ id, from, to }) =>
        !used.has(id) && ((from === here && to === next) || (from === next && to === here)),
    );
    if (tie) used.add(tie.id);
    const right = tie ? tie.from === here : order(part, next) > order(part, here);
    const step: ProofStep = tie ?? {
      ...{ id: null, min: 0, max: Infinity },
      ...(right ? { from: here, to: next } : { from: next, to: here }),
    };
    (right ? forward : backward).push(step);
  });
  return oneSide(forward, backward) ?? oneSide(backward, forward);
}

function oneSide(most: readonly ProofStep[], least: readonly ProofStep[]): ProofSides | null {
  const mostSum = most.reduce((sum, { max }) => sum + max, 0);
  const leastSum = least.reduce((sum, { min }) => sum + min, 0);
  return mostSum < leastSum ? { most, mostSum, least, leastSum } : null;
}
