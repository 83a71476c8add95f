import { nearest } from '../lengths/length.ts';
import type { Length, Unit } from '../lengths/length.ts';
import { writeShort } from '../lengths/write.ts';
import type { Problem } from '../problem.ts';
import type { Tie } from './graph.ts';
import type { Proof } from './proof.ts';
import { pathBetween } from './spans.ts';
import type { Situation } from './situation.ts';

/** Where lengths contradict the order of the drawing: faces that change places, points outside the part. */
export function orderProblems(
  situation: Situation,
  aims: readonly (Length | null)[],
  proof: Proof | null,
): Problem[] {
  const problems = [...segmentProblems(situation, aims), ...pointProblems(situation)];
  if (problems.length === 0 && proof?.byOrder) problems.push(proofProblem(situation, proof));
  return problems;
}

/** A determined segment of zero or negative length, named with the chain that made it so. */
function segmentProblems(situation: Situation, aims: readonly (Length | null)[]): Problem[] {
  const { part, graph, sound } = situation;
  return part.segments.flatMap((segment): Problem[] => {
    const left = graph.numberOf.get(segment.left);
    const right = graph.numberOf.get(segment.right);
    if (left === undefined || right === undefined || sound.tree[left] !== sound.tree[right]) return [];
    const nominal = nearest((sound.nominal[right] as number) - (sound.nominal[left] as number));
    const [from, to] = [aims[left] ?? null, aims[right] ?? null];
    const aim = from === null || to === null ? nominal : nearest(to - from);
    if (nominal > 0 && aim > 0) return [];
    const chain = (pathBetween(situation, left, right)?.ties ?? []).map((t) => (graph.ties[t] as Tie).id);
    const what =
      nominal > 0
        ? `would vanish between ${segment.left} and ${segment.right} with its lengths at mid-limits`
        : nominal === 0
          ? `has no length: ${segment.left} and ${segment.right} fall together`
          : `has a length of ${signed(nominal, part.unit)}: ${segment.right} falls to the left of ${segment.left}`;
    const by = chain.length > 0 ? ` by ${chain.join(', ')}` : '';
    return [
      {
        code: 'order',
        where: segment.id,
        say: `Segment ${segment.id} ${what}${by}.`,
        facts: { lengths: chain },
      },
    ];
  });
}

const signed = (length: Length, unit: Unit): string =>
  length < 0 ? `-${writeShort(nearest(-length), unit)}` : writeShort(length, unit);

function pointProblems(situation: Situation): Problem[] {
  const { part, graph, sound } = situation;
  const last = graph.faceCount - 1;
  return part.points.flatMap((id, k): Problem[] => {
    const point = graph.faceCount + k;
    const place = sound.nominal[point] as number;
    const beyond = [
      { face: 0, outside: last >= 0 && place < (sound.nominal[0] as number), side: 'left' },
      { face: last, outside: last >= 0 && place > (sound.nominal[last] as number), side: 'right' },
    ].find(({ face, outside }) => outside && sound.tree[face] === sound.tree[point]);
    if (!beyond) return [];
    const chain = (pathBetween(situation, beyond.face, point)?.ties ?? []).map(
      (t) => (graph.ties[t] as Tie).id,
    );
    const say = `${id} falls off the part, to the ${beyond.side} of ${graph.stations[beyond.face] ?? ''}, by ${chain.join(', ')}.`;
    return [{ code: 'order', where: id, say, facts: { lengths: chain } }];
  });
}

function proofProblem({ part }: Situation, { entry }: Proof): Problem {
  const faces = new Set(entry.faces);
  const segment = part.segments.find(({ left, right }) => faces.has(left) && faces.has(right));
  const say = `${entry.lengths.join(', ')} cannot be kept with ${entry.faces.join(', ')} in the order drawn.`;
  return {
    code: 'order',
    where: segment?.id ?? entry.faces[0] ?? '',
    say,
    facts: { lengths: entry.lengths },
  };
}
