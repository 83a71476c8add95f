// Run by: node src/tools/run-ts.mjs tests/speed/chains.ts
// Chains on seeded random parts with 5 % of the lengths doubled: places and the gap of every length, beside a bare breadth-first search
// over typed arrays as the lower bound, the constraint solver @lume/kiwi, and least squares by ml-matrix; then the complete section. Each
// gets its input built beforehand (graph, constraints, matrix). Least processor time. Ends with code 1 where a goal is missed.
import { Constraint, Expression, Operator, Solver, Variable } from '@lume/kiwi';
import { Matrix, solve } from 'ml-matrix';
import { readFileSync } from 'node:fs';
import { layOut, openTies } from '../../src/core/chains/forest.ts';
import { chainGraph } from '../../src/core/chains/graph.ts';
import type { ChainGraph } from '../../src/core/chains/graph.ts';
import { solveChains } from '../../src/core/chains/solve.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import type { ResolvedPart } from '../../src/core/part/resolved.ts';
import { lengthBy, partOf } from '../core/chains/drawing.ts';
import { seeded } from '../core/chains/random.ts';
import { Goals, least, table } from './tools/least.ts';

type Shape = 'near' | 'far';
/** A turn of another solver that takes longer than this is stopped, and shown as such. */
const LONGEST_MS = 10_000;
const goals = new Goals();

/** Lengths run to one of the eight faces before (`near`, as on a drawing of a shaft), or to any face before (`far`). */
function randomPart(count: number, clash: boolean, shape: Shape): ResolvedPart {
  const random = seeded(count);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const places = [0];
  while (places.length < count) places.push((places.at(-1) ?? 0) + whole(100, 20_000));
  const pairs = places
    .slice(1)
    .map((_, k): [number, number] => [
      shape === 'near' ? Math.max(0, k + 1 - whole(1, 8)) : whole(0, k),
      k + 1,
    ]);
  const tree = pairs.length;
  for (let more = Math.round(count / 20) || 1; more > 0; more--) {
    const a = whole(0, count - 2);
    pairs.push([a, shape === 'near' ? Math.min(count - 1, a + whole(1, 30)) : whole(a + 1, count - 1)]);
  }
  const lengths = pairs.map(([a, b], i) => {
    const wrong = clash && i === tree ? 7e6 : 0;
    return lengthBy(
      i,
      `F${a}`,
      `F${b}`,
      ((places[b] ?? 0) - (places[a] ?? 0)) * 1e6 + wrong,
      whole(5, 100) * 1e6,
    );
  });
  return partOf(
    places.map((_, k) => `F${k}`),
    lengths,
  );
}

/** The lower bound: places by breadth-first search, and the gap of every other length, nothing else. */
function bareSearch(part: ResolvedPart): () => number {
  const { ties, head, tieAt, stations } = chainGraph(part);
  const from = Int32Array.from(ties, (tie) => tie.from);
  const to = Int32Array.from(ties, (tie) => tie.to);
  const nominal = Float64Array.from(ties, (tie) => tie.nominal);
  const place = new Float64Array(stations.length);
  const queue = new Int32Array(stations.length);
  const seen = new Uint8Array(stations.length);
  return () => {
    seen.fill(0);
    seen[0] = 1;
    let end = 1;
    for (let q = 0; q < end; q++) {
      const here = queue[q] as number;
      for (let k = head[here] as number; k < (head[here + 1] as number); k++) {
        const t = tieAt[k] as number;
        const right = from[t] === here;
        const there = (right ? to[t] : from[t]) as number;
        if (seen[there]) continue;
        seen[there] = 1;
        place[there] = (place[here] as number) + (right ? (nominal[t] as number) : -(nominal[t] as number));
        queue[end++] = there;
      }
    }
    let gaps = 0;
    for (let t = 0; t < from.length; t++) {
      gaps +=
        (place[to[t] as number] as number) - (place[from[t] as number] as number) - (nominal[t] as number);
    }
    return gaps;
  };
}

/** Ours: places, and the lengths that do not close. */
function places(graph: ChainGraph): { nominal: Float64Array; open: number } {
  const forest = layOut(graph);
  return { nominal: forest.nominal, open: openTies(graph, forest).length };
}

/** Constraints in microns. A length that clashes with those before it is refused and left out, as ours leaves it open. */
function kiwi({ ties, stations }: ChainGraph): () => { place: (station: number) => number; refused: number } {
  const variables = stations.map((id) => new Variable(id));
  const at = (station: number) => variables[station] as Variable;
  const start = new Constraint(new Expression(at(0)), Operator.Eq, 0);
  const lengths = ties.map(
    ({ from, to, nominal }) =>
      new Constraint(new Expression(at(to), [-1, at(from)]), Operator.Eq, nominal / 1e6),
  );
  return () => {
    const solver = new Solver();
    solver.addConstraint(start);
    let refused = 0;
    const from = process.cpuUsage();
    lengths.forEach((length, i) => {
      if (i % 50 === 0 && process.cpuUsage(from).user > LONGEST_MS * 1000) throw new RangeError('too long');
      try {
        solver.addConstraint(length);
      } catch {
        refused++;
      }
    });
    solver.updateVariables();
    return { place: (station) => at(station).value(), refused };
  };
}

/** Least squares over the same equations, in microns; the first station stands at 0. */
function leastSquares({ ties, stations }: ChainGraph): () => Matrix {
  const left = Matrix.zeros(ties.length + 1, stations.length);
  const right = Matrix.zeros(ties.length + 1, 1);
  ties.forEach(({ from, to, nominal }, row) => {
    left.set(row, to, 1).set(row, from, -1);
    right.set(row, 0, nominal / 1e6);
  });
  left.set(ties.length, 0, 1);
  return () => solve(left, right);
}

/** Time of another solver, or null where one turn alone takes too long. */
function beside(job: () => unknown): number | null {
  try {
    job();
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
  return least(job, 4);
}

/** That the others solve the same thing: places to a thousandth of a micron, and as many lengths that do not close. */
function mustAgree(graph: ChainGraph, clash: boolean): void {
  const ours = places(graph);
  const theirs = kiwi(graph)();
  const solved = leastSquares(graph)();
  graph.stations.forEach((id, s) => {
    const place = (ours.nominal[s] as number) / 1e6;
    const off = clash ? 0 : Math.max(Math.abs(theirs.place(s) - place), Math.abs(solved.get(s, 0) - place));
    if (off > 1e-3) throw new Error(`${id} at ${place}, not as the others say`);
  });
  if (clash !== ours.open > 0 || clash !== theirs.refused > 0) throw new Error('not the same lengths clash');
}

const ratio = (theirs: number | null, ours: number) => (theirs === null ? '' : (theirs / ours).toFixed(1));

type Last = { readonly ours: number; readonly bound: number };

/** One row of the table; `slow` holds the shapes at which kiwi took too long already. */
function measure(count: number, shape: Shape, clash: boolean, last: Last | undefined, slow: Set<string>) {
  const part = randomPart(count, clash, shape);
  const graph = chainGraph(part);
  const name = `${count} ${shape}${clash ? ' with a clash' : ''}`;
  if (count <= 100) mustAgree(graph, clash);
  const bound = least(bareSearch(part));
  const ours = least(() => places(graph));
  const building = least(() => chainGraph(part));
  const theirs = slow.has(`${count} ${shape}`) ? null : beside(kiwi(graph));
  if (theirs === null) slow.add(`${count} ${shape}`);
  const matrix = count <= 100 ? beside(leastSquares(graph)) : null;
  const section = least(() => solveChains({ ...part }));
  const kept = [goals.atMost(`ours / bound, ${name}`, ours / bound, 10)];
  // Where memory alone makes the bare search grow more than that, no more than it is asked for.
  const growth = last && { ours: ours / last.ours, bound: bound / last.bound };
  if (growth) kept.push(goals.atMost(`growth to ${name}`, growth.ours, Math.max(12, 1.25 * growth.bound)));
  if (count === 100) kept.push(goals.atLeast(`kiwi / ours, ${name}`, (theirs ?? Infinity) / ours, 20));
  if (shape === 'near' && count === 10_000) kept.push(goals.atMost(`section in ms, ${name}`, section, 200));
  const cells = [
    String(count),
    shape,
    clash ? 'yes' : 'no',
    bound.toFixed(4),
    ours.toFixed(4),
    ratio(ours, bound),
    growth ? growth.ours.toFixed(1) : '',
    growth ? growth.bound.toFixed(1) : '',
    theirs === null ? `> ${LONGEST_MS / 1000} s` : ratio(theirs, ours),
    count <= 100 ? ratio(matrix, ours) : 'left out',
    building.toFixed(3),
    section.toFixed(2),
    theirs === null ? '' : ratio(theirs, section),
    kept.includes('NO') ? 'NO' : 'yes',
  ];
  return { ours, bound, cells };
}

function* rows(): Generator<string[]> {
  const slow = new Set<string>();
  for (const shape of ['near', 'far'] as const) {
    for (const clash of [false, true]) {
      let last: Last | undefined;
      for (const count of [10, 100, 1000, 10_000]) {
        const { cells, ...times } = measure(count, shape, clash, last, slow);
        last = times;
        yield cells;
      }
    }
  }
}
const head =
  'stations,lengths,clash,bound ms,ours ms,ours / bound,growth,growth of bound,kiwi / ours,ml-matrix / ours';
table([...head.split(','), 'graph ms', 'section ms', 'kiwi / section', 'goals'], rows());

const hundred = randomPart(100, false, 'near');
let turn = 0;
const edit = least(() => {
  const lengths = hundred.lengths.map((l, i) => (i === turn % 50 ? { ...l } : l));
  turn++;
  return solveChains({ ...hundred, lengths });
});
console.log(
  `\nan edit of one length re-solves 100 stations in ${edit.toFixed(2)} ms; at most 1: ${goals.atMost('edit, ms', edit, 1)}`,
);

for (const name of ['blower-shaft', 'winch-spindle-clash']) {
  const read = readPart(readFileSync(`static/examples/${name}.json`, 'utf8'), name);
  if (!read.ok) throw new Error(`${name} cannot be read`);
  const resolved = resolvePart(read.value);
  const ms = least(() => solveChains({ ...resolved }));
  console.log(
    `the chains of the example ${name} take ${ms.toFixed(2)} ms; at most 2: ${goals.atMost(name, ms, 2)}`,
  );
}
goals.end();
