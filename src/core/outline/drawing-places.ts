import { readSize } from '../lengths/read-size.ts';
import { PM_PER, toMm } from '../lengths/length.ts';
import type { ChainsReport } from '../chains/types.ts';
import type { Part, PartLength, SizeText } from '../part/types.ts';

/**
 * Where a drawing shows each station. This is not where the station *is*: what no size determines stands where it was
 * sketched, so that there is something to look at and to take hold of.
 */
export type DrawingPlaces = {
  /** Millimetres from the first face, by station id. Faces strictly increase, so a profile never folds. */
  readonly at: ReadonlyMap<string, number>;
  /** Stations that no chain of sizes ties to the first face. */
  readonly loose: ReadonlySet<string>;
  /** Stations that sizes tie to this one (itself included), in drawn order: they move together. */
  readonly tied: (id: string) => readonly string[];
  /** The `sketched` value (in the part's unit) that stands at this many millimetres on the drawing. */
  readonly toSketched: (mm: number) => number;
  /** From the first to the last face, mm. */
  readonly extent: number;
};

type Anchor = { readonly sketched: number; readonly mm: number };
type Tie = { readonly from: string; readonly to: string; readonly mm: number };

export const sizeTextOf = (size: SizeText): string => (typeof size === 'string' ? size : size.size);

/** Whether a length is bracketed on the plan: it is shown, and binds nothing. */
export const isReference = (length: PartLength): boolean =>
  length.role === 'reference' || (typeof length.size !== 'string' && length.size.role === 'reference');

/**
 * Places for drawing: solved places where the report has them; stations tied to one of those follow by their sizes
 * (also along a loop that clashes, first size said first); the rest interpolate their sketched place between placed
 * neighbours. Never fails: whatever the report lacks, faces come out in drawn order and apart.
 */
export function drawingPlaces(part: Part, chains: ChainsReport): DrawingPlaces {
  const unit = PM_PER[part.unit] / PM_PER.mm;
  const order = stationOrder(part);
  const groups = groupsOf(order, chains.groups);
  const offsets = offsetsIn(groups, tiesOf(part, chains));
  const first = part.faces[0]?.id;

  const wanted = new Map<string, number>();
  const firm = new Set<string>();
  for (const id of order) {
    const solved = chains.stations[id]?.z_mm ?? null;
    if (solved === null) continue;
    wanted.set(id, solved);
    firm.add(id);
  }
  if (first !== undefined && !firm.has(first)) {
    wanted.set(first, 0);
    firm.add(first);
  }
  const sketched = new Map([...part.faces, ...part.points].map((s) => [s.id, s.sketched]));
  const anchors = anchorsOf(order, sketched, wanted);
  const toMmPlace = (s: number) => along(anchors, s, 'sketched', 'mm', unit);
  for (const group of groups) placeGroup(group, offsets, wanted, (id) => toMmPlace(sketched.get(id) ?? 0));

  const at = settle(part, wanted, firm);
  const home = groups.find((group) => first !== undefined && group.includes(first)) ?? [];
  return {
    at,
    loose: new Set(order.filter((id) => !home.includes(id))),
    tied: (id) => groups.find((group) => group.includes(id)) ?? [id],
    toSketched: (mm) => along(anchors, mm, 'mm', 'sketched', 1 / unit),
    extent: at.get(part.faces.at(-1)?.id ?? '') ?? 0,
  };
}

/** Faces in file order with the points among them by sketched place. */
function stationOrder(part: Part): string[] {
  const faces = part.faces.map((f, i) => ({ id: f.id, sketched: f.sketched, rank: i }));
  const points = part.points.map((p) => {
    const after = part.faces.filter((f) => f.sketched <= p.sketched).length;
    return { id: p.id, sketched: p.sketched, rank: after - 0.5 };
  });
  return [...faces, ...points].sort((a, b) => a.rank - b.rank || a.sketched - b.sketched).map((s) => s.id);
}

function groupsOf(order: readonly string[], reported: readonly (readonly string[])[]): string[][] {
  const known = new Set(order);
  const groups = reported.map((group) => group.filter((id) => known.has(id))).filter((g) => g.length > 0);
  const named = new Set(groups.flat());
  return [...groups, ...order.filter((id) => !named.has(id)).map((id) => [id])];
}

function tiesOf(part: Part, chains: ChainsReport): Tie[] {
  const ties: Tie[] = [];
  const rank = new Map(part.faces.map((f, i) => [f.id, i]));
  for (const length of part.lengths) {
    const read = readSize(sizeTextOf(length.size), part.unit);
    if (isReference(length) || !read.ok) continue;
    const [a, b] = [rank.get(length.from), rank.get(length.to)];
    const turned = a !== undefined && b !== undefined && a > b;
    const [from, to] = turned ? [length.to, length.from] : [length.from, length.to];
    ties.push({ from, to, mm: toMm(read.value.nominal) });
  }
  for (const { from, to, nominal_mm } of chains.spans)
    if (nominal_mm !== null) ties.push({ from, to, mm: nominal_mm });
  return ties;
}

/** Each station's place relative to the first of its group that sizes reach, mm. */
function offsetsIn(groups: readonly (readonly string[])[], ties: readonly Tie[]): Map<string, number> {
  const next = new Map<string, { to: string; mm: number }[]>();
  const link = (from: string, to: string, mm: number) =>
    next.set(from, [...(next.get(from) ?? []), { to, mm }]);
  for (const { from, to, mm } of ties) {
    link(from, to, mm);
    link(to, from, -mm);
  }
  const offsets = new Map<string, number>();
  for (const [root] of groups) {
    if (root === undefined) continue;
    offsets.set(root, 0);
    const queue = [root];
    for (let id = queue.shift(); id !== undefined; id = queue.shift())
      for (const { to, mm } of next.get(id) ?? [])
        if (!offsets.has(to)) {
          offsets.set(to, (offsets.get(id) ?? 0) + mm);
          queue.push(to);
        }
  }
  return offsets;
}

function anchorsOf(
  order: readonly string[],
  sketched: ReadonlyMap<string, number>,
  placed: ReadonlyMap<string, number>,
): Anchor[] {
  const anchors: Anchor[] = [];
  for (const id of order) {
    const mm = placed.get(id);
    const s = sketched.get(id);
    if (mm === undefined || s === undefined) continue;
    const last = anchors.at(-1);
    if (!last || (s > last.sketched && mm > last.mm)) anchors.push({ sketched: s, mm });
  }
  return anchors.length > 0 ? anchors : [{ sketched: 0, mm: 0 }];
}

/** Piecewise straight through the anchors, and on past both ends with the given slope. */
function along(
  anchors: readonly Anchor[],
  x: number,
  from: keyof Anchor,
  to: keyof Anchor,
  slope: number,
): number {
  const right = anchors.findIndex((a) => a[from] >= x);
  const b = anchors[right];
  const a = right < 0 ? anchors.at(-1) : anchors[right - 1];
  if (a && b) return a[to] + ((x - a[from]) / (b[from] - a[from])) * (b[to] - a[to]);
  const end = a ?? b;
  return end ? end[to] + (x - end[from]) * slope : x * slope;
}

/** Gives the members of a group that have no solved place one, as a whole: by the first that has a place, or by sketch. */
function placeGroup(
  group: readonly string[],
  offsets: ReadonlyMap<string, number>,
  wanted: Map<string, number>,
  bySketch: (id: string) => number,
): void {
  const known = group.find((id) => wanted.has(id) && offsets.has(id)) ?? group[0];
  if (known === undefined) return;
  const base = (wanted.get(known) ?? bySketch(known)) - (offsets.get(known) ?? 0);
  for (const id of group) {
    if (wanted.has(id)) continue;
    const offset = offsets.get(id);
    wanted.set(id, offset === undefined ? bySketch(id) : base + offset);
  }
}

function settle(
  part: Part,
  wanted: ReadonlyMap<string, number>,
  firm: ReadonlySet<string>,
): Map<string, number> {
  const ids = part.faces.map((f) => f.id);
  const places = inOrder(
    ids.map((id) => wanted.get(id) ?? 0),
    ids.map((id) => firm.has(id)),
  );
  const at = new Map(ids.map((id, i) => [id, places[i] ?? 0]));
  const end = places.at(-1) ?? 0;
  for (const { id } of part.points) at.set(id, Math.min(Math.max(wanted.get(id) ?? 0, 0), end));
  return at;
}

/** Faces apart and in order. Firm ones stay (unless they contradict the order themselves), the rest give way. */
function inOrder(wanted: readonly number[], firm: readonly boolean[]): number[] {
  const places = [...wanted];
  const extent = Math.max(...wanted.map(Math.abs), 1e-3);
  const room = extent / 100;
  const fixed: number[] = [];
  wanted.forEach((x, i) => {
    const last = fixed.at(-1);
    if (firm[i] && (last === undefined || x > (wanted[last] ?? 0))) fixed.push(i);
  });
  const bounds = [...fixed, wanted.length];
  let left = -1;
  for (const right of bounds) {
    spread(places, left, right, room);
    left = right;
  }
  return places;
}

/** Keeps the places strictly between two fixed indices (either may lie outside the list) apart, and between them. */
function spread(places: number[], left: number, right: number, room: number): void {
  const [from, to] = [places[left], places[right]];
  const gap = from !== undefined && to !== undefined ? Math.min(room, (to - from) / (right - left)) : room;
  for (let i = left + 1; i < right; i++) {
    const before = places[i - 1];
    if (before !== undefined) places[i] = Math.max(places[i] ?? 0, before + gap);
  }
  for (let i = right - 1; i > left; i--) {
    const after = places[i + 1];
    if (after !== undefined) places[i] = Math.min(places[i] ?? 0, after - gap);
  }
}
