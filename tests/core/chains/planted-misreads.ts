import { nearest, pm, PM_PER } from '../../../src/core/lengths/length.ts';
import type { Length, Unit } from '../../../src/core/lengths/length.ts';
import { readSize } from '../../../src/core/lengths/read-size.ts';
import { writeDecimal, writeFraction } from '../../../src/core/lengths/write.ts';
import type { ResolvedLength, ResolvedPart } from '../../../src/core/part/resolved.ts';
import { partOf, sizeOf } from './drawing.ts';

/** The slips that are planted, each made of a size text as it is read wrong, or of the face it is drawn to. */
export const slips = ['swapped', 'fraction', 'point', 'sixteenth', 'neighbour', 'unit', 'figure'] as const;
export type Slip = (typeof slips)[number];

type Random = () => number;
const whole = (random: Random, low: number, high: number) => low + Math.floor(random() * (high - low + 1));
const oneOf = <T>(random: Random, list: readonly T[]): T | undefined =>
  list[Math.floor(random() * list.length)];

/**
 * A sound drawing as a magazine would print it: 4 to 10 faces on sixty-fourths (fractions and decimals mixed), thousandths or tenths of a millimetre,
 * dimensioned by a tree that mostly joins neighbours or runs from an end, with `extra` lengths more that agree (from, to). `scale` is how far the sketched
 * places lie off, as a share of the whole length; null where faces are sketched evenly, without regard to scale.
 */
export function soundPart(
  random: Random,
  scale: number | null,
  extra: readonly [number, number],
): ResolvedPart {
  const unit: Unit = random() < 0.65 ? 'in' : 'mm';
  const count = whole(random, 4, 10);
  const places = [0];
  while (places.length < count) places.push((places.at(-1) ?? 0) + randomStep(random, unit));
  const pairs = places
    .slice(1)
    .map((_, k): [number, number] => [random() < 0.6 ? k : whole(random, 0, k), k + 1]);
  for (let more = whole(random, extra[0], extra[1]); more > 0; more--) {
    const a = whole(random, 0, count - 2);
    const pair: [number, number] = [a, whole(random, a + 1, count - 1)];
    if (!pairs.some(([p, q]) => p === pair[0] && q === pair[1])) pairs.push(pair);
  }
  const faces = places.map((_, k) => `F${k}`);
  const lengths = pairs.map(([a, b], index): ResolvedLength => {
    const size = sizeOf(written(random, pm((places[b] ?? 0) - (places[a] ?? 0)), unit), unit);
    return { id: `L${index + 1}`, index, from: `F${a}`, to: `F${b}`, size };
  });
  const total = places.at(-1) ?? 1;
  const sketched = faces.map((face, k): [string, Length] => {
    if (scale === null) return [face, nearest((k * 4 * PM_PER.in) / count)];
    return [face, nearest((places[k] ?? 0) + (2 * random() - 1) * scale * total)];
  });
  return partOf(faces, lengths, { unit, places: sketched });
}

function randomStep(random: Random, unit: Unit): number {
  if (unit === 'mm') return whole(random, 10, 600) * (PM_PER.mm / 10);
  const kind = random();
  if (kind < 0.6) return whole(random, 1, 28) * (PM_PER.in / 16);
  return kind < 0.75 ? whole(random, 2, 90) * (PM_PER.in / 64) : whole(random, 60, 1800) * (PM_PER.in / 1000);
}

function written(random: Random, length: Length, unit: Unit): string {
  if (unit === 'mm') return writeDecimal(length, 'mm', 1);
  const fraction = writeFraction(length, 64);
  if (fraction !== null && random() < 0.5) return fraction;
  const decimals = [3, 4, 5, 6].find((d) => (BigInt(length) * 10n ** BigInt(d)) % BigInt(PM_PER.in) === 0n);
  return writeDecimal(length, 'in', decimals ?? 6);
}

/** The part with one length misread in the given way, and which; null where that slip cannot be made on it or would show on no loop. */
export function misreadPart(random: Random, part: ResolvedPart, slip: Slip, onLoop: ReadonlySet<string>) {
  const open = part.lengths.filter(({ id }) => onLoop.has(id));
  for (let tries = 0; tries < 30; tries++) {
    const length = oneOf(random, open);
    const wrong =
      length && (slip === 'neighbour' ? redrawn(random, part, length) : misread(random, length, slip));
    if (wrong)
      return {
        length: wrong.id,
        part: { ...part, lengths: part.lengths.map((l) => (l.id === wrong.id ? wrong : l)) },
      };
  }
  return null;
}

function redrawn(random: Random, part: ResolvedPart, length: ResolvedLength): ResolvedLength | null {
  const k = part.faces.indexOf(length.to) + (random() < 0.5 ? 1 : -1);
  const to = part.faces[k];
  return to === undefined || k <= part.faces.indexOf(length.from) ? null : { ...length, to };
}

function misread(
  random: Random,
  length: ResolvedLength,
  slip: Exclude<Slip, 'neighbour'>,
): ResolvedLength | null {
  const { size } = length;
  const text = misreadText(random, length, slip);
  const read = text === null ? null : readSize(text, size.unit);
  if (text === null || !read?.ok || read.value.nominal <= 0 || read.value.nominal === size.nominal)
    return null;
  return { ...length, size: sizeOf(text, size.unit) };
}

function misreadText(
  random: Random,
  { size }: ResolvedLength,
  slip: Exclude<Slip, 'neighbour'>,
): string | null {
  const { text } = size;
  const at = [...text].flatMap((c, i) => (/[0-9]/.test(c) ? [i] : []));
  const fraction = /^(\d+ )?(\d+)\/(\d+)$/.exec(text);
  if (slip === 'swapped') {
    const k = whole(random, 1, Math.max(1, at.length - 1));
    const [i, j] = [at[k - 1], at[k]];
    if (i === undefined || j === undefined || fraction) return null;
    return text.slice(0, i) + text.charAt(j) + text.slice(i + 1, j) + text.charAt(i) + text.slice(j + 1);
  }
  if (slip === 'figure') {
    const i = oneOf(random, at);
    const figure = i === undefined ? undefined : oneOf(random, LOOKS_LIKE.get(text.charAt(i)) ?? []);
    return i === undefined || figure === undefined ? null : text.slice(0, i) + figure + text.slice(i + 1);
  }
  if (slip === 'point') return fraction ? null : shifted(text, random() < 0.5 ? 1 : -1);
  if (slip === 'unit') return size.unit === 'in' ? inMm(size.nominal) : inInches(size.nominal);
  if (!fraction || size.unit !== 'in') return null;
  if (slip === 'sixteenth') return writeFraction(pm(size.nominal - PM_PER.in / 16), 64);
  const [, inches = '', num = '', den = ''] = fraction;
  const other = Number(num) + (random() < 0.5 ? 2 : -2);
  return other > 0 && other < Number(den) ? `${inches}${other}/${den}` : null;
}

/** Figures that a worn print lets pass for one another. From memory, no source. */
const LOOKS_LIKE = new Map([
  ['3', ['8']],
  ['8', ['3', '6', '0']],
  ['5', ['6']],
  ['6', ['5', '8', '0']],
  ['1', ['7']],
  ['7', ['1']],
  ['0', ['6', '8']],
  ['4', ['9']],
  ['9', ['4']],
]);

function shifted(text: string, by: 1 | -1): string | null {
  const [before = '', after = ''] = text.split('.');
  const figures = before + after;
  const point = before.length + by;
  if (point < 0) return `.0${figures}`;
  return point > figures.length ? null : `${figures.slice(0, point)}.${figures.slice(point)}`;
}

/** Millimetres standing on the plan, taken for inches; and inches taken for millimetres. */
const inMm = (length: Length) => String(Number((length / PM_PER.mm).toFixed(6)));
const inInches = (length: Length) => String(Number((length / PM_PER.in).toFixed(8)));
