import type { ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { errorTree, type Link } from './error-tree.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { stockRemoval } from './stock-removal.ts';
import type { ChartRow, StockRow } from './types.ts';

export type Charted = {
  readonly rows: ChartRow[];
  readonly stock: StockRow[];
  readonly warnings: Problem[];
};

/**
 * The tolerance chart: every finished face hangs from its holding's datum by the errors of how it is located, the
 * datum from the face it was touched on, and so on to a tree. A drawing length is held to the sum of the errors on the
 * path between its ends; a zero error common to both ends cancels because the path does not pass it. What is left on a
 * face for its last cut is charted the same way.
 *
 * @param links - How every face, and every place of a crossing, is located.
 */
export function chart(part: ResolvedPart, drafts: readonly HoldingDraft[], links: readonly Link[]): Charted {
  const located = errorTree(links);
  const rows: ChartRow[] = [];
  const warnings: Problem[] = [];
  const first = drafts[0];
  for (const length of part.lengths) {
    if (length.size.reference || !first) continue;
    const from = first.bench.outline.stations.get(length.from);
    const to = first.bench.outline.stations.get(length.to);
    const path = located(`face ${length.from}`, `face ${length.to}`);
    if (from === undefined || to === undefined || !path) continue;
    const distance = to - from;
    const { min, max } = length.size;
    const ok = distance - path.error >= min && distance + path.error <= max;
    rows.push({
      length: length.id,
      allowed_mm: [min / 1e9, max / 1e9],
      held_mm: [(distance - path.error) / 1e9, (distance + path.error) / 1e9],
      ok,
      through: path.through.filter((node) => node.includes(':')),
    });
    if (!ok) warnings.push(notHeld(length.id, path.error, (max - min) / 2));
  }
  const stock = stockRemoval(drafts, links);
  return { rows, stock, warnings: [...warnings, ...stock.filter((row) => !row.ok).map(mayNotCleanUp)] };
}

const notHeld = (id: string, error: number, half: number): Problem => ({
  code: 'not-held',
  where: id,
  say: `The plan holds ${id} only to ±${(error / 1e9).toFixed(3)} mm where ±${(half / 1e9).toFixed(3)} mm are allowed.`,
});

const mayNotCleanUp = (row: StockRow): Problem => ({
  code: 'may-not-clean-up',
  where: row.face,
  say: `What is left on face ${row.face} for cut ${row.cut} may come to nothing: ${row.taken_mm.toFixed(2)} mm, give or take ${(row.range_mm[1] - row.taken_mm).toFixed(2)} mm. Leave more there.`,
});
