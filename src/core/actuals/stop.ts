import { type Length, minus, pm, toMm, type Unit } from '../lengths/length.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import { said } from './diameter-aims.ts';
import type { FaceLog } from './face-log.ts';
import { shoulders } from './lengths-now.ts';
import { type Beyond, type Resolved, resolveFaces } from './resolve-faces.ts';
import type { Choice, OutOfLimits, Places, Stop } from './types.ts';

/**
 * What is to be thought about before the next cut: lengths that are out of their limits already or of which not all can
 * be kept, each by how much, and the ways on, the one that loses least first. Null where all can be kept.
 *
 * Ways on are: to go on as the readings now go; for each length that would be given up, to keep that one and give up
 * others; and to cut faces further back into their shoulders, as metal can be taken but not put back.
 */
export function stopFor(
  part: ResolvedPart,
  aims: Places,
  { resolved, standing }: FaceLog,
  height: ReadonlyMap<string, number>,
): Stop | null {
  if (resolved.contradiction)
    return {
      lengths: [],
      total_mm: 0,
      say: 'The faces do not stand in the order they are drawn in: measure again.',
      cannot: [],
      choices: [],
    };
  const all = [...resolved.lost, ...resolved.given];
  if (all.length === 0) return null;
  const asItGoes = choiceOf(part, 'go on by the readings', [], resolved);
  const kept = resolved.given.flatMap(({ length }) => {
    const other = resolveFaces(part, aims, standing, new Set([length]));
    const keeps = !other.contradiction && other.given.every((one) => one.length !== length);
    const way = `keep ${length} instead, with ${elsewhere(part, resolved, other)}`;
    return keeps ? [choiceOf(part, way, [], other)] : [];
  });
  const back = cutBack(part, aims, standing, { resolved, height });
  const choices = distinct([asItGoes, ...kept, ...back]);
  const best = choices[0] ?? asItGoes;
  return {
    lengths: all.map(({ length }) => length),
    total_mm: asItGoes.total_mm,
    say: `${asItGoes.lengths.map(({ say }) => say).join(' ')} Least is lost so: ${best.say}`,
    cannot: asItGoes.lengths,
    choices,
  };
}

const totalOf = ({ lost, given }: Resolved): number =>
  [...lost, ...given].reduce((sum, { by }) => sum + Math.abs(by), 0);

/** The least loss first, and each set of lengths once. */
function distinct(choices: readonly Choice[]): Choice[] {
  const seen = new Map<string, Choice>();
  for (const choice of choices) {
    const key = JSON.stringify([choice.recut, choice.lengths]);
    if (!seen.has(key)) seen.set(key, choice);
  }
  return [...seen.values()].sort((a, b) => a.total_mm - b.total_mm);
}

type Stand = { resolved: Resolved; height: ReadonlyMap<string, number> };

/** Faces of lost lengths, one by one and all together, taken to stand no more: what cutting them back would bring. */
function cutBack(part: ResolvedPart, aims: Places, standing: Places, { resolved, height }: Stand): Choice[] {
  const way = shoulders(part, height);
  const ends = new Set(resolved.lost.flatMap(({ length }) => endsOf(part, length)));
  const candidates = [...ends].filter((station) => way.get(station));
  const tries = [...candidates.map((station) => [station]), ...(candidates.length > 1 ? [candidates] : [])];
  return tries.flatMap((faces) => {
    const left = new Map([...standing].filter(([station]) => !faces.includes(station)));
    const found = resolveFaces(part, aims, left);
    if (found.contradiction || totalOf(found) >= totalOf(resolved)) return [];
    const recut = faces.map((station) => {
      const place = found.places.get(station) ?? pm(0);
      return { station, place, by: minus(place, standing.get(station) ?? place) };
    });
    const possible = recut.every(({ station, by }) => by * (way.get(station) ?? 0) > 0);
    const words = recut.map(
      ({ station, by }) => `cut ${station} back by ${amountOf(by, part.unit)} more and measure it again`,
    );
    return possible ? [choiceOf(part, words.join('; '), recut, found)] : [];
  });
}

function endsOf(part: ResolvedPart, length: string): string[] {
  const drawn = part.lengths.find(({ id }) => id === length);
  return drawn ? [drawn.from, drawn.to] : [];
}

type Recut = { station: string; place: Length; by: Length };

/** Stations that are named before the rest is counted. */
const NAMED = 3;

/** Which faces another way on cuts elsewhere than the readings say, those that go alike together. */
function elsewhere(part: ResolvedPart, asItGoes: Resolved, other: Resolved): string {
  const alike = new Map<number, string[]>();
  for (const [station, place] of other.places) {
    const by = place - (asItGoes.places.get(station) ?? place);
    if (by !== 0) alike.set(by, [...(alike.get(by) ?? []), station]);
  }
  const groups = [...alike].map(([by, stations]) => {
    const more = stations.length - NAMED;
    const names = more > 0 ? [...stations.slice(0, NAMED), `${more} more`] : stations;
    return `${names.join(', ')} ${amountOf(by, part.unit)} further to the ${by > 0 ? 'right' : 'left'} as drawn`;
  });
  return `${groups.join(', ')} than the readings put them`;
}

function choiceOf(
  part: ResolvedPart,
  way: string,
  recut: readonly Recut[],
  { lost, given }: Resolved,
): Choice {
  const lengths = [
    ...lost.map((beyond) => outOf(part.unit, beyond, 'is')),
    ...given.map((beyond) => outOf(part.unit, beyond, 'will be')),
  ];
  const loss = lengths.map(({ length, beyond_mm }) => `${length} is ${beyondWords(beyond_mm, part.unit)}`);
  return {
    recut: recut.map(({ station, place, by }) => ({
      station,
      z_mm: toMm(place),
      by_mm: Math.abs(toMm(by)),
    })),
    lengths,
    total_mm: lengths.reduce((sum, { beyond_mm }) => sum + Math.abs(beyond_mm), 0),
    say: `${way}: ${loss.length === 0 ? 'every length is then kept' : loss.join(', ')}.`,
  };
}

const amountOf = (length: number, unit: Unit): string => `${said(pm(Math.abs(length)), unit)} ${unit}`;

const beyondWords = (mm: number, unit: Unit): string =>
  `${mm > 0 ? 'over its greatest' : 'under its least'} by ${amountOf(Math.round(mm * 1e9), unit)}`;

function outOf(unit: Unit, { length, by }: Beyond, tense: 'is' | 'will be'): OutOfLimits {
  const beyond_mm = toMm(pm(by));
  return { length, beyond_mm, say: `${length} ${tense} ${beyondWords(beyond_mm, unit)}.` };
}
