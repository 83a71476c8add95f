import { nearest, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { findAims } from './aims.ts';
import { chainErrors, tooLong } from './chain-errors.ts';
import type { Detection } from './detect.ts';
import type { Tie } from './graph.ts';
import { listGroups, listMissing } from './missing.ts';
import { orderProblems } from './order.ts';
import { findProof } from './proof.ts';
import { referenceWarnings } from './references.ts';
import { takeStock } from './situation.ts';
import type { Situation } from './situation.ts';
import { listSpans, tightest } from './spans.ts';
import type { ChainsReport, ChainState, SolvedChains } from './types.ts';

/** As `solveChains`, with what looks for misread sizes handed in: null where nobody looks, and none is named. */
export function tieUp(
  part: ResolvedPart,
  detect: ((situation: Situation) => Detection) | null,
): SolvedChains {
  const outsize = tooLong(takeStock(part));
  const situation = takeStock(outsize ? { ...part, lengths: [], segments: [] } : part);
  const aims = findAims(situation);
  const proof = findProof(situation);
  const detection = detect?.(situation) ?? null;
  const order = orderProblems(situation, aims, proof);
  const missing = listMissing(situation);
  const { loops, graph } = situation;
  const idsOf = (ties: readonly number[]) => ties.map((t) => (graph.ties[t] as Tie).id);
  const report: ChainsReport = {
    state: stateOf(situation),
    groups: listGroups(situation),
    missing,
    doubled: loops.filter(({ closes }) => closes).map(({ ties }) => ({ lengths: idsOf(ties) })),
    clashes: loops
      .filter(({ closes }) => !closes)
      .map(({ ties, gap, shortBy }) => ({
        lengths: idsOf(ties),
        gap_mm: toMm(nearest(Math.abs(gap))),
        within_limits: shortBy <= 0,
      })),
    impossible: proof?.entry ?? null,
    suspects: detection?.suspects ?? [],
    stations: listStations(situation, aims),
    spans: listSpans(situation),
  };
  const errors: Problem[] = outsize
    ? [outsize]
    : [...chainErrors(situation, { missing, detection, proof }), ...order];
  return {
    report,
    places: placesOf(situation, aims),
    placeable: errors.length === 0 && graph.faceCount > 1,
    span: (from, to) => {
      const [a, b] = [graph.numberOf.get(from), graph.numberOf.get(to)];
      return a === undefined || b === undefined ? null : tightest(situation, a, b);
    },
    errors,
    warnings: referenceWarnings(situation),
  };
}

function stateOf({ loops, all }: Situation): ChainState {
  if (loops.some(({ closes }) => !closes)) return 'clashing';
  if (all.trees > 1) return 'open';
  return loops.length > 0 ? 'doubled' : 'closed';
}

/** Nominal place from the first face; null where undetermined or hanging on a clashing loop. */
function nominalPlace({ graph, sound }: Situation, station: number): Length | null {
  if (graph.faceCount === 0 || sound.tree[station] !== sound.tree[0]) return null;
  return nearest((sound.nominal[station] as number) - (sound.nominal[0] as number));
}

/** Without a prototype, so that a station named `__proto__` is one key among others. */
function listStations(situation: Situation, aims: readonly (Length | null)[]): ChainsReport['stations'] {
  const mm = (length: Length | null | undefined) => (length == null ? null : toMm(length));
  const stations: ChainsReport['stations'] = Object.create(null);
  situation.graph.stations.forEach((id, s) => {
    stations[id] = { z_mm: mm(nominalPlace(situation, s)), aim_mm: mm(aims[s]) };
  });
  return stations;
}

function placesOf(situation: Situation, aims: readonly (Length | null)[]): SolvedChains['places'] {
  const places = new Map<string, { nominal: Length; aim: Length }>();
  situation.graph.stations.forEach((id, s) => {
    const nominal = nominalPlace(situation, s);
    const aim = aims[s] ?? null;
    if (nominal !== null && aim !== null) places.set(id, { nominal, aim });
  });
  return places;
}
