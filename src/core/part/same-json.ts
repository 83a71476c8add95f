/** Whether two JSON values say the same. The order of keys does not count; a key that is undefined is a key left out. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [one, other] = [fields(a), fields(b)];
  if (one.size !== other.size) return false;
  for (const [key, value] of one) if (!other.has(key) || !sameJson(value, other.get(key))) return false;
  return true;
}

const fields = (object: object): ReadonlyMap<string, unknown> =>
  new Map(Object.entries(object).filter(([, value]) => value !== undefined));
