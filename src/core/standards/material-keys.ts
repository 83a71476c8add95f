/** The keys of the table of materials, in its order: a drawing is read without the figures behind them. */
export const MATERIAL_KEYS = [
  'free-cutting-steel',
  'mild-steel',
  'medium-carbon-steel',
  'alloy-steel',
  'drill-rod',
  'stainless-303',
  'stainless-304',
  'brass',
  'bronze',
  'aluminium',
  'cast-iron',
  'titanium',
  'acetal',
] as const;

export type MaterialKey = (typeof MATERIAL_KEYS)[number];

const known: ReadonlySet<string> = new Set(MATERIAL_KEYS);

/** Other names in use for a key. */
const ALSO: ReadonlyMap<string, string> = new Map([
  ['silver-steel', 'drill-rod'],
  ['aluminum', 'aluminium'],
  ['grey-cast-iron', 'cast-iron'],
  ['gray-cast-iron', 'cast-iron'],
]);

/** The key under which the table has what goes by this name; the name itself where it has no other. */
export const usualKey = (key: string): string => ALSO.get(key) ?? key;

/** Whether the table of materials has figures for this key. */
export const isMaterial = (key: string): boolean => known.has(usualKey(key));
