import { nearest } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import { doubledMids } from './forest.ts';
import { constraintsOf, findPlaces, shortestDistances } from './limits.ts';
import type { Situation } from './situation.ts';

/**
 * Aim place of each station, in pm from the first face: the middle of its tightest span from there, which on a tree is every length
 * at mid-limits. Null where undetermined or hanging on a clashing loop. Where the limits as a whole are impossible, the lengths
 * that hang together without a clash decide, without regard to the order of the faces; null where even these are impossible.
 */
export function findAims(situation: Situation): (Length | null)[] {
  const { graph, sound, feasibility } = situation;
  if (graph.faceCount === 0) return graph.stations.map(() => null);
  const [constraints, possible] = feasibility.possible
    ? [situation.constraints, feasibility]
    : soundOnly(situation);
  if (!possible.possible) return graph.stations.map(() => null);
  const ahead = shortestDistances(constraints, possible.places, 0, 'from');
  const back = shortestDistances(constraints, possible.places, 0, 'to');
  return graph.stations.map((_, s) => {
    if (sound.tree[s] !== sound.tree[0]) return null;
    return nearest(Math.floor(((ahead[s] as number) - (back[s] as number)) / 2));
  });
}

function soundOnly({ graph, sound, clashing }: Situation) {
  const together = (t: number) => {
    const tie = graph.ties[t];
    return clashing[t] === 0 && tie !== undefined && sound.tree[tie.from] === sound.tree[tie.to];
  };
  const constraints = constraintsOf(graph, together, false);
  const guess = doubledMids(graph, sound).map((doubled) => doubled / 2);
  return [constraints, findPlaces(constraints, guess)] as const;
}
