import { readSize } from '../../core/lengths/read-size.ts';
import { material, materialKeys } from '../../core/standards/materials.ts';
import { suggest, type Suggestion } from '../../core/standards/suggest.ts';
import { namedTapers, readTaper, type Taper } from '../../core/standards/tapers.ts';

/** What completes a text while it is typed: whole texts to put in its place, best first. */
export type Complete = (typed: string) => readonly Suggestion[];

const MOST = 8;
const begins = (text: string, typed: string): boolean =>
  text.toLowerCase().replace(/\s/g, '').includes(typed.toLowerCase().replace(/\s/g, ''));

export const threads: Complete = (typed) => suggest('thread', typed, MOST);
export const bearings: Complete = (typed) => suggest('bearing', typed, MOST);
export const centreDrills: Complete = (typed) => suggest('centre-drill', typed, MOST);

/** Classes of shafts or of holes; none while a tolerance in figures is written. */
const classes = (of: 'shaft' | 'hole', typed: string): readonly Suggestion[] =>
  /^[a-z]{0,2}\d{0,2}$/i.test(typed)
    ? suggest('fit', typed, 60)
        .filter(({ hint }) => hint === of)
        .slice(0, MOST)
    : [];
export const shaftClasses: Complete = (typed) => classes('shaft', typed.trim());

/** A class behind a size that is written already: `12 k` gives 12 k5, 12 k6, … */
const withClass =
  (of: 'shaft' | 'hole'): Complete =>
  (typed) => {
    const match = /^(.*\S\s*?)\s*([a-z]{1,2}\d{0,2})$/i.exec(typed);
    const [size = '', begun = ''] = match?.slice(1) ?? [];
    if (!match || /^(in|mm|i|m)$/i.test(begun) || !readSize(size, 'mm').ok) return [];
    return classes(of, begun).map(({ text, hint }) => ({ text: `${size.trim()} ${text}`, hint }));
  };
export const shaftSizes = withClass('shaft');
export const holeSizes = withClass('hole');

/** Materials by their names, found by key as well. */
export const materials: Complete = (typed) =>
  materialKeys()
    .map((key) => ({ text: material(key)?.name ?? key, hint: key }))
    .filter(({ text, hint }) => begins(text, typed) || begins(hint, typed.replace(/\s/g, '-')))
    .concat(suggest('material', typed, 2).map(({ text, hint }) => ({ text: hint, hint: text })))
    .filter(({ text }, i, all) => all.findIndex((other) => other.text === text) === i);

/** The key of a material typed by its name or by its key; any other text as it is. */
export const materialKey = (typed: string): string =>
  materialKeys().find((key) => key === typed || material(key)?.name === typed) ?? typed;

const named = (typed: string): readonly Taper[] => {
  const read = readTaper(typed);
  const exact = read.ok && !read.value.name.includes(':') ? [read.value] : [];
  return [...exact, ...namedTapers.filter(({ name }) => typed !== '' && begins(name, typed))];
};

/** How each way of giving a taper writes a named one. Angles are rounded to the ten-thousandth of a degree. */
const WAYS = {
  ratio: ({ perFoot }: Taper) => `${Number(perFoot.toFixed(5))}:12`,
  per_foot: ({ perFoot }: Taper) => `${Number(perFoot.toFixed(5))}`,
  half_angle: ({ halfDeg }: Taper) => `${halfDeg.toFixed(4)}°`,
  included_angle: ({ includedDeg }: Taper) => `${includedDeg.toFixed(4)}°`,
};

/** Tapers by name, written the way the field wants them: `Morse 2` as .59941 to the foot. */
export const tapers =
  (way: keyof typeof WAYS): Complete =>
  (typed) => {
    const plain = way === 'ratio' ? suggest('taper', typed, 30).filter(({ text }) => text.includes(':')) : [];
    const byName = named(typed.trim()).map((taper) => ({ text: WAYS[way](taper), hint: taper.name }));
    return [...plain, ...byName]
      .filter(({ text, hint }, i, all) => all.findIndex((o) => o.text === text && o.hint === hint) === i)
      .slice(0, MOST);
  };
