import { takeStock } from '../chains/situation.ts';
import { pm, toMm } from '../lengths/length.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { FaceLog } from './face-log.ts';
import type { LengthNow } from './types.ts';

/** Every drawing length, and taper that acts as one, as it stands or is now to be cut. */
export function lengthsNow(
  part: ResolvedPart,
  { resolved, standing }: FaceLog,
  height: ReadonlyMap<string, number>,
): LengthNow[] {
  const { graph } = takeStock(part);
  const beyond = new Map([...resolved.lost, ...resolved.given].map(({ length, by }) => [length, by]));
  const backInto = shoulders(part, height);
  return graph.ties.map(({ id, from, to, min, max }) => {
    const [left, right] = [graph.stations[from] ?? '', graph.stations[to] ?? ''];
    const by = beyond.get(id) ?? 0;
    const cut = standing.has(left) && standing.has(right);
    const now = (resolved.places.get(right) ?? 0) - (resolved.places.get(left) ?? 0);
    // Too long is mended by a face that can still go inward, too short by one that can go outward.
    const mends = (station: string, way: -1 | 1) => backInto.get(station) === way;
    const inward = by > 0 ? 1 : -1;
    const recut =
      cut && by !== 0
        ? mends(right, inward === 1 ? -1 : 1)
          ? right
          : mends(left, inward === 1 ? 1 : -1)
            ? left
            : null
        : null;
    return {
      length: id,
      state: cut ? 'cut' : 'open',
      now_mm: toMm(pm(now)),
      min_mm: toMm(pm(min)),
      max_mm: toMm(pm(max)),
      ok: by === 0,
      beyond_mm: toMm(pm(by)),
      recut,
    };
  });
}

/** Which way cutting a face further back moves it: into the higher side, to the drawn left (-1) or right (+1). */
export function shoulders(
  part: ResolvedPart,
  height: ReadonlyMap<string, number>,
): ReadonlyMap<string, -1 | 0 | 1> {
  return new Map(
    part.faces.map((station, i) => {
      const of = (segment: string | undefined) => (segment === undefined ? 0 : (height.get(segment) ?? 0));
      const step = of(part.segments[i - 1]?.id) - of(part.segments[i]?.id);
      return [station, step > 0 ? -1 : step < 0 ? 1 : 0] as const;
    }),
  );
}
