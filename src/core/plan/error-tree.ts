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

/**
 * Distance between two faces of a tolerance chart, and the sum of the errors on the path of links that joins them
 * (worst case). An error that both ends share cancels, because the path does not pass it.
 *
 * @param links - A tree, or several; where faces are joined twice the path with the fewest links counts.
 * @returns Null where nothing joins the two.
 * Source: the rooted tree of a tolerance chart; the resultant is the sum on the one path between two nodes.
 */
export function resultant(links: readonly Link[], from: string, to: string): Resultant | null {
  type Seen = { distance: number; error: number; back: string | null };
  const seen = new Map<string, Seen>([[from, { distance: 0, error: 0, back: null }]]);
  const next = neighbours(links);
  const queue = [from];
  for (let node = queue.shift(); node !== undefined && node !== to; node = queue.shift()) {
    const here = seen.get(node);
    if (!here) continue;
    for (const [far, link] of next.get(node) ?? []) {
      if (seen.has(far)) continue;
      const distance = (link.distance ?? 0) * (link.a === node ? 1 : -1);
      seen.set(far, { distance: here.distance + distance, error: here.error + link.error, back: node });
      queue.push(far);
    }
  }
  const end = seen.get(to);
  if (!end) return null;
  const through: string[] = [];
  for (let node: string | null = to; node !== null; node = seen.get(node)?.back ?? null)
    through.unshift(node);
  return { distance: end.distance, error: end.error, through };
}

function neighbours(links: readonly Link[]): Map<string, [string, Link][]> {
  const found = new Map<string, [string, Link][]>();
  const add = (from: string, to: string, link: Link): void => {
    const list = found.get(from);
    if (list) list.push([to, link]);
    else found.set(from, [[to, link]]);
  };
  for (const link of links) {
    add(link.a, link.b, link);
    add(link.b, link.a, link);
  }
  return found;
}
