import { MOST_FREE_DIAMETERS } from '../stiffness/error.ts';
import { thickest } from './billet.ts';
import { zOf } from './frame.ts';
import type { HoldingDraft, Step } from './holding-draft.ts';
import type { CutKind } from './types.ts';
import { size } from './words.ts';
import type { Way } from './way.ts';

/** No work is turned with the grip alone beyond this many diameters, where the hole for the centre stands ready (common practice, no source: 3 to 5 diameters). */
const READY_DIAMETERS = 6;

const PUSHES: ReadonlySet<CutKind> = new Set<CutKind>([
  ...(['rough', 'finish', 'spring', 'taper'] as const),
  ...(['groove', 'undercut', 'fillet'] as const),
]);

/**
 * How far out of the grip a cut reaches, in the thickest that stands between; 0 where a centre or a steady holds the work
 * up, or where the cut does not push on it.
 */
export function reachOf(
  draft: HoldingDraft,
  { kind, u0, inside = false }: Pick<Step, 'kind' | 'u0' | 'inside'>,
): number {
  const { device, grips } = draft.setup;
  if (inside || !grips || device === 'centres' || draft.support.length > 0 || !PUSHES.has(kind)) return 0;
  const edge = Math.min(...[grips.z0_mm, grips.z1_mm].map((z) => zOf(draft.work, Math.round(z * 1e9))));
  const thick = thickest(draft.pieces, u0, edge);
  return thick > 0 ? (edge - u0) / thick : 0;
}

/** Why a way cannot be done that is thought through to its cuts: the bars are too short for it, or nothing holds the work up. */
export function whyUnheld({ stock, drafts }: Way): string | null {
  const lathe = drafts[0]?.bench.lathe;
  const long = Math.round(stock.length_mm * 1e9);
  if (lathe && long > lathe.bars.length)
    return `it takes ${size(long, lathe)} of bar, and the bars at hand are ${size(lathe.bars.length, lathe)} long`;
  for (const draft of drafts) {
    const far = draft.cuts.some((cut) => (draft.reaches.get(cut) ?? 0) > MOST_FREE_DIAMETERS);
    if (far) return standsOut(draft, MOST_FREE_DIAMETERS, 'neither a centre nor a steady');
    const idle = draft.cuts.find(
      (cut) => (draft.reaches.get(cut) ?? 0) > READY_DIAMETERS && centreReady(drafts, draft, cut.n),
    );
    if (idle && lathe?.support.includes('centre'))
      return standsOut(draft, READY_DIAMETERS, 'no centre in the hole that is there for it');
  }
  return null;
}

const standsOut = ({ setup }: HoldingDraft, diameters: number, without: string): string =>
  `turned in ${setup.id} the work would stand out over ${diameters} of its diameters, with ${without}`;

/** Whether a centre hole stands in the free end ahead of a cut: drilled there, and not drilled away again. */
function centreReady(drafts: readonly HoldingDraft[], draft: HoldingDraft, before: number): boolean {
  let mouth = 0;
  for (const { work, cuts } of drafts)
    for (const { kind, d0_mm, d1_mm, n } of cuts) {
      if (work.headstock !== draft.work.headstock || n >= before) continue;
      const wide = Math.max(d0_mm ?? 0, d1_mm ?? 0);
      if (kind === 'centre-drill') mouth = wide;
      if ((kind === 'drill' || kind === 'bore') && wide >= mouth) mouth = 0;
    }
  return mouth > 0;
}
