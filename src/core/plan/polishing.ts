import { CLOTH, CLOTH_IN_FULL, CLOTH_IN_SHORT } from '../cautions.ts';
import type { HoldingDraft } from './holding-draft.ts';

/** The caution that goes with polishing: in full at the first step of a holding that asks for it, short after that. */
export const polishing = ({ cuts }: HoldingDraft): string =>
  cuts.some(({ say }) => say.includes(CLOTH)) ? CLOTH_IN_SHORT : CLOTH_IN_FULL;
