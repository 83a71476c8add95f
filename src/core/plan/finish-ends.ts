import type { Piece } from './billet.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { type SecondEnd, secondEnd } from './second-end.ts';
import { dieServes } from './threading.ts';
import { leavesSawn, type WayInput } from './way.ts';

/** From which end, and when, each thread is cut by die. */
export type DiePlan = {
  /** Lands threaded from the tailstock end while it is first free. */
  readonly fromTail: ReadonlySet<number>;
  /** By id: threaded when the headstock end is free, and when the stub at the tailstock end is gone. */
  readonly fromHead: ReadonlySet<string>;
  readonly afterStub: ReadonlySet<string>;
};

/**
 * Which end each thread is cut from: the one that it is nearer to where a die reaches it from both.
 *
 * @param tailFree - The tailstock end comes free while the outside is turned.
 */
export function diePlan(input: WayInput, stub: boolean, tailFree = true): DiePlan {
  const { work, bench } = input;
  const turned = input.turned.lands;
  const fromTail = new Set<number>();
  const fromHead = new Set<string>();
  const afterStub = new Set<string>();
  work.lands.forEach((land, i) => {
    const back = turned.findIndex((l) => l.id === land.id);
    const head = dieServes(bench.lathe, turned, back);
    const tail = dieServes(bench.lathe, work.lands, i);
    const nearTail = (tailFree || stub) && land.u0 < work.length - land.u1;
    if (head && !(tail && nearTail)) fromHead.add(land.id);
    else if (tail && stub) afterStub.add(land.id);
    else if (tail) fromTail.add(i);
  });
  return { fromTail, fromHead, afterStub };
}

/** The holdings on finished lands: the headstock end, then the tailstock end where a stub still stands there. */
export function finishEnds(
  input: WayInput,
  main: HoldingDraft,
  threads: DiePlan,
  stub: number,
  end: number,
  count: number,
): SecondEnd[] | string {
  const { bench, work, turned } = input;
  const standing = main.pieces.filter((p) => p.u0 < end);
  // A stub that the blade left at length stays as it is: nothing is to be done at that end.
  if (leavesSawn(work) && end === work.length && !threads.fromHead.size) {
    if (!stub) return [];
    const only = secondEnd(bench, work, standing, {
      holes: false,
      id: `H${count + 1}`,
      threads: threads.afterStub,
    });
    return typeof only === 'string' ? only : [only];
  }
  const second = secondEnd(bench, turned, mirror(standing, work.length), {
    holes: true,
    id: `H${count + 1}`,
    threads: threads.fromHead,
  });
  if (typeof second === 'string') return second;
  if (!stub) return [second];
  const third = secondEnd(bench, work, mirror(second.draft.pieces, work.length), {
    holes: false,
    id: `H${count + 2}`,
    threads: threads.afterStub,
  });
  return typeof third === 'string' ? third : [second, third];
}

export const mirror = (pieces: readonly Piece[], length: number): Piece[] =>
  pieces.map((p) => ({ u0: length - p.u1, u1: length - p.u0, d: p.d })).reverse();
