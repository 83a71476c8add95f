import { plus, pm } from '../lengths/length.ts';
import { writeShort } from '../lengths/write.ts';
import { readCentreDrill } from '../standards/centre-drills.ts';
import type { ThreadSpec } from '../standards/thread-spec.ts';
import { readThread } from '../standards/threads.ts';
import { fault, valueAt, warn, type ResolveContext } from './resolve-context.ts';
import type { ResolvedHole, ResolvedSize } from './resolved.ts';
import { resolveSize } from './resolve-size.ts';
import type { Hole, Part } from './types.ts';

type Of<F extends Hole['form']> = Extract<Hole, { form: F }>;
type Common = { readonly id: string; readonly index: number; readonly from: 'first' | 'last' };

/** Pitches that are drilled deeper than threaded where the plan does not say: room for the tap's lead and for chips. */
const PITCHES_BELOW_THREAD = 3;

function fromEnd(context: ResolveContext, from: string, where: string): 'first' | 'last' | null {
  const place = context.faces.get(from);
  if (place === 0) return 'first';
  if (place === context.faces.size - 1) return 'last';
  const [code, say] =
    place === undefined
      ? ['unknown-face', `There is no face “${from}”.`]
      : ['hole-not-from-an-end', `A hole begins at the first or the last face, not at “${from}”.`];
  fault(context, code, where, say, { id: from });
  return null;
}

function plainHole(
  context: ResolveContext,
  hole: Of<'drill'> | Of<'bore'>,
  where: string,
  common: Common | null,
) {
  const diameter = resolveSize(context, hole.diameter, `${where}.diameter`, 'hole');
  const through = hole.through === true;
  if (through && hole.depth !== undefined) {
    warn(
      context,
      'depth-and-through',
      `${where}.depth`,
      'The hole goes right through; its depth is passed over.',
    );
  }
  if (!through && hole.depth === undefined) {
    fault(context, 'hole-without-depth', `${where}.depth`, 'The hole needs a depth, or "through".', {
      id: hole.id,
    });
    return null;
  }
  const depth = through ? null : resolveSize(context, hole.depth, `${where}.depth`, 'length');
  if (!common || !diameter || (!through && !depth)) return null;
  return { ...common, form: hole.form, diameter, depth };
}

function belowThread(context: ResolveContext, { pitch }: ThreadSpec, depth: ResolvedSize): ResolvedSize {
  const more = pm(PITCHES_BELOW_THREAD * pitch);
  const nominal = plus(depth.nominal, more);
  return {
    ...depth,
    nominal,
    min: plus(depth.min, more),
    max: plus(depth.max, more),
    text: writeShort(nominal, context.unit),
    unit: context.unit,
    decimals: null,
    fraction: false,
  };
}

function tappedHole(context: ResolveContext, hole: Of<'tap'>, where: string, common: Common | null) {
  const thread = valueAt(context, readThread(hole.thread), `${where}.thread`);
  const depth = resolveSize(context, hole.depth, `${where}.depth`, 'length');
  const written =
    hole.drill_depth === undefined
      ? undefined
      : resolveSize(context, hole.drill_depth, `${where}.drill_depth`, 'length');
  if (!common || !thread || !depth || written === null) return null;
  const drillDepth = written ?? belowThread(context, thread, depth);
  if (drillDepth.nominal < depth.nominal) {
    const say = 'The hole is drilled less deep than it is threaded.';
    fault(context, 'drill-shallower-than-thread', `${where}.drill_depth`, say, { id: hole.id });
    return null;
  }
  return { ...common, form: 'tap' as const, thread, depth, drillDepth };
}

function resolveHole(context: ResolveContext, hole: Hole, index: number): ResolvedHole | null {
  const where = `holes[${index}]`;
  const from = fromEnd(context, hole.from, `${where}.from`);
  const common = from && { id: hole.id, index, from };
  if (hole.form === 'tap') return tappedHole(context, hole, where, common);
  if (hole.form !== 'centre') return plainHole(context, hole, where, common);
  const drill = valueAt(context, readCentreDrill(hole.size), `${where}.size`);
  if (!common || !drill) return null;
  return { ...common, form: 'centre', size: drill.designation, pilot: drill.pilot, mouth: drill.mouth };
}

/**
 * All holes that can be read. A tapped hole without `drill_depth` is drilled three pitches deeper than it is
 * threaded (common practice, no source).
 */
export function resolveHoles(context: ResolveContext, part: Part): readonly ResolvedHole[] {
  return part.holes.flatMap((hole, i) => resolveHole(context, hole, i) ?? []);
}
