import type { DistributionKind } from '../../core/stacks/distribution.ts';

/** A share as a person reads it: never "100 %" unless all of it, never "0 %" unless none. */
export function showShare(share: number): string {
  if (share >= 1) return 'all';
  if (share <= 0) return 'none';
  if (share > 0.9999) return 'over 99.99 %';
  if (share < 0.0001) return 'under 0.01 %';
  const percent = share * 100;
  const text = percent.toFixed(percent > 99 || percent < 1 ? 2 : 1);
  return `${text} %`;
}

/** Where within its limits a size is taken to fall. */
export const kindWords: readonly (readonly [DistributionKind, string])[] = [
  ['normal', 'about the middle'],
  ['uniform', 'anywhere alike'],
  ['metal-safe', 'metal left on'],
  ['uncut', 'normal, with tails'],
];
