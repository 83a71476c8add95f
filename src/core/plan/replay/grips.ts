import { pm } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { ResolvedLathe } from '../../part/resolved.ts';
import type { Problem } from '../../problem.ts';
import { between } from '../profile.ts';
import type { Profile } from '../profile.ts';
import { sideBySide } from './compare.ts';
import { flaw, inMm } from './flaw.ts';
import { at } from './scene.ts';
import type { Held, Scene } from './scene.ts';

const TEN_MM = pm(10_000_000_000);

/**
 * What a collet or chuck may be closed on. Codes: `no-grip`, `grip-on-air`, `grip-too-short`,
 * `grip-two-diameters`, `grip-on-thread`, `grip-on-taper`, `grip-on-journal` (a finished one in hard jaws; a
 * seat may be gripped with a shim, see `seat-in-jaws`), `grip-outside-range`, `grip-names` (what it is said to be on), `will-not-go-in`, `dog-on-finished`.
 */
export function gripFlaws(scene: Scene): Problem[] {
  return scene.held.flatMap((held) => {
    if (held.holding.device === 'centres') return dogFlaws(scene, held);
    if (!held.grip || held.grip.z0 >= held.grip.z1)
      return [
        flaw('no-grip', held.where, `${held.where} holds by a ${held.holding.device} but grips nothing.`),
      ];
    return clampFlaws(scene, held, held.grip);
  });
}

type Grip = { readonly z0: Length; readonly z1: Length };

function clampFlaws(scene: Scene, held: Held, grip: Grip): Problem[] {
  const under = between(held.bar.outside, grip.z0, grip.z1);
  const air = airFlaws(held, grip, under);
  if (air.length > 0) return air;
  const d = pm(Math.max(...under.map((p) => Math.max(p.d0, p.d1))));
  return [
    ...lengthFlaws(scene, held, grip, d),
    ...evenFlaws(held, grip, under, d),
    ...surfaceFlaws(scene, held, grip, under),
    ...nameFlaws(scene, held, grip, under),
    ...rangeFlaws(scene.lathe, held, grip, d),
  ];
}

function airFlaws(held: Held, grip: Grip, under: Profile): Problem[] {
  const { bar, where } = held;
  const beyond = grip.z0 < bar.z0 || grip.z1 > bar.z1;
  return beyond || under.some((p) => p.d0 === 0 || p.d1 === 0) ? [air(where)] : [];
}

const air = (where: string): Problem =>
  flaw('grip-on-air', where, `${where} closes on a stretch where no metal stands to be gripped.`);

function lengthFlaws({ lathe }: Scene, held: Held, grip: Grip, d: Length): Problem[] {
  const least = lathe.minGrip ?? pm(Math.max(d, TEN_MM));
  return grip.z1 - grip.z0 < least
    ? [
        flaw(
          'grip-too-short',
          held.where,
          `${held.where} grips ${inMm(grip.z1 - grip.z0)}; at least ${inMm(least)} are needed.`,
        ),
      ]
    : [];
}

/** Lands of one diameter, with grooves between them that leave half of the grip to hold by, chamfered at most at its ends. */
function evenFlaws(held: Held, grip: Grip, under: Profile, d: Length): Problem[] {
  const level = under.filter((p) => p.d0 === p.d1);
  if (level[0]?.d0 !== d || level.at(-1)?.d0 !== d)
    return [flaw('grip-two-diameters', held.where, `${held.where} grips lands of different diameters.`)];
  const contact = level.filter((p) => p.d0 === d).reduce((sum, p) => sum + p.z1 - p.z0, 0);
  return 2 * contact < grip.z1 - grip.z0 ? [air(held.where)] : [];
}

function surfaceFlaws(scene: Scene, held: Held, grip: Grip, under: Profile): Problem[] {
  const out: Problem[] = [];
  const first = held.steps[0]?.cut.n ?? Infinity;
  const threaded = new Set(
    scene.steps.filter((s) => s.cut.kind === 'thread' && s.cut.n < first).map((s) => s.cut.segment),
  );
  for (const s of scene.outline.segments) {
    if (s.z0 >= grip.z1 || s.z1 <= grip.z0) continue;
    const here = between(under, s.z0, s.z1);
    if (threaded.has(s.id))
      out.push(flaw('grip-on-thread', held.where, `${held.where} grips the thread ${s.id}.`));
    if (s.form === 'taper' && here.some((p) => p.d0 !== p.d1))
      out.push(flaw('grip-on-taper', held.where, `${held.where} grips the taper ${s.id}.`));
    if (s.role === 'journal' && held.holding.device === 'chuck' && isFinished(scene, here))
      out.push(
        flaw(
          'grip-on-journal',
          held.where,
          `${held.where} closes hard jaws on the finished journal ${s.id}.`,
        ),
      );
  }
  return out;
}

/** Is some of this surface where the finished part has it, so that jaws would mark it? */
function isFinished({ target }: Scene, here: Profile): boolean {
  return sideBySide(here, target.outside).some(
    ({ a, b }) => b.d0 > 0 && a.d0 === a.d1 && b.d0 === b.d1 && a.d0 === b.d0,
  );
}

function nameFlaws({ plan, outline }: Scene, held: Held, grip: Grip, under: Profile): Problem[] {
  const on = held.holding.grips?.on ?? 'bar';
  const skin = at(plan.stock.diameter_mm);
  if (on === 'bar') {
    return under.every((p) => p.d0 === skin && p.d1 === skin)
      ? []
      : [
          flaw(
            'grip-names',
            held.where,
            `${held.where} is said to grip the bar's skin, which is no longer there.`,
          ),
        ];
  }
  const all = outline.segments.filter((s) => s.z0 < grip.z1 && s.z1 > grip.z0).map((s) => s.id);
  return all.length === on.length && all.every((id) => on.includes(id))
    ? []
    : [
        flaw(
          'grip-names',
          held.where,
          `${held.where} grips ${all.join(', ') || 'nothing of the part'}, not ${on.join(', ')}.`,
        ),
      ];
}

function rangeFlaws(lathe: ResolvedLathe, held: Held, grip: Grip, d: Length): Problem[] {
  const { holding, where, bar } = held;
  const size = holding.device === 'collet' ? colletFor(lathe, d) : chuckFor(lathe, d);
  if (size === null)
    return [flaw('grip-outside-range', where, `No ${holding.device} at hand closes on ${inMm(d)}.`)];
  const inboard =
    held.toHead > 0 ? between(bar.outside, grip.z1, bar.z1) : between(bar.outside, bar.z0, grip.z0);
  const thickest = Math.max(0, ...inboard.map((p) => Math.max(p.d0, p.d1)));
  const hole = Math.min(size, lathe.spindleBore);
  return thickest > hole
    ? [
        flaw(
          'will-not-go-in',
          where,
          `${inMm(thickest)} inboard of the grip of ${where} does not pass ${inMm(hole)}.`,
        ),
      ]
    : [];
}

/** Size of the collet that closes on d, or null. A collet closes only a little below its size, and never opens above it. */
function colletFor({ collets }: ResolvedLathe, d: Length): Length | null {
  if (!collets || d > collets.max) return null;
  const steps = collets.step > 0 ? Math.max(0, Math.ceil((d - collets.min) / collets.step)) : 0;
  const size = Math.min(collets.min + steps * collets.step, Math.max(collets.max, collets.min));
  return size >= d && size - d <= collets.close ? pm(size) : null;
}

/** What may lie inboard of a chuck's jaws: as much as its jaws open to. */
function chuckFor({ chucks }: ResolvedLathe, d: Length): Length | null {
  return chucks.find((c) => d >= c.min && d <= c.max)?.max ?? null;
}

/** A dog bites: only into metal that is not yet as the drawing wants it. */
function dogFlaws({ target }: Scene, held: Held): Problem[] {
  if (!held.grip) return [];
  const { grip, where } = held;
  const under = between(held.bar.outside, grip.z0, grip.z1);
  if (grip.z0 < held.bar.z0 || grip.z1 > held.bar.z1 || under.some((p) => p.d0 === 0 || p.d1 === 0))
    return [flaw('grip-on-air', where, `The dog of ${where} stands where no metal is.`)];
  const bites = sideBySide(under, target.outside).some(
    ({ a, b }) => b.d0 > 0 && a.d0 <= b.d0 && a.d1 <= b.d1,
  );
  return bites ? [flaw('dog-on-finished', where, `The dog of ${where} bites a finished surface.`)] : [];
}
