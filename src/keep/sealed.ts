/** A value as it lies in the store: its text, and a sum by which a spoilt text is known. */
export type Sealed = { readonly text: string; readonly sum: number };

export function seal(value: unknown): Sealed {
  const text = JSON.stringify(value);
  return { text, sum: sumOf(text) };
}

/** The value that was sealed; undefined where the record is none of ours or its text is not what was written. */
export function unseal(record: unknown): unknown {
  if (typeof record !== 'object' || record === null) return undefined;
  const { text, sum } = record as Record<string, unknown>;
  if (typeof text !== 'string' || sumOf(text) !== sum) return undefined;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

/** FNV-1a over the 16-bit units: it finds damage, it does not stop a forger. */
function sumOf(text: string): number {
  let sum = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193);
  return sum >>> 0;
}
