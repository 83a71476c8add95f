import { PM_PER, type Unit } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import type { Piece } from './piece.ts';
import type { SizeText } from './types.ts';

/** The piece for a part in a unit: rough places converted, bare sizes marked with the unit that they had. */
export function inUnit(piece: Piece, unit: Unit): Piece {
  if (piece.unit === unit) return piece;
  const factor = PM_PER[piece.unit] / PM_PER[unit];
  const placed = <T extends { sketched: number }>(item: T): T => ({
    ...item,
    sketched: Number((item.sketched * factor).toFixed(4)),
  });
  const marked = <T extends object>(item: T): T =>
    Object.fromEntries(
      Object.entries(item).map(([key, value]) => [
        key,
        SIZES.has(key) ? markedSize(value as SizeText, piece.unit, unit) : value,
      ]),
    ) as T;
  return {
    ...piece,
    unit,
    faces: piece.faces.map(placed),
    points: piece.points.map(placed),
    segments: piece.segments.map(marked),
    lengths: piece.lengths.map(marked),
    edges: piece.edges.map(marked),
    crossings: piece.crossings.map(marked),
  };
}

const SIZES = new Set([
  'size',
  'tol',
  'diameter',
  'start',
  'end',
  'radius',
  'width',
  'depth',
  'across',
  'reaches',
]);

function markedSize(size: SizeText, was: Unit, now: Unit): SizeText {
  if (typeof size === 'string') return markedText(size, was, now);
  const tol = size.tol === undefined ? {} : { tol: markedText(size.tol, was, now) };
  return { ...size, size: markedText(size.size, was, now), ...tol };
}

/** A text that says the same in another unit; one that nobody can read stays as it is. */
function markedText(text: string, was: Unit, now: Unit): string {
  const bare = /^[\s\d.,/±+−-]+$/.test(text) && /\d/.test(text);
  const [old, fresh] = [readSize(text, was), readSize(text, now)];
  if (!old.ok) return bare ? `${text} ${was}` : text;
  if (fresh.ok && fresh.value.nominal === old.value.nominal) return text;
  const split = /^(.*?\d)(\s*(?:±|\+|[a-zA-Z]|\s-).*)$/.exec(text);
  const candidates = [...(split ? [`${split[1]} ${was}${split[2]}`] : []), `${text} ${was}`];
  const same = candidates.find((one) => {
    const read = readSize(one, now);
    return read.ok && read.value.nominal === old.value.nominal;
  });
  return same ?? text;
}
