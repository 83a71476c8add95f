export type Measured = 'outside' | 'inside' | 'length' | 'depth' | 'width' | 'edge' | 'radius' | 'across';

/** Down to this width of the limits, in mm, each class of instrument serves: the reading should be ten times finer. */
const RULE_FROM = 0.75;
const CALIPER_FROM = 0.1;

const FINE: Readonly<Record<Measured, string>> = {
  outside: 'micrometer',
  inside: 'plug gauge or bore gauge',
  length: 'depth micrometer or gauge blocks',
  depth: 'depth micrometer',
  width: 'gauge blocks',
  edge: 'rule or caliper',
  radius: 'radius gauge',
  across: 'micrometer',
};

/**
 * What a size is measured with, by the width of its limits in mm: rule, caliper, then micrometer and the like; below
 * 0.01 mm also set by a standard. Where there are no limits the caliper. Common practice, no source.
 */
export function instrumentFor(kind: Measured, width_mm: number | null): string {
  if (kind === 'radius' || kind === 'edge') return FINE[kind];
  const coarse = kind === 'length' || kind === 'depth';
  if (width_mm !== null && width_mm >= RULE_FROM && coarse) return 'rule';
  if (width_mm === null || width_mm >= CALIPER_FROM)
    return kind === 'depth' ? 'caliper, depth rod' : kind === 'inside' ? 'caliper or plug gauge' : 'caliper';
  return width_mm < 0.01 ? `${FINE[kind]}, set by a standard` : FINE[kind];
}
