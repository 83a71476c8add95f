/** One face located from another: it lies `distance` beyond `a`, give or take `error`. Any one unit throughout. */
export type Link = {
  readonly a: string;
  readonly b: string;
  readonly distance?: number;
  readonly error: number;
};

export type Resultant = {
  readonly distance: number;
  readonly error: number;
  readonly through: readonly string[];
};

/** Answers how a face is located from another; see `resultant`. */
export type ErrorTree = (from: string, to: string) => Resultant | null;

/**
 * Distance between two faces of a tolerance chart, and the sum of the errors on the path of links that joins them
 * (worst case). An error that both ends share cancels, because the path does not pass it.
 *
 * @param links - A tree, or several; where faces are joined twice the path with the fewest links counts.
 * @returns Null where nothing joins the two.
 * Source: the rooted tree of a tolerance chart; the resultant is the sum on the one path between two nodes.
 */
export const resultant = (links: readonly Link[], from: string, to: string): Resultant | null =>
  errorTree(links)(from, to);

type Near = { readonly node: string; readonly distance: number; readonly error: number };

/** The same for many questions about the same links: they are sorted by face once, and what was searched from a face is kept. */
export function errorTree(links: readonly Link[]): ErrorTree {
  const near = neighbours(links);
  const searches = new Map<string, Search>();
  return (from, to) => {
    const search = searches.get(from) ?? { back: new Map([[from, null]]), queue: [from], done: 0 };
    searches.set(from, search);
    if (!reaches(search, near, to)) return null;
    const { back } = search;
    const through: string[] = [];
    let [distance, error] = [0, 0];
    for (let node: string | null = to; node !== null;) {
      through.push(node);
      const step: Step | null = back.get(node) ?? null;
      distance += step?.by.distance ?? 0;
      error += step?.by.error ?? 0;
      node = step?.from ?? null;
    }
    return { distance, error, through: through.reverse() };
  };
}

/** How a face was reached: from which, by which link. */
type Step = { readonly from: string; readonly by: Near };

/** A search from one face, as far as it has got: how each face found was reached, and which were looked around from. */
type Search = { readonly back: Map<string, Step | null>; readonly queue: string[]; done: number };

/** Goes on breadth first until `to` is found; false where it is not. */
function reaches(search: Search, near: ReadonlyMap<string, Near[]>, to: string): boolean {
  const { back, queue } = search;
  while (!back.has(to)) {
    const node = queue[search.done++];
    if (node === undefined) return false;
    for (const by of near.get(node) ?? []) {
      if (back.has(by.node)) continue;
      back.set(by.node, { from: node, by });
      queue.push(by.node);
    }
  }
  return true;
}

function neighbours(links: readonly Link[]): Map<string, Near[]> {
  const found = new Map<string, Near[]>();
  const add = (from: string, near: Near): void => {
    const list = found.get(from);
    if (list) list.push(near);
    else found.set(from, [near]);
  };
  for (const { a, b, distance = 0, error } of links) {
    add(a, { node: b, distance, error });
    add(b, { node: a, distance: -distance, error });
  }
  return found;
}
