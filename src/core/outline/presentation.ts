import type { ChainsReport } from '../chains/types.ts';
import { fromMm, type Unit } from '../lengths/length.ts';
import { writeShort } from '../lengths/write.ts';
import type { Part } from '../part/types.ts';
import { dimensionsOf, type Dimension } from './dimensions.ts';

/**
 * How the lengths of a part are shown: as its plan gives them, end to end, all from the first face, or as places at the
 * ends of the extension lines. The part is the same; what its plan does not give is worked out and bracketed.
 */
export type Presentation = 'plan' | 'chain' | 'baseline' | 'ordinate';

/** A place written at a station, counted from the first face. `text` is null where nothing places the station. */
export type Ordinate = { readonly station: string; readonly text: string | null };

/** Stations in order along the axis, as far as they are placed; the others by their faces' order. */
function inOrder(part: Part, places: ReadonlyMap<string, number>): string[] {
  const at = (id: string) => places.get(id) ?? 0;
  return [...part.faces, ...part.points].map(({ id }) => id).sort((a, b) => at(a) - at(b));
}

/**
 * The dimensions to draw for a way of presenting; none for ordinates, which `ordinatesOf` gives.
 * @param places - Where the drawing shows each station, mm: it orders them; sizes come from the chains alone.
 */
export function presented(
  part: Part,
  chains: ChainsReport,
  unit: Unit,
  how: Presentation,
  places: ReadonlyMap<string, number>,
): Dimension[] {
  if (how === 'plan') return dimensionsOf(part, chains, unit);
  if (how === 'ordinate') return [];
  const given = dimensionsOf(part, chains, unit);
  const order = inOrder(part, places);
  const first = order[0];
  return order.slice(1).flatMap((to, i) => {
    const from = how === 'chain' ? order[i] : first;
    if (from === undefined) return [];
    const same = given.find((d) => (d.from === from && d.to === to) || (d.from === to && d.to === from));
    return [same ? { ...same, lane: null } : worked(chains, unit, from, to)];
  });
}

/** A dimension that no plan gives: its size as the chains have it, in brackets as it binds nothing. */
function worked(chains: ChainsReport, unit: Unit, from: string, to: string): Dimension {
  const [a, b] = [from, to].map((id) => chains.stations[id]?.z_mm ?? null);
  const known = typeof a === 'number' && typeof b === 'number';
  const text = known ? `(${writeShort(fromMm(b - a), unit)})` : '?';
  return { id: `${from}–${to}`, from, to, text, shape: 'plain', note: null, lane: null, given: false };
}

/** The place of every station, counted from the first face, for the ends of the extension lines. */
export function ordinatesOf(part: Part, chains: ChainsReport, unit: Unit): Ordinate[] {
  return [...part.faces, ...part.points].map(({ id }) => {
    const mm = chains.stations[id]?.z_mm ?? null;
    return { station: id, text: mm === null ? null : writeShort(fromMm(mm), unit) };
  });
}
