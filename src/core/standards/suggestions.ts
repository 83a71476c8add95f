/** "a", "a or b", "a, b or c". */
export function oneOf(names: readonly string[]): string {
  const last = names[names.length - 1];
  if (last === undefined) return '';
  return names.length === 1 ? last : `${names.slice(0, -1).join(', ')} or ${last}`;
}

/** The entries next below and next above. */
export function neighbours(sorted: readonly number[], value: number): number[] {
  const below = sorted.filter((x) => x < value).slice(-1);
  const above = sorted.filter((x) => x > value).slice(0, 1);
  return [...below, ...above];
}
