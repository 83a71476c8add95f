import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { turnTool } from './tool-choice.ts';
import type { Support } from './types.ts';

/** Brings the centre up once the first tool is touched off on the bare end. */
export function bringUp(draft: HoldingDraft, support: Support[]): void {
  const right = turnTool(draft.bench.lathe, 'right');
  if (right) touch({ draft }, right);
  const u = draft.pieces[0]?.u0 ?? 0;
  const steady = support.includes('travelling-steady')
    ? ' Set the travelling steady behind the tool once a true band is turned.'
    : '';
  draft.support = support;
  draft.add({
    kind: 'support',
    u0: u,
    u1: u,
    d0: null,
    support: [...support],
    say: `Bring up the live centre, firm but free to turn, and lock the quill; feel it again as the work warms and lengthens.${steady}`,
  });
}

/** Takes the centre and any steady away. */
export function backOff(draft: HoldingDraft): void {
  if (!draft.support.length) return;
  const u = draft.pieces[0]?.u0 ?? 0;
  draft.support = [];
  draft.add({
    kind: 'support',
    u0: u,
    u1: u,
    d0: null,
    support: [],
    say: 'Stop the spindle and back the centre right off; take any steady away.',
  });
}
