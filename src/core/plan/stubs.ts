import { type Length, pm, plus } from '../lengths/length.ts';
import { largestDiameter } from '../outline/solid.ts';
import type { KeptStub, Outline, OutlineEdge, OutlineHole, OutlineSegment } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedStub } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { centreDrillForWork } from '../standards/centre-drills.ts';
import { centreDepth } from './ends.ts';

/**
 * The part with the stubs that stay beyond its ends as segments of their own, so that all that is known of lands holds
 * for them: they are turned, gripped and measured, and the part's end becomes a shoulder. Places count from the
 * outer end of the left stub, see `inPartCoordinates`.
 *
 * @param bar - Diameter of the bar, which a stub without one has; null where none is chosen yet.
 * @returns The very outline where there are no stubs.
 */
export function withStubs(
  bare: Outline,
  stubs: readonly ResolvedStub[],
  lathe: ResolvedLathe,
  bar: Length | null,
): Outline {
  if (!stubs.length) return bare;
  const first = stubs.find(({ end }) => end === 'first');
  const last = stubs.find(({ end }) => end === 'last');
  const ahead = first?.length ?? pm(0);
  const [left, right] = [ahead, plus(ahead, bare.length)];
  const length = plus(right, last?.length ?? pm(0));
  const own = stubs.map((stub) => named(stub, bare));
  const moved = moveOutline(bare, ahead);
  const shape = (stub: ResolvedStub): OutlineSegment => {
    const name = own.find(({ end }) => end === stub.end);
    if (!name) throw new RangeError('withStubs: a stub without a name');
    const [z0, z1] = stub.end === 'first' ? [pm(0), left] : [right, length];
    return segmentOf(stub, name, { z0, z1 }, bar ?? largestDiameter(bare), bar !== null);
  };
  const segments = [...(first ? [shape(first)] : []), ...moved.segments, ...(last ? [shape(last)] : [])];
  const ends = own.map(({ outer, end }) => [outer, end === 'first' ? pm(0) : length] as const);
  return {
    ...moved,
    length,
    stations: new Map([...moved.stations, ...ends]),
    segments,
    edges: moved.edges.filter((edge) => !isCovered(edge, own, segments)),
    holes: [
      ...moved.holes.map((hole) => stopped(hole, stubs, bare.length)),
      ...own.filter(({ centre }) => centre).map((stub) => centreIn(stub, segments, lathe)),
    ],
    kept: { bare, stubs: own },
  };
}

/** Names that nothing in the part has. */
function named(stub: ResolvedStub, { stations, segments }: Outline): KeptStub {
  const taken = new Set([...stations.keys(), ...segments.map(({ id }) => id)]);
  const free = (text: string): string => {
    let name = text;
    while (taken.has(name)) name += '′';
    return name;
  };
  const { end, face, centre } = stub;
  return { id: free(`stub ${face}`), end, face, outer: free(`stub end ${face}`), centre };
}

function segmentOf(
  { end, face, diameter }: ResolvedStub,
  { id, outer }: KeptStub,
  { z0, z1 }: { z0: Length; z1: Length },
  bar: Length,
  chosen: boolean,
): OutlineSegment {
  const { aim, min, max } = diameter ?? { aim: bar, min: bar, max: bar };
  const [left, right] = end === 'first' ? [outer, face] : [face, outer];
  // Nothing is turned where the bar is as the stub is to be.
  const keepsSkin = chosen && (diameter === null || (bar >= min && bar <= max));
  const d = keepsSkin ? bar : aim;
  return {
    ...{ id, form: 'cylinder', left, right, z0, z1, d0: d, d1: d, min, max },
    ...{ role: null, thread: null, halfAngleDeg: 0, keepsSkin },
  };
}

function moveOutline(bare: Outline, by: Length): Outline {
  const moved = <T extends { readonly z0: Length; readonly z1: Length }>(item: T): T => ({
    ...item,
    z0: plus(item.z0, by),
    z1: plus(item.z1, by),
  });
  return {
    ...bare,
    stations: new Map([...bare.stations].map(([id, z]) => [id, plus(z, by)])),
    segments: bare.segments.map(moved),
    edges: bare.edges.map(moved),
    crossings: bare.crossings.map(moved),
  };
}

/** An edge at an end of the part that a stub as thick as its foot stands before: nothing gets at it. */
function isCovered(
  edge: OutlineEdge,
  stubs: readonly KeptStub[],
  segments: readonly OutlineSegment[],
): boolean {
  const stub = stubs.find(({ face }) => face === edge.face);
  const shape = segments.find(({ id }) => id === stub?.id);
  return shape !== undefined && shape.d0 > Math.min(edge.d0, edge.d1);
}

/** A through hole stops where a stub begins. */
function stopped(hole: OutlineHole, stubs: readonly ResolvedStub[], length: Length): OutlineHole {
  const far = hole.from === 'first' ? 'last' : 'first';
  return hole.depth === null && stubs.some(({ end }) => end === far) ? { ...hole, depth: length } : hole;
}

function centreIn(stub: KeptStub, segments: readonly OutlineSegment[], lathe: ResolvedLathe): OutlineHole {
  const own = segments.find(({ id }) => id === stub.id);
  // A centre hole ends inside its stub: a short one takes a smaller drill.
  let d = own?.d0 ?? pm(0);
  let drill = centreDrillForWork(d, lathe.unit);
  while (own && centreDepth(drill) > own.z1 - own.z0 && d > 1e9) {
    d = pm(Math.floor(d / 2));
    drill = centreDrillForWork(d, lathe.unit);
  }
  const diameter = drill.mouth;
  return {
    ...{ id: `${stub.id} centre`, from: stub.end, form: 'centre', diameter, min: diameter, max: diameter },
    ...{ depth: pm(centreDepth(drill)), thread: null, threadDepth: null },
    toolName: `${drill.designation} centre drill`,
  };
}

/**
 * What keeping stubs means for the part. Codes: `stub-kept` (what stays, and how its end is left), `stub-covers` (an
 * end or an edge of the part that is only made when the stub goes).
 */
export function stubWarnings({ kept, segments, edges }: Outline): Problem[] {
  return (kept?.stubs ?? []).flatMap((stub) => {
    const at = segments.findIndex(({ id }) => id === stub.id);
    const own = segments[at];
    const beside = stub.end === 'first' ? segments[at + 1] : segments[at - 1];
    const land = (stub.end === 'first' ? beside?.d0 : beside?.d1) ?? 0;
    const lost = (kept?.bare.edges ?? [])
      .filter(({ id, face }) => face === stub.face && !edges.some((edge) => edge.id === id))
      .map(({ id }) => id);
    const covers = (own?.d0 ?? 0) >= land ? [`end face ${stub.face}`, ...lost] : lost;
    const stays = `The stub beyond end ${stub.face} stays for a later fixture: that end is never faced here, nor the stub parted or sawn off.`;
    const later = `${covers.join(' and ')} ${covers.length > 1 ? 'are' : 'is'} under the stub: what is to be made there is made when the stub goes.`;
    return [
      { code: 'stub-kept', where: stub.face, say: stays },
      ...(covers.length ? [{ code: 'stub-covers', where: stub.face, say: capital(later) }] : []),
    ];
  });
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
