import { solveChains } from '../../../src/core/chains/solve.ts';
import { fromMm, type Length } from '../../../src/core/lengths/length.ts';
import type { Places } from '../../../src/core/actuals/types.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { ResolvedPart } from '../../../src/core/part/resolved.ts';
import { partOf } from '../part/samples.ts';

const FACES = 'ABCDEFGHJK';

/** A bar in millimetres whose faces are tied by lines such as `A-B 12.7 ±.1`, named by their ends: `A-B`. */
export function drawn(lines: readonly string[], diameters: readonly string[] = []): ResolvedPart {
  const ties = lines.map((line) => {
    const [, id = '', from = '', to = '', size = ''] = /^(([A-K])-([A-K])) (.*)$/.exec(line) ?? [];
    return { id, from, to, size };
  });
  const last = Math.max(...ties.flatMap(({ from, to }) => [FACES.indexOf(from), FACES.indexOf(to)]));
  const part = resolvePart(
    partOf({
      unit: 'mm',
      faces: Array.from({ length: last + 1 }, (_, i) => ({ id: FACES[i], sketched: i })),
      segments: Array.from({ length: last }, (_, i) => ({
        id: `s${i + 1}`,
        form: 'cylinder',
        diameter: `${diameters[i] ?? 10} ±.1`,
      })),
      lengths: ties,
    }),
  );
  if (part.errors.length > 0) throw new Error(part.errors.map(({ say }) => say).join(' '));
  return part;
}

export function aimsOf(part: ResolvedPart): Places {
  const { placeable, places, errors } = solveChains(part);
  if (!placeable) throw new Error(errors.map(({ say }) => say).join(' '));
  return new Map([...places].map(([id, { aim }]) => [id, aim]));
}

/** Places in millimetres, as pm. */
export const at = (places: Readonly<Record<string, number>>): ReadonlyMap<string, Length> =>
  new Map(Object.entries(places).map(([id, mm]) => [id, fromMm(mm)]));
