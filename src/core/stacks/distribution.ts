import type { Falls } from '../part/types.ts';

/** How a length falls within its limits, as the part file says it. */
export type DistributionKind = Falls;

/** A distribution about 0 with limits at -1 and +1. */
export type UnitDistribution = {
  /** As far as it reaches on either side. */
  readonly reach: number;
  readonly mean: number;
  readonly variance: number;
  /** Integral of the distribution function from below its reach up to `x`: 0 there, `x - mean` beyond its reach above. */
  readonly integral: (x: number) => number;
  /** Its value for a random figure from 0 to 1 (the inverse of the distribution function). */
  readonly quantile: (p: number) => number;
};

const SQRT_2PI = Math.sqrt(2 * Math.PI);
const density = (z: number): number => Math.exp(-(z * z) / 2) / SQRT_2PI;

/** Standard normal distribution function, to within 1e-15 relative in the middle and 1e-12 in the tails. */
export function normalBelow(z: number): number {
  if (z > 0) return 1 - normalBelow(-z);
  if (z < -38) return 0;
  return z > -3 ? 0.5 + density(z) * series(z) : density(z) * tailFraction(-z);
}

/** Taylor series of Φ about 0: Φ(z) - 1/2 = φ(z) (z + z³/3 + z⁵/15 + …). Abramowitz and Stegun 26.2.11. */
function series(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return sum;
}

/** Continued fraction of the upper tail over the density. Abramowitz and Stegun 26.2.14. */
function tailFraction(z: number): number {
  let fraction = z;
  for (let n = 120; n > 0; n--) fraction = z + n / fraction;
  return 1 / fraction;
}

/** Inverse of `normalBelow` by Newton's method from a rough start; `p` between 0 and 1. */
export function normalAt(p: number): number {
  if (p > 0.5) return -normalAt(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  // Abramowitz and Stegun 26.2.22, right to 3e-3.
  let z = (2.30753 + 0.27061 * t) / (1 + 0.99229 * t + 0.04481 * t * t) - t;
  for (let n = 0; n < 4; n++) z -= (normalBelow(z) - p) / density(z);
  return z;
}

const SIGMA = 1 / 3;

/** Integral of Φ(x / σ): σ (z Φ(z) + φ(z)). */
const normalIntegral = (x: number): number =>
  SIGMA * ((x / SIGMA) * normalBelow(x / SIGMA) + density(x / SIGMA));

function cutNormal(): UnitDistribution {
  const below = normalBelow(-3);
  const mass = 1 - 2 * below;
  const start = normalIntegral(-1);
  return {
    reach: 1,
    mean: 0,
    // Variance of a normal cut at ±3σ: σ² (1 - 2·3 φ(3) / (1 - 2Φ(-3))).
    variance: SIGMA ** 2 * (1 - (6 * density(3)) / mass),
    integral: (x) => {
      if (x <= -1) return 0;
      return x >= 1 ? x : (normalIntegral(x) - start - below * (x + 1)) / mass;
    },
    quantile: (p) => SIGMA * normalAt(below + p * mass),
  };
}

const uniform: UnitDistribution = {
  reach: 1,
  mean: 0,
  variance: 1 / 3,
  integral: (x) => (x <= -1 ? 0 : x >= 1 ? x : (x + 1) ** 2 / 4),
  quantile: (p) => 2 * p - 1,
};

const metalSafe: UnitDistribution = {
  reach: 1,
  mean: 1 / 3,
  variance: 2 / 9,
  integral: (x) => (x <= -1 ? 0 : x >= 1 ? x - 1 / 3 : (x + 1) ** 3 / 12),
  quantile: (p) => 2 * Math.sqrt(p) - 1,
};

const uncut: UnitDistribution = {
  // Eight standard deviations: 1e-15 of the mass lies beyond.
  reach: 8 * SIGMA,
  mean: 0,
  variance: SIGMA ** 2,
  integral: (x) => (x >= 8 * SIGMA ? x : x <= -8 * SIGMA ? 0 : normalIntegral(x)),
  quantile: (p) => SIGMA * normalAt(p),
};

/** The distributions by name. */
export const distributions: Readonly<Record<DistributionKind, UnitDistribution>> = {
  normal: cutNormal(),
  uniform,
  'metal-safe': metalSafe,
  uncut,
};
