import { ZERO, pm } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { Outline } from '../../outline/types.ts';
import type { ResolvedLathe, ResolvedTool } from '../../part/resolved.ts';
import { afterCurve, bodyAt, cutCurve, cutsInside, fromReport, isApart, startBar } from '../bar.ts';
import type { Bar } from '../bar.ts';
import { between, raise } from '../profile.ts';
import type { Curve, Profile } from '../profile.ts';
import type { Cut, Holding, Plan, Support } from '../types.ts';
import { targetOf } from './target.ts';
import type { Target } from './target.ts';

export type Side = 'left' | 'right';

/** The 60° mouth that a centre can run in at an end of the bar: its diameter at the standing end. */
export type Mouths = { readonly left: Length | null; readonly right: Length | null };

/** How the bar is held, as the holding begins. */
export type Frame = {
  readonly holding: Holding;
  readonly where: string;
  readonly bar: Bar;
  readonly mouths: Mouths;
  /** The drawn side at which the work stands free, toward the tailstock. */
  readonly free: Side;
  /** Sign of part z in the direction of the headstock. */
  readonly toHead: 1 | -1;
  readonly grip: { readonly z0: Length; readonly z1: Length } | null;
};

/** One step of the plan with the bar ahead of it and after it. */
export type Step = {
  readonly cut: Cut;
  readonly where: string;
  readonly held: Frame;
  readonly z0: Length;
  readonly z1: Length;
  /** The surface it leaves; null where it removes nothing. */
  readonly curve: Curve | null;
  readonly inside: boolean;
  readonly before: Bar;
  readonly after: Bar;
  readonly mouths: Mouths;
  readonly support: readonly Support[];
  readonly steadyAt: Length | null;
};

export type Held = Frame & { readonly steps: readonly Step[] };

/** A plan played through on the bar: what every rule looks at. */
export type Scene = {
  readonly plan: Plan;
  readonly outline: Outline;
  readonly lathe: ResolvedLathe;
  /** The lathe's tools by their names, of which no two are alike. */
  readonly tools: ReadonlyMap<string, ResolvedTool>;
  readonly target: Target;
  readonly held: readonly Held[];
  readonly steps: readonly Step[];
  /** What is left in the hand at the end, and its holes as they would be without centre holes. */
  readonly final: Bar;
  readonly insideWithoutCentres: Profile;
  readonly finalMouths: Mouths;
};

/** A figure of the report in pm; figures were checked to be usable before the scene is built. */
export const at = (mm: number): Length => fromReport(mm) ?? ZERO;

/** The place of the end that stands free. */
export const freeEnd = (bar: Bar, side: Side): Length => (side === 'left' ? bar.z0 : bar.z1);

/** `plain`: the holes as they would be without centre holes; the outside is the same. */
type State = { readonly bar: Bar; readonly plain: Profile; readonly mouths: Mouths };

/** Plays a plan through, cut by cut, without judging it. */
export function sceneOf(plan: Plan, outline: Outline, lathe: ResolvedLathe): Scene {
  const bar = startBar(plan.stock);
  let state: State = { bar, plain: bar.inside, mouths: { left: null, right: null } };
  const held: Held[] = [];
  for (const holding of plan.holdings) {
    const [played, next] = play(holding, state);
    held.push(played);
    state = next;
  }
  return {
    plan,
    outline,
    lathe,
    tools: new Map(lathe.tools.map((t) => [t.id, t])),
    target: targetOf(outline),
    held,
    steps: held.flatMap((h) => h.steps),
    final: state.bar,
    insideWithoutCentres: state.plain,
    finalMouths: state.mouths,
  };
}

function frameOf(holding: Holding, { bar, mouths }: State): Frame {
  const { grips } = holding;
  const free = holding.headstock === 'right' ? 'left' : 'right';
  const grip = grips && {
    z0: at(Math.min(grips.z0_mm, grips.z1_mm)),
    z1: at(Math.max(grips.z0_mm, grips.z1_mm)),
  };
  return { holding, where: holding.id, bar, mouths, free, toHead: free === 'left' ? 1 : -1, grip };
}

function play(holding: Holding, start: State): [Held, State] {
  const frame = frameOf(holding, start);
  let { support, steadyAt }: Pick<Step, 'support' | 'steadyAt'> = {
    support: holding.support,
    steadyAt: holding.steady_at_mm === null ? null : at(holding.steady_at_mm),
  };
  let state = start;
  const steps = holding.cuts.map((cut): Step => {
    const curve = cutCurve(cut);
    const next = stateAfter(state, cut, curve, frame.free);
    if (cut.kind === 'support') {
      support = cut.support ?? support;
      steadyAt = support.includes('steady') ? at(cut.z0_mm) : null;
    }
    const before = state;
    state = next;
    return {
      cut,
      where: `cut ${cut.n}`,
      held: frame,
      z0: at(Math.min(cut.z0_mm, cut.z1_mm)),
      z1: at(Math.max(cut.z0_mm, cut.z1_mm)),
      curve,
      inside: cutsInside(cut),
      before: before.bar,
      after: next.bar,
      mouths: before.mouths,
      support,
      steadyAt,
    };
  });
  return [{ ...frame, steps }, takenOut(state, frame.free)];
}

function stateAfter(state: State, cut: Cut, curve: Curve | null, free: Side): State {
  const bar = afterCurve(state.bar, cut, curve);
  const mouth = mouthAfter(state, bar, cut, free);
  if (bar === state.bar && mouth === state.mouths[free]) return state;
  return { bar, plain: plainAfter(state, bar, cut, curve), mouths: { ...state.mouths, [free]: mouth } };
}

/** The holes without centre holes: they are the bar's own until one is drilled. */
function plainAfter({ bar: before, plain }: State, bar: Bar, cut: Cut, curve: Curve | null): Profile {
  if (plain === before.inside && cut.kind !== 'centre-drill') return bar.inside;
  if (curve && cutsInside(cut) && cut.kind !== 'centre-drill') return raise(plain, curve);
  return bar.z0 === before.z0 && bar.z1 === before.z1 ? plain : between(plain, bar.z0, bar.z1);
}

/** The mouth at the free end after a cut: drilling as wide destroys it, facing makes it smaller. */
function mouthAfter(state: State, bar: Bar, cut: Cut, free: Side): Length | null {
  const mouth = state.mouths[free];
  const wide = at(Math.max(cut.d0_mm ?? 0, cut.d1_mm ?? 0));
  if (cut.kind === 'centre-drill') return wide > 0 ? wide : null;
  if (mouth === null) return null;
  if (cut.kind === 'drill' || cut.kind === 'bore') return wide >= mouth ? null : mouth;
  const faced = Math.abs(freeEnd(bar, free) - freeEnd(state.bar, free));
  const left = Math.round(mouth - 2 * faced * Math.tan(Math.PI / 6));
  return left > 0 ? pm(left) : null;
}

/** The work as it comes out of the holder: what was parted off is the body at the free end. */
function takenOut(state: State, free: Side): State {
  if (!isApart(state.bar)) return state;
  const mouths = free === 'left' ? { ...state.mouths, right: null } : { ...state.mouths, left: null };
  const bar = bodyAt(state.bar, free);
  return { bar, plain: between(state.plain, bar.z0, bar.z1), mouths };
}
