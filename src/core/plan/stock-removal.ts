import { errorTree, type Link } from './error-tree.ts';
import { facesMade, type Maker } from './faces-made.ts';
import type { HoldingDraft } from './holding-draft.ts';
import type { Cut, StockRow } from './types.ts';

/** How closely a sawn end stands where it should: by a rule, ± 0.5 mm (common practice, no source). */
const SAWN = 500_000_000;

/**
 * The metal that each facing and each finishing cut finds on its face, least and most: the distance from the state the
 * face was left in to the state it is brought to, with the errors on the path between the two in the same tree as the
 * drawing lengths. The least must be more than nothing, or the face may not clean up.
 *
 * Source: stock removal in a tolerance chart is the resultant between two states of one surface.
 */
export function stockRemoval(drafts: readonly HoldingDraft[], links: readonly Link[]): StockRow[] {
  const states = drafts.flatMap(leftStates);
  const located = errorTree([...links, ...states.flatMap((state) => state.links)]);
  return drafts.flatMap((draft, i) =>
    [...facesMade(draft)].flatMap(([station, maker]): StockRow[] => {
      const before = stateBefore(draft, station, maker, states);
      if (!before) return [];
      const sawn = before.node === null;
      const node = `${draft.setup.id}:${station}`;
      const path = located(before.node ?? (i === 0 ? node : `${draft.setup.id}:datum`), node);
      if (!path || before.taken <= 0) return [];
      const error = path.error + (sawn ? SAWN : 0);
      return [
        {
          face: station,
          holding: draft.setup.id,
          cut: maker.cut.n,
          taken_mm: before.taken / 1e9,
          range_mm: [(before.taken - error) / 1e9, (before.taken + error) / 1e9],
          ok: before.taken > error,
        },
      ];
    }),
  );
}

/** A face as some cut leaves it, short of its size, and how that hangs from the tool. */
type State = {
  readonly node: string;
  readonly u: number;
  readonly cut: Cut;
  readonly links: readonly Link[];
};

/** What roughing and parting off leave standing in a holding. */
function leftStates(draft: HoldingDraft): State[] {
  const { lathe } = draft.bench;
  const { id } = draft.setup;
  return draft.cuts.flatMap((cut): State[] => {
    if (cut.kind !== 'rough' && cut.kind !== 'part-off') return [];
    const tool = lathe.tools.find((t) => t.id === cut.tool);
    // A part-off's tailstock edge makes the face; a blade touched off on its other edge adds its width.
    const width = tool?.kind === 'blade' && tool.edge === 'left' ? tool.widthKnownTo : 0;
    const places = [placeIn(draft, cut.z0_mm), placeIn(draft, cut.z1_mm)];
    return places.map((u, at) => {
      const node = `${id}:cut ${cut.n}.${at}`;
      const hung = `${id}:${cut.tool ?? 'hand'}`;
      const links = [
        { a: node, b: hung, error: lathe.readout.repeat + width },
        { a: hung, b: `${id}:datum`, error: lathe.readout.touch },
      ];
      return { node, u, cut, links };
    });
  });
}

const placeIn = ({ work }: HoldingDraft, z_mm: number): number => {
  const z = Math.round(z_mm * 1e9);
  return work.headstock === 'left' ? work.length - z : z;
};

/** How the face stood before its last cut: parted off, roughed, or sawn (no node); null where nothing was left. */
function stateBefore(
  draft: HoldingDraft,
  station: string,
  { cut }: Maker,
  states: readonly State[],
): { node: string | null; taken: number } | null {
  if (cut.kind === 'face') {
    const taken = Math.round((cut.z1_mm - cut.z0_mm) * 1e9);
    const end = draft.at(station) - taken;
    const parted = states.find(
      (s) => s.cut.kind === 'part-off' && Math.abs(draft.work.length - s.u - end) < 1000,
    );
    return { node: parted?.node ?? null, taken };
  }
  if (cut.kind !== 'finish') return null;
  const u = draft.at(station);
  const { allowance } = draft.bench.lathe.cut;
  const taken = (s: State): number => Math.abs(s.u - u);
  const rough = states.findLast(
    (s) =>
      s.cut.kind === 'rough' &&
      s.cut.n < cut.n &&
      taken(s) > 0 &&
      taken(s) <= allowance &&
      draft.cuts.includes(s.cut),
  );
  return rough ? { node: rough.node, taken: taken(rough) } : null;
}
