import { type Length, pm } from '../lengths/length.ts';
import type { OutlineHole } from '../outline/types.ts';
import { type CentreDrill, centreDrillForWork } from '../standards/centre-drills.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { drillHole, spot } from './holes.ts';
import { touch } from './outside-job.ts';
import { turnTool } from './tool-choice.ts';
import { list, size } from './words.ts';

/**
 * Faces the free end back to u. `station` names the end of the part that this makes; null where the face is in waste.
 * @returns Why it cannot be done, or null.
 */
export function faceEnd(
  draft: HoldingDraft,
  u: number,
  station: string | null,
  makes: string | null,
): string | null {
  const right = turnTool(draft.bench.lathe, 'right');
  if (!right) return 'the lathe file has no right-hand turning tool to face with';
  const from = draft.pieces[0]?.u0 ?? u;
  if (from >= u) return null;
  touch({ draft }, right);
  const { lathe, material } = draft.bench;
  const readings = [draft.z(u, station)];
  const long = u - from > 3 * lathe.cut.rough;
  const first = long ? `Saw the waste off close to the line, then face` : 'Face';
  draft.add({
    kind: 'face',
    u0: from,
    u1: u,
    d0: 0,
    makes,
    tool: right,
    passes: Math.max(1, Math.ceil((u - from) / lathe.cut.rough)),
    surface: material.speed.rough.low,
    feed: lathe.feeds[0] ?? null,
    readings,
    say: `${first} the end${keptEnd(draft, station)} to ${list(readings)}, ${size(u - from, lathe)} to come off, the last cut light.`,
  });
  return null;
}

/** " of the stub, which stays" where that is the end. */
const keptEnd = ({ work: { tailStub } }: HoldingDraft, station: string | null): string =>
  tailStub && station === tailStub.outer ? ` of the stub, which stays beyond ${tailStub.face},` : '';

/** Spots, drills, bores, and taps what begins at the free end, the narrowest first. Returns why not, or null. */
export function drillEnd(draft: HoldingDraft, holes: readonly OutlineHole[], through: number): string | null {
  const bores = holes.filter((h) => h.form !== 'centre').sort((a, b) => a.diameter - b.diameter);
  if (bores[0]) spot(draft, bores[0]);
  let open = 0;
  for (const hole of bores) {
    const why = drillHole(draft, hole, through, open);
    if (why) return why;
    open = Math.max(open, hole.diameter);
  }
  for (const hole of holes.filter((h) => h.form === 'centre'))
    centreHole(draft, hole.diameter, hole.depth, hole.id, hole.toolName);
  return null;
}

/** How the centre finds its seat at the free end. */
export type Seat =
  /** A drawn centre hole, which `drillEnd` made. */
  | { readonly kind: 'drawn' }
  /** The mouth of a drawn hole, countersunk to 60°. */
  | { readonly kind: 'mouth'; readonly hole: OutlineHole; readonly mouth: number }
  /** A centre hole in waste that is faced off later, or one that stays in the end of the part. */
  | { readonly kind: 'stub' | 'left'; readonly drill: CentreDrill };

/** The seats that the free end of the part offers, best first. */
export function seatsAt(draft: Pick<HoldingDraft, 'work' | 'bench'>): Seat[] {
  const end = draft.work.lands[0];
  if (!end) return [];
  if (draft.work.tailHoles.some((h) => h.form === 'centre')) return [{ kind: 'drawn' }];
  const widest = [...draft.work.tailHoles].sort((a, b) => b.diameter - a.diameter)[0];
  if (widest) {
    const top = widest.thread ? Math.max(widest.thread.nominal, widest.diameter) : widest.diameter;
    const mouth = top + 1_000_000_000;
    return mouth < 0.9 * Math.min(end.d0, chamferedTo(draft)) ? [{ kind: 'mouth', hole: widest, mouth }] : [];
  }
  const { unit } = draft.bench.lathe;
  const face = pm(Math.min(end.d0, chamferedTo(draft)));
  const left = centreDrillForWork(face, unit);
  // In an end that is smaller than the mouth of the smallest drill no centre hole can stay.
  const stays: Seat[] = left.mouth < face ? [{ kind: 'left', drill: left }] : [];
  // A stub that stays anyway carries the centre itself.
  if (draft.work.tailStub) return stays;
  return [{ kind: 'stub', drill: centreDrillForWork(pm(end.blank), unit) }, ...stays];
}

/** The seats that agree with what was settled. */
export const settledSeats = ({ bench }: Pick<HoldingDraft, 'bench'>, seats: readonly Seat[]): Seat[] =>
  seats.filter(({ kind }) => bench.pins.seat === undefined || bench.pins.seat === kind);

const SEAT_WORDS: Readonly<Record<Seat['kind'], string>> = {
  drawn: 'no centre hole is drawn',
  mouth: 'there is no hole with a mouth',
  stub: 'a hole is drawn, and no stub is left before it',
  left: 'a hole is drawn where the centre hole would stay',
};
/** Why no seat is left once one was settled. */
export const noSuchSeat = ({ bench, work }: Pick<HoldingDraft, 'work' | 'bench'>): string =>
  `the centre cannot bear at end ${work.lands[0]?.tailFace ?? ''} as settled: ${SEAT_WORDS[bench.pins.seat ?? 'drawn']}`;

/** Diameter of the end face inside a chamfer at the free end. */
function chamferedTo(draft: Pick<HoldingDraft, 'work'>): number {
  const edge = draft.work.corners.find((c) => c.land === 0 && c.atTail && c.edge.form === 'chamfer');
  return edge ? Math.min(edge.d0, edge.d1) : Infinity;
}

/** Length of the 60° cone between a mouth and a bore. */
export const coneDepth = (mouth: number, bore: number): number =>
  Math.round((mouth - bore) / 2 / Math.tan(Math.PI / 6));

/** Depth of a centre hole: its cone and a pilot of its own diameter beyond. */
export const centreDepth = (drill: CentreDrill): number => coneDepth(drill.mouth, drill.pilot) + drill.pilot;

/** Makes the seat for the centre at the free end, which stands faced. */
export function makeSeat(draft: HoldingDraft, seat: Seat): void {
  if (seat.kind === 'drawn') return;
  if (seat.kind === 'mouth') {
    const { hole, mouth } = seat;
    const u = draft.pieces[0]?.u0 ?? 0;
    draft.add({
      kind: 'centre-drill',
      u0: u,
      u1: u + coneDepth(mouth, hole.diameter),
      d0: mouth,
      makes: hole.id,
      inside: true,
      surface: draft.bench.material.speed.drill.low,
      readings: [draft.x(mouth, true)],
      setting: { centre_drill: '60° countersink', angle_deg: 60 },
      say: `Countersink the mouth of the hole 60° to ${size(mouth, draft.bench.lathe)}: it carries the centre.`,
    });
    return;
  }
  const makes = seat.kind === 'stub' ? 'centre-stub' : null;
  centreHole(
    draft,
    seat.drill.mouth,
    pm(centreDepth(seat.drill)),
    makes,
    `${seat.drill.designation} centre drill`,
  );
}

function centreHole(
  draft: HoldingDraft,
  mouth: number,
  depth: Length | null,
  makes: string | null,
  name: string,
): void {
  const u = draft.pieces[0]?.u0 ?? 0;
  const deep = depth ?? coneDepth(mouth, 0);
  draft.add({
    kind: 'centre-drill',
    u0: u,
    u1: u + deep,
    d0: mouth,
    makes,
    inside: true,
    surface: draft.bench.material.speed.drill.low,
    readings: [],
    setting: { centre_drill: name },
    say: `Centre-drill the end with the ${name}, mouth ${size(mouth, draft.bench.lathe)}; a drop of oil, light feed.`,
  });
}
