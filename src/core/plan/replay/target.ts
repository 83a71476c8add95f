import { ZERO, minus, pm } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { Outline, OutlineHole } from '../../outline/types.ts';
import { arc, line, raise, replace, whole } from '../profile.ts';
import type { Curve, Profile } from '../profile.ts';

/** A flat shoulder of the finished part: at z the diameter jumps from `low` on one side to `high` on the other. */
export type Wall = {
  readonly z: Length;
  readonly low: Length;
  readonly high: Length;
  /** On which side of z the smaller diameter lies. */
  readonly lowSide: 'left' | 'right';
};

/** What must be left standing. The profiles reach far beyond the part, where nothing need stand. */
export type Target = { readonly outside: Profile; readonly inside: Profile; readonly walls: readonly Wall[] };

const FAR = pm(1e15);
const NEAR = pm(-1e15);

const known = new WeakMap<Outline, Target>();

/** The finished part, from its outline, as profiles that a bar can be compared with; kept, as many plans are of one part. */
export function targetOf(outline: Outline): Target {
  const target = known.get(outline) ?? madeOf(outline);
  known.set(outline, target);
  return target;
}

function madeOf(outline: Outline): Target {
  const lands = outline.segments.filter((s) => s.z0 < s.z1);
  const start: Profile = [whole(line(NEAR, FAR, ZERO, ZERO))];
  const plain = lands.reduce((p, s) => replace(p, line(s.z0, s.z1, s.d0, s.d1)), start);
  const outside = outline.edges.reduce((p, e) => replace(p, edgeCurve(e)), plain);
  const holes = outline.holes.filter((h) => h.form !== 'centre');
  const inside = holes.reduce((p, h) => raise(p, holeCurve(h, outline.length)), start);
  return { outside, inside, walls: wallsOf(outside) };
}

function edgeCurve({ form, z0, z1, d0, d1 }: Outline['edges'][number]): Curve {
  return form === 'fillet' ? arc(z0, z1, d0, d1) : line(z0, z1, d0, d1);
}

function holeCurve({ from, depth, diameter }: OutlineHole, length: Length): Curve {
  const deep = depth ?? length;
  return from === 'first'
    ? line(ZERO, deep, diameter, diameter)
    : line(minus(length, deep), length, diameter, diameter);
}

function wallsOf(outside: Profile): readonly Wall[] {
  return outside.slice(1).flatMap((right, i): Wall[] => {
    const left = outside[i];
    if (!left || left.d1 === right.d0) return [];
    return left.d1 < right.d0
      ? [{ z: right.z0, low: left.d1, high: right.d0, lowSide: 'left' }]
      : [{ z: right.z0, low: right.d0, high: left.d1, lowSide: 'right' }];
  });
}
