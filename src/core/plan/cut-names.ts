import type { CutKind } from './types.ts';

/** What each kind of step is called on a list, a page or over its readings. */
export const CUT_NAMES: Readonly<Record<CutKind, string>> = {
  face: 'Face',
  'centre-drill': 'Centre-drill',
  drill: 'Drill',
  tap: 'Tap',
  bore: 'Bore',
  rough: 'Rough',
  finish: 'Finish',
  spring: 'Spring pass',
  groove: 'Groove',
  taper: 'Taper',
  chamfer: 'Chamfer',
  fillet: 'Fillet',
  undercut: 'Undercut',
  thread: 'Thread',
  'part-off': 'Part off',
  sever: 'Sever',
  touch: 'Touch off',
  measure: 'Measure',
  support: 'Support',
  prove: 'Prove the fit',
  cross: 'Across the axis',
  deburr: 'Deburr',
};
