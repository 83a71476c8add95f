import { edgesSaid, type Edge } from '../core/actuals/blade-edge.ts';
import type { Measured } from '../core/actuals/read-actual.ts';
import type { Placed } from '../core/actuals/step-name.ts';
import type { ResolvedLathe } from '../core/part/resolved.ts';
import type { Part } from '../core/part/types.ts';

/** A blade that works at a step, and by which edge it was touched off. */
export type BladeAt = {
  readonly tool: string;
  readonly edge: Edge;
  /** The log's line for the other choice; it stands at the step where the blade was touched off. */
  readonly touchedBy: (edge: Edge) => Measured;
};

/** The blade that is touched off or cuts at a step; null where none does. */
export function bladeAt(
  steps: readonly Placed[],
  at: number,
  part: Part,
  lathe: ResolvedLathe,
): BladeAt | null {
  const step = steps[at];
  const blade = lathe.tools.find(({ id }) => id === step?.cut.tool);
  if (!step?.holding || blade?.kind !== 'blade') return null;
  const tool = blade.id;
  const here = steps.slice(0, at + 1).filter(({ holding }) => holding?.id === step.holding?.id);
  const touched = here.findLast(({ cut }) => cut.kind === 'touch' && cut.tool === tool) ?? step;
  const { holding, name, cut } = touched;
  return {
    tool,
    edge: edgeNow(here, part, tool) ?? blade.edge,
    touchedBy: (edge) => ({
      what: 'touch',
      of: tool,
      edge,
      text: '',
      step: name,
      cut: cut.n,
      ...(holding ? { holding: holding.id } : {}),
    }),
  };
}

/** The edge that was said last, going through the steps of a holding in order. */
function edgeNow(here: readonly Placed[], part: Part, tool: string): Edge | undefined {
  const said = edgesSaid(part.actuals ?? [], here);
  return here.map(({ cut }) => said.get(cut.n)?.get(tool)).findLast((edge) => edge !== undefined);
}
