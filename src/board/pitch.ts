import type { ChainsReport } from '../core/chains/types.ts';
import { fromMm } from '../core/lengths/length.ts';
import { readSize } from '../core/lengths/read-size.ts';
import { writeShort } from '../core/lengths/write.ts';
import { stretchOf } from '../core/part/piece.ts';
import type { Part } from '../core/part/types.ts';

/**
 * Why a stretch of segments is not repeated at a pitch, in a sentence; empty where it is. A pitch has to be read, and to
 * leave room for the stretch, and beside a single segment for the land between, as far as sizes say how long that is.
 */
export function pitchFault(part: Part, chains: ChainsReport, ids: readonly string[], pitch: string): string {
  if (pitch.trim() === '') return '';
  const read = readSize(pitch, part.unit);
  if (!read.ok) return read.problem.say;
  const stretch = stretchOf(part, ids);
  const [from, to] = stretch ? [part.faces[stretch.first], part.faces[stretch.last + 1]] : [];
  const [a, b] = [from, to].map((face) => (face ? chains.stations[face.id]?.z_mm : null) ?? null);
  if (!stretch || a === null || a === undefined || b === null || b === undefined) return '';
  const long = fromMm(b - a);
  const single = stretch.first === stretch.last;
  if (single ? read.value.nominal > long : read.value.nominal >= long) return '';
  const least = single ? 'more than' : 'at least';
  return `What is repeated is ${writeShort(long, part.unit)} long: the pitch has to be ${least} that.`;
}
