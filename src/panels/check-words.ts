import { fromMm, type Unit } from '../core/lengths/length.ts';
import { writeGap } from '../core/lengths/write.ts';
import type { Report } from '../core/report-types.ts';
import { count, countInWords, showMm } from './show.ts';

type Chains = Report['chains'];

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** The one sentence at the head of the Check place: the worst that holds of the chains, in words. */
export function chainSentence(chains: Chains, unit: Unit): string {
  if (Object.keys(chains.stations).length < 2) return 'Nothing to check yet: draw the first land in Draw.';
  if (chains.impossible) return impossibleSentence(chains.impossible, unit);
  if (chains.clashes.length > 0) return clashSentence(chains, unit);
  if (chains.missing.length > 0) return openSentence(chains);
  if (chains.state === 'open') return 'Nothing is tied yet: give the first length.';
  if (chains.doubled.length > 0) {
    return `Every station is placed; ${count(chains.doubled.length, 'size is said twice and agrees', 'sizes are said twice and agree')}.`;
  }
  return `Every size closes: ${count(Object.keys(chains.stations).length, 'station')} placed, none said twice.`;
}

/** Requirements that some part within all limits would not meet. */
export const failing = (report: Report): readonly string[] =>
  report.requirements.filter(({ meets_worst }) => meets_worst === false).map(({ id }) => id);

/** What follows where a requirement is not always met; empty where all are, or none can be told. */
export function requirementSentence(report: Report): string {
  const ids = failing(report);
  if (ids.length === 0) return '';
  return ` ${listed(ids)} ${ids.length === 1 ? 'is' : 'are'} not always met.`;
}

/** What follows where the picture that is traced measures otherwise than the drawing says; empty where it agrees. */
export function scanSentence({ warnings }: Report): string {
  const wheres = warnings.filter(({ code }) => code === 'scan-disagrees').map(({ where }) => where);
  const ids = [...new Set(wheres)];
  if (ids.length === 0) return '';
  return ` The traced picture disagrees with ${listed(ids)}: read ${ids.length === 1 ? 'it' : 'them'} again.`;
}

function openSentence(chains: Chains): string {
  const gaps = chains.missing.map(({ between: [from, to] }) => `${from} to ${to}`);
  const shown = gaps.length > 4 ? [...gaps.slice(0, 4), `${gaps.length - 4} more`] : gaps;
  return `${countInWords(gaps.length, 'length')} short: nothing ties ${listed(shown)}.`;
}

function clashSentence(chains: Chains, unit: Unit): string {
  const [first, ...rest] = chains.clashes;
  if (!first) return '';
  const off = writeGap(fromMm(Math.abs(first.gap_mm)), unit);
  if (rest.length === 0) return `One loop does not close: ${listed(first.lengths)} are off by ${off}.`;
  return `${countInWords(rest.length + 1, 'loop')} do not close; the first, ${listed(first.lengths)}, is off by ${off}.`;
}

function impossibleSentence(impossible: NonNullable<Chains['impossible']>, unit: Unit): string {
  const by = showMm(Math.abs(impossible.short_by_mm), unit);
  const who =
    impossible.lengths.length > 0 ? listed(impossible.lengths) : `faces ${listed(impossible.faces)}`;
  return `No part can be made to this drawing: ${who} leave ${by} ${unit} too little room.`;
}
