/** Every kind of page, in the order in which they lie on one another. */
export const PAGE_KINDS = [
  'drawing',
  'order',
  'holdings',
  'cards',
  'strips',
  'inspection',
  'checks',
  'cautions',
] as const;

export type PageKind = (typeof PAGE_KINDS)[number];

export const PAGE_KIND_NAMES: Readonly<Record<PageKind, string>> = {
  drawing: 'Drawing',
  order: 'Bar and tools',
  holdings: 'Holdings',
  cards: 'Setting cards',
  strips: 'Strips',
  inspection: 'Inspection',
  checks: 'Stacks and chart',
  cautions: 'Cautions',
};
