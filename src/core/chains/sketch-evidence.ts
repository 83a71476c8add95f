import { PM_PER } from '../lengths/length.ts';
import type { Tie } from './graph.ts';
import type { Situation } from './situation.ts';

/** However well the sketch fits, it is never taken to settle the matter: its odds stay within e^±3. */
const MOST = 3;
/** No sketch is finer than this. */
const FINEST = PM_PER.mm / 5;

/**
 * How much the sketched places speak for a changed size (a logarithm of odds). A sketch that is traced from the plan is roughly
 * to scale, so its own scatter about the other lengths says how far it can be trusted; one drawn without regard to scale
 * scatters widely and says next to nothing. It never makes a size: it only helps to rank.
 */
export function sketchEvidence({ part, graph }: Situation): (tie: number, value: number) => number {
  const sketched = graph.stations.map((id) => part.sketched.get(id));
  const drawn = ({ from, to }: Tie) => {
    const [a, b] = [sketched[from], sketched[to]];
    return a === undefined || b === undefined ? null : b - a;
  };
  const errors = graph.ties
    .flatMap((tie) => {
      const length = drawn(tie);
      return length === null ? [] : [Math.abs(length - tie.nominal)];
    })
    .sort((a, b) => a - b);
  const scatter = Math.max(FINEST, 1.5 * (errors[Math.floor(errors.length / 2)] ?? Infinity));
  return (t, value) => {
    const tie = graph.ties[t] as Tie;
    const length = drawn(tie);
    if (length === null) return 0;
    const odds = ((length - tie.nominal) ** 2 - (length - value) ** 2) / (2 * scatter ** 2);
    return Math.max(-MOST, Math.min(MOST, odds));
  };
}
