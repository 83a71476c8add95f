import type { Lathe } from '../../core/part/lathe.ts';
import type { Part } from '../../core/part/types.ts';
import type { Read } from '../../keep/carry-code.ts';

/** What travels: the part with all that was measured and ticked, but no traced picture, and the lathe it is planned for. */
export const packParcel = (part: Part, lathe: Lathe): string =>
  JSON.stringify({ part: part.scan ? { ...part, scan: undefined } : part, lathe });

/** The texts of part and lathe as files hold them, for the readers of files to judge. */
export function unpackParcel(text: string): Read<{ part: string; lathe: string }> {
  const none = { ok: false, say: 'The codes carry no part.' } as const;
  try {
    const parcel: unknown = JSON.parse(text);
    if (typeof parcel !== 'object' || parcel === null) return none;
    const { part, lathe } = parcel as Record<string, unknown>;
    if (typeof part !== 'object' || typeof lathe !== 'object') return none;
    return { ok: true, value: { part: JSON.stringify(part), lathe: JSON.stringify(lathe) } };
  } catch {
    return none;
  }
}
