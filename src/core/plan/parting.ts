import { thickest } from './billet.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { bladeReach, type BladeTool } from './tool-choice.ts';
import { leavesSawn } from './way.ts';
import { list, size } from './words.ts';

/** The widest blade that parts a diameter, or the one that reaches deepest and leaves the rest to the saw. */
export function partingBlade(lathe: HoldingDraft['bench']['lathe']): BladeTool | null {
  const blades = lathe.tools.filter((t): t is BladeTool => t.kind === 'blade');
  return blades.sort((a, b) => bladeReach(b) - bladeReach(a))[0] ?? null;
}

/**
 * Parts off in the kerf that begins at u, leaving a pip that is then sawn or broken: long work never drops, and the
 * centre is out of it.
 */
export function partOff(draft: HoldingDraft, u: number, blade: BladeTool): void {
  touch({ draft }, blade);
  const { lathe, material } = draft.bench;
  const d = thickest(draft.pieces, u, u + blade.width);
  const pip = Math.round(Math.min(0.6 * d, Math.max(d - 2 * bladeReach(blade), 0.3 * d, 2_000_000_000)));
  const readings = [draft.bladeZ(u, 'right', null, blade), draft.x(pip)];
  draft.add({
    kind: 'part-off',
    u0: u,
    u1: u + blade.width,
    d0: pip,
    tool: blade,
    surface: material.speed.part.low,
    readings,
    say: `Part off close to the jaws at ${list(readings)}: stop at the pip, ${size(pip, lathe)} thick. Never with the centre pressed in; spindle slow, ${material.oil}, face shield on.`,
  });
  draft.add({
    kind: 'sever',
    u0: u,
    u1: u + blade.width,
    d0: 0,
    handTurned: true,
    say: `Stop the spindle, hold the work and saw the pip through; do not let it drop. ${
      leavesSawn(draft.work)
        ? `What stands beyond end ${draft.work.headStub?.face ?? ''} is the stub: it stays, its end as the saw leaves it.`
        : 'The end is faced when the work is turned round.'
    }`,
  });
}
