import type { HoldingDraft } from './holding-draft.ts';
import type { StiffnessRow } from './types.ts';

/** placeholder until the stiffness room stands */
export function stiffnessRows(_drafts: readonly HoldingDraft[]): StiffnessRow[] {
  return [];
}
