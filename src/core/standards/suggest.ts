import { allBearings } from './bearings.ts';
import { inchCentreDrills, metricCentreDrills } from './centre-drills.ts';
import { collets } from './collets.ts';
import { drills } from './drills.ts';
import { shaftLetters } from './iso286-shafts.ts';
import { material, materialKeys } from './materials.ts';
import { metricRows } from './metric-threads.ts';
import { namedTapers } from './tapers.ts';
import { undercuts } from './undercuts.ts';
import { unifiedRows } from './unified-threads.ts';
import { unifiedName } from './unified-read.ts';

export type SuggestKind =
  'thread' | 'fit' | 'bearing' | 'drill' | 'centre-drill' | 'taper' | 'undercut' | 'collet' | 'material';

/** An entry to complete a text with, and a word that tells it from its neighbours ("" where the text says it all). */
export type Suggestion = { readonly text: string; readonly hint: string };

const plain = (texts: readonly string[]): readonly Suggestion[] => texts.map((text) => ({ text, hint: '' }));

const threads: readonly Suggestion[] = [
  ...metricRows.map(([series, d, p]) => ({ text: `M${d}x${p}`, hint: series })),
  ...unifiedRows.map((row) => ({ text: unifiedName(row), hint: row[0] === 'UNC' ? 'coarse' : 'fine' })),
];

/** The classes in common use on drawings, with their usual grades: ISO 286-1 names them preferred. */
const fits: readonly Suggestion[] = [
  ...[
    'd9',
    'e8',
    'f7',
    'g6',
    'h6',
    'h7',
    'h9',
    'h11',
    'j6',
    'js6',
    'k5',
    'k6',
    'm6',
    'n6',
    'p6',
    'r6',
    's6',
  ].map((text) => ({ text, hint: 'shaft' })),
  ...[...shaftLetters.keys(), 'js'].flatMap((letter) =>
    [5, 6, 7, 8].map((it) => ({ text: `${letter}${it}`, hint: 'shaft' })),
  ),
  ...['H6', 'H7', 'H8', 'H9', 'H11', 'F7', 'G7', 'JS7', 'K7', 'M7', 'N7', 'N9', 'P7', 'P9'].map((text) => ({
    text,
    hint: 'hole',
  })),
];

const entries: Readonly<Record<SuggestKind, readonly Suggestion[]>> = {
  thread: threads,
  fit: fits.filter(({ text }, i) => fits.findIndex((other) => other.text === text) === i),
  bearing: plain(allBearings().map(({ designation }) => designation)),
  drill: drills.map(({ name, series }) => ({ text: name, hint: series })),
  'centre-drill': plain([...inchCentreDrills, ...metricCentreDrills].map(({ designation }) => designation)),
  taper: plain([...namedTapers.map(({ name }) => name), 'Jarno', '7:24', '1:10', '1:20', '1:50']),
  undercut: undercuts.map(({ designation, load }) => ({ text: designation, hint: load })),
  collet: plain(collets.map(({ series }) => series)),
  material: materialKeys().map((key) => ({ text: key, hint: material(key)?.name ?? '' })),
};

/** Case counts in classes of fit, where capitals are holes, and nowhere else; spaces do not, and × is x. */
const tidy = (text: string, kind: SuggestKind): string => {
  const plainText = text
    .replace(/^no\.? ?/i, '#')
    .replace(/\s/g, '')
    .replace(/×/g, 'x');
  return kind === 'fit' ? plainText : plainText.toLowerCase();
};

/** Entries of a table that begin as typed, in the table's order. A number sign may be left out, at most `limit`. */
export function beginning(kind: SuggestKind, prefix: string, limit = 8): readonly Suggestion[] {
  const wanted = tidy(prefix, kind);
  return entries[kind]
    .filter(({ text }) => {
      const own = tidy(text, kind);
      return own.startsWith(wanted) || own.replace('#', '').startsWith(wanted);
    })
    .slice(0, limit);
}

/**
 * Entries to complete a text with while it is typed: `5/16` gives 5/16-18, 5/16-24, 5/16-32.
 * Where none begins so, those that contain it, in the text or in the hint. At most `limit`.
 */
export function suggest(kind: SuggestKind, prefix: string, limit = 8): readonly Suggestion[] {
  const begun = beginning(kind, prefix, limit);
  if (begun.length > 0) return begun;
  const wanted = tidy(prefix, kind);
  return entries[kind]
    .filter(({ text, hint }) => `${tidy(text, kind)} ${hint.toLowerCase()}`.includes(wanted))
    .slice(0, limit);
}
