import { cutCorners } from './corners.ts';
import { drillEnd, faceEnd } from './ends.ts';
import type { Corner, Work } from './frame.ts';
import { landGrips, type LandGrip, whyNotGripped } from './grips.ts';
import { type Bench, HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { turnOutside } from './outside.ts';
import { gripAt } from './pins.ts';
import type { Piece } from './billet.ts';
import { cutByDie, dieServes } from './threading.ts';
import { turnTool } from './tool-choice.ts';
import type { Support } from './types.ts';
import { endDatum, FREE_DIAMETERS, slenderness, tailStation } from './way.ts';
import { zOf } from './frame.ts';
import { size } from './words.ts';

/**
 * The finished outside gripped on its lands, an end free: waste faced off to length, holes, the end's own corners,
 * threads that a die reaches.
 */
export type SecondEnd = {
  readonly draft: HoldingDraft;
  readonly shimmed: boolean;
  readonly unsupported: boolean;
};

/** What is done at the free end. */
export type EndJob = {
  readonly id: string;
  readonly holes: boolean;
  /** Lands whose thread is cut by die from this end. */
  readonly threads: ReadonlySet<string>;
  /** How many lands from this end are still to be turned, and the corners that go with them. */
  readonly turn?: { readonly count: number; readonly corner: (corner: Corner) => boolean };
};

/**
 * @param work - Seen with the end that is worked on at the tailstock.
 * @param pieces - The bar as it stands, in this work's u.
 */
export function secondEnd(
  bench: Bench,
  work: Work,
  pieces: readonly Piece[],
  job: EndJob,
): SecondEnd | string {
  const clear = workEnd(work, job);
  const at = gripAt(bench, job.id, clear, clear);
  if (typeof at === 'string') return at;
  const settled = bench.pins.grips?.some(({ holding }) => holding === job.id) ?? false;
  const grips = landGrips(work, bench.lathe, at, pieces).filter(({ u0 }) => !settled || u0 === at);
  const wanted = bench.pins.grip;
  const grip = best(work, wanted === undefined ? grips : grips.filter((g) => g.lands.includes(wanted)));
  if (!grip && settled)
    return `${job.id} cannot be gripped ${size(at, bench.lathe)} from its free end: no land there is long and plain enough to hold`;
  if (!grip)
    return wanted !== undefined && grips.length > 0
      ? `turned round, ${wanted} cannot be gripped`
      : noGrip(work, bench, at, pieces);
  const support = supportFor(bench, work, grip, job.turn?.count ?? 0);
  const datum = datumFor(bench, work, grip, job.turn?.count ?? 0);
  const free = pieces[0]?.u0 ?? 0;
  const draft = new HoldingDraft(
    bench,
    work,
    pieces,
    {
      id: job.id,
      device: grip.device,
      grips: span(work, grip),
      headstock: work.headstock,
      stick_out_mm: (grip.u0 - free) / 1e9,
      support: support.list,
      steady_at_mm: support.at === null ? null : zOf(work, support.at) / 1e9,
      datum: { station: datum.station, how: datum.how },
    },
    datum.u,
  );
  const why = cutEnd(draft, job);
  if (why) return why;
  return { draft, shimmed: grip.shim, unsupported: support.wanted && support.at === null };
}

/** Cuts of the free end, in the order a turner takes them. */
function cutEnd(draft: HoldingDraft, job: EndJob): string | null {
  const { work, bench } = draft;
  const steady = draft.support.includes('steady') ? draft.setup.steady_at_mm : null;
  if (steady !== null) setSteady(draft, steady);
  const right = turnTool(bench.lathe, 'right');
  if (right) touch({ draft }, right);
  const why =
    faceEnd(draft, 0, tailStation(work), null) ??
    (job.holes ? drillEnd(draft, work.tailHoles, work.length) : null) ??
    turnRest(draft, job) ??
    cutCorners(
      draft,
      work.corners.filter((c) => c.atTail && c.u0 === 0),
    );
  if (why) return why;
  work.lands.forEach((land, i) => {
    if (!job.threads.has(land.id) || !dieServes(bench.lathe, work.lands, i)) return;
    if (steady !== null && land.u1 > steadyU(draft, steady)) takeSteady(draft);
    cutByDie(draft, i);
  });
  return null;
}

const steadyU = ({ work }: HoldingDraft, at_mm: number): number => zOf(work, Math.round(at_mm * 1e9));

function setSteady(draft: HoldingDraft, at_mm: number): void {
  const u = steadyU(draft, at_mm);
  const land = draft.work.lands.find((l) => l.u0 <= u && u <= l.u1);
  const fine = land?.segment.role === 'journal' || land?.segment.role === 'seat';
  draft.add({
    kind: 'support',
    u0: u,
    u1: u,
    d0: null,
    support: ['steady'],
    say: `Set the steady on the turned band ${land?.id ?? ''}, ${size(u - (draft.pieces[0]?.u0 ?? 0), draft.bench.lathe)} from the free end: the work run true by an indicator, the fingers brought up one by one until they just touch, oiled, and felt again as they warm.${fine ? ' On a finished fit: fingers of bronze or a strip of soft metal under them.' : ''}`,
  });
}

/** A die passes over all that lies between it and the free end. */
function takeSteady(draft: HoldingDraft): void {
  if (!draft.support.length) return;
  const u = draft.pieces[0]?.u0 ?? 0;
  draft.support = [];
  draft.add({
    kind: 'support',
    u0: u,
    u1: u,
    d0: null,
    support: [],
    say: 'Stop the spindle and take the steady away: the die passes over its place.',
  });
}

function turnRest(draft: HoldingDraft, { turn }: EndJob): string | null {
  const last = turn && draft.work.lands[turn.count - 1];
  if (!last) return null;
  return turnOutside(draft, 0, draft.pieces.at(-1)?.u1 ?? last.u1, {
    land: (i) => i < turn.count,
    corner: turn.corner,
  });
}

/** Nothing is gripped where this holding cuts: what it turns, the end's corner, threads that a die runs over. */
function workEnd(work: Work, { threads, turn }: EndJob): number {
  const turned = turn ? (work.lands[turn.count - 1]?.u1 ?? 0) : 0;
  const corner = Math.max(0, ...work.corners.filter((c) => c.atTail && c.u0 === 0).map((c) => c.u1));
  const thread = Math.max(0, ...work.lands.filter((l) => threads.has(l.id)).map((l) => l.u1));
  return Math.max(corner, thread, turned) + 1_000_000_000;
}

function best(work: Work, grips: readonly LandGrip[]): LandGrip | null {
  const cost = (grip: LandGrip): number => {
    const ratio = slenderness(work, grip.u0, 0, grip.u0);
    const far = ratio > FREE_DIAMETERS ? 10 : 0;
    return (
      (grip.shim ? 1000 : 0) +
      far +
      (grip.device === 'chuck' ? 3 : 0) +
      ratio +
      // A short bite lets the work rock: a diameter and a half holds well (common practice, no source).
      3 * Math.max(0, 1.5 - grip.held / grip.d) +
      grip.lands.length / 100
    );
  };
  const costed = grips.map((grip) => ({ grip, cost: cost(grip) }));
  return costed.sort((a, b) => a.cost - b.cost)[0]?.grip ?? null;
}

function noGrip(work: Work, bench: Bench, clear: number, pieces: readonly Piece[]): string {
  const lands = new Map<string, string[]>();
  for (const i of work.lands.keys()) {
    const no = whyNotGripped(work, bench.lathe, clear, pieces, i);
    if (no) lands.set(no.why, [...(lands.get(no.why) ?? []), no.land]);
  }
  const each = [...lands].map(([why, ids]) => `${ids.join(', ')} ${why}`);
  return `turned round, no finished land can be gripped: ${each.join('; ') || 'there is no cylinder'}`;
}

const span = (work: Work, grip: LandGrip): { z0_mm: number; z1_mm: number; on: 'bar' | string[] } => {
  const za = zOf(work, grip.u0) / 1e9;
  const zb = zOf(work, grip.u1) / 1e9;
  const on = grip.on === 'bar' ? 'bar' : work.headstock === 'left' ? [...grip.on].reverse() : grip.on;
  return { z0_mm: Math.min(za, zb), z1_mm: Math.max(za, zb), on };
};

/** A steady on a turned band near the free end, where the work stands out far and a steady is at hand. */
function supportFor(
  bench: Bench,
  work: Work,
  grip: LandGrip,
  unturned: number,
): { list: Support[]; at: number | null; wanted: boolean } {
  const wanted = slenderness(work, grip.u0, 0, grip.u0) > FREE_DIAMETERS;
  if (!wanted || !bench.lathe.support.includes('steady')) return { list: [], at: null, wanted };
  const band = work.lands.find(
    (l, i) =>
      i >= unturned &&
      l.segment.form === 'cylinder' &&
      !l.segment.keepsSkin &&
      l.u1 <= grip.u0 &&
      l.u1 - l.u0 >= 5_000_000_000,
  );
  if (!band) return { list: [], at: null, wanted };
  return { list: ['steady'], at: Math.round((band.u0 + band.u1) / 2), wanted };
}

/** A finished shoulder that looks to the free end and can be touched; else the end itself and a measured length. */
function datumFor(
  bench: Bench,
  work: Work,
  grip: LandGrip,
  unturned: number,
): { station: string; u: number; how: string } {
  for (const [i, land] of work.lands.entries()) {
    const before = work.lands[i - 1];
    // Both sides of the shoulder must have been finished before.
    if (!before || (unturned > 0 && i <= unturned) || land.u0 >= grip.u0) continue;
    if (land.d0 > before.d1)
      return {
        station: land.tailFace,
        u: land.u0,
        how: `Touch the tool on shoulder ${land.tailFace} and set Z to zero there.`,
      };
  }
  const { station, u } = endDatum(work, 0, bench.lathe);
  return {
    station,
    u,
    how: `Face lightly, measure the whole length, and set Z to what it is still too long: the finished length is ${size(work.length, bench.lathe)}.`,
  };
}
