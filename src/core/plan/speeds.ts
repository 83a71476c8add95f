import type { ResolvedLathe } from '../part/resolved.ts';
import { type Material, material } from '../standards/materials.ts';

const FALLBACK = 'mild-steel';

/** The part's material, or mild steel where its key is unknown (the warning `unknown-material` says so). */
export function materialOf(key: string): Material {
  const found = material(key) ?? material(FALLBACK);
  if (!found) throw new RangeError(`materialOf: the table lacks ${FALLBACK}`);
  return found;
}

/**
 * Spindle speed for a surface speed, rounded down to a step the lathe has, its slowest where even that is too fast.
 *
 * rpm = 1000 v / (π D), v in m/min, D in mm.
 */
export function rpmFor(surface: number, diameter: number, lathe: ResolvedLathe): number {
  const wanted = (1000 * surface) / (Math.PI * Math.max(diameter / 1e9, 0.5));
  if ('steps' in lathe.speeds) {
    const steps = lathe.speeds.steps;
    return steps.findLast((s) => s <= wanted) ?? steps[0] ?? 100;
  }
  return Math.floor(Math.min(Math.max(wanted, lathe.speeds.min), lathe.speeds.max) / 10) * 10;
}
