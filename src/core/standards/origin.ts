/** How far a figure can be trusted: read in a published table, worked out by the governing rule, or recollected. */
export type Provenance = 'published' | 'rule' | 'memory';

/** Where a figure comes from, as the user is told on demand ("from: …"). */
export type Origin = { readonly source: string; readonly provenance: Provenance };

/** The less trusted of several. */
export function weakest(...all: readonly Provenance[]): Provenance {
  return all.includes('memory') ? 'memory' : all.includes('rule') ? 'rule' : 'published';
}
