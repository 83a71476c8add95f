import type { BeamPiece } from '../stiffness/beam.ts';
import { segmentError } from '../stiffness/error.ts';
import type { Piece } from './billet.ts';
import { mainForce, radialForce } from '../stiffness/force.ts';
import type { FinishNote, HoldingDraft } from './holding-draft.ts';
import { zOf } from './frame.ts';
import type { StiffnessRow } from './types.ts';

/** Feed that is reckoned with where the lathe file names none: a fine hand feed, 0.05 mm a turn (common practice). */
const HAND_FEED = 50_000_000;

/** A travelling steady bears so far behind the tool's point, mm (common practice, no source). */
const TRAVELS_BEHIND = 8;

/**
 * How far the work springs from the tool along every finishing cut, with the bar as it stood then and held as it was:
 * the range of twice the deflection, beside the width of the limits. Metals without a published cutting force, and
 * lands without limits, have no row.
 */
export function stiffnessRows(drafts: readonly HoldingDraft[]): StiffnessRow[] {
  return drafts.flatMap((draft) => draft.finishes.flatMap((note) => row(draft, note)));
}

function row(draft: HoldingDraft, note: FinishNote): StiffnessRow[] {
  const { material, lathe } = draft.bench;
  const land = draft.work.lands.find((l) => l.id === note.land);
  if (!land || material.kc11 === null || material.mc === null) return [];
  const limit = land.segment.max - land.segment.min;
  if (limit <= 0) return [];
  const feed_mm = (lathe.feeds[0] ?? HAND_FEED) / 1e9;
  const main = mainForce({ kc11: material.kc11, mc: material.mc }, { depth_mm: note.depth / 1e9, feed_mm });
  const force = radialForce(main);
  const edge = gripEdge(draft, note);
  const away = (u: number): number => (edge - u) / 1e9;
  const centres = draft.setup.device === 'centres';
  const steady = draft.setup.steady_at_mm;
  const error = segmentError({
    pieces: beamPieces(draft, note, edge),
    support: {
      centre: centres || note.support.includes('centre'),
      steadyAt_mm:
        steady !== null && note.support.includes('steady')
          ? away(zOf(draft.work, Math.round(steady * 1e9)))
          : null,
      travellingBehind_mm: note.support.includes('travelling-steady') ? TRAVELS_BEHIND : null,
      start: centres ? 'centre' : 'grip',
    },
    from_mm: away(note.u1),
    to_mm: away(note.u0),
    radialForce_N: force,
    youngs_MPa: material.youngs,
  });
  return [
    {
      holding: draft.setup.id,
      segment: note.land,
      force_n: force,
      error_mm: error,
      limit_mm: limit / 1e9,
      ok: error <= limit / 1e9,
    },
  ];
}

/** Where the bar is held: the grip's edge toward the free end; between centres the far end of the bar. */
function gripEdge(draft: HoldingDraft, note: FinishNote): number {
  const { grips, device } = draft.setup;
  if (device === 'centres' || !grips) return note.pieces.at(-1)?.u1 ?? 0;
  const ends = [grips.z0_mm, grips.z1_mm].map((z) => zOf(draft.work, Math.round(z * 1e9)));
  return Math.min(...ends);
}

type Hole = { readonly deep: number; readonly d: number };

/** The bar from the grip outward, split where a hole ends. Plain loops: this runs for every finishing cut of every way. */
function beamPieces(draft: HoldingDraft, note: FinishNote, edge: number): BeamPiece[] {
  const holes: Hole[] = [];
  for (const hole of draft.work.tailHoles)
    holes.push({ deep: hole.depth ?? draft.work.length, d: hole.diameter });
  holes.sort((a, b) => a.deep - b.deep);
  const found: BeamPiece[] = [];
  for (let i = note.pieces.length - 1; i >= 0; i--) {
    const piece = note.pieces[i];
    if (piece && piece.u0 < edge) split(found, holes, piece, edge);
  }
  return found;
}

function split(found: BeamPiece[], holes: readonly Hole[], { u0, u1, d }: Piece, edge: number): void {
  let end = u1;
  for (let k = holes.length - 1; k >= 0; k--) {
    const deep = holes[k]?.deep ?? 0;
    if (deep <= u0 || deep >= end) continue;
    add(found, holes, deep, Math.min(end, edge), d, edge);
    end = deep;
  }
  add(found, holes, u0, Math.min(end, edge), d, edge);
}

function add(
  found: BeamPiece[],
  holes: readonly Hole[],
  u0: number,
  u1: number,
  d: number,
  edge: number,
): void {
  if (u1 <= u0) return;
  let bore = 0;
  for (const hole of holes) if (hole.deep >= u1) bore = Math.max(bore, hole.d);
  found.push({
    z0_mm: (edge - u1) / 1e9,
    z1_mm: (edge - u0) / 1e9,
    d_mm: d / 1e9,
    bore_mm: Math.min(bore, d * 0.99) / 1e9,
  });
}
