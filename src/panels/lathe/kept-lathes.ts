import { firstLathe } from '../../core/part/first-lathe.ts';
import type { Lathe } from '../../core/part/lathe.ts';
import { metricLathe } from '../../core/part/metric-lathe.ts';
import { readLathe } from '../../core/part/read-lathe.ts';

/** The lathes that come with the app; they stay as they are, a change of one makes an own lathe. */
export const builtIn: readonly Lathe[] = [firstLathe, metricLathe];

export const isBuiltIn = (name: string): boolean => builtIn.some((lathe) => lathe.name === name);

/** The lathes kept in this browser; a text that no longer reads as one is passed over. */
export const keptLathes = (texts: readonly string[]): Lathe[] =>
  texts.flatMap((text) => {
    const read = readLathe(text, 'kept lathe');
    return read.ok ? [read.value] : [];
  });

/** The texts with one lathe kept under its name; what was kept as `name`, or as `before`, makes way for it. */
export function keptWith(texts: readonly string[], lathe: Lathe, before: string | null = null): string[] {
  if (isBuiltIn(lathe.name)) return [...texts];
  const kept = keptLathes(texts);
  const at = kept.findIndex(({ name }) => name === (before ?? lathe.name));
  const others = kept.map((each, i) => (i === at ? lathe : each));
  const all = at < 0 ? [...kept, lathe] : others;
  return all.filter((each) => each === lathe || each.name !== lathe.name).map((each) => JSON.stringify(each));
}

export const keptWithout = (texts: readonly string[], name: string): string[] =>
  keptLathes(texts)
    .filter((lathe) => lathe.name !== name)
    .map((lathe) => JSON.stringify(lathe));

/** A name that no lathe has yet: the wanted one, or with a number behind it. */
export function freeName(wanted: string, taken: readonly string[]): string {
  const stem = wanted.trim() || 'lathe';
  let name = stem;
  for (let n = 2; taken.includes(name); n += 1) name = `${stem} ${n}`;
  return name;
}

/** A lathe that came in under the name of one of the app's own, though it is another, gets a name of its own. */
export function ownName(lathe: Lathe, texts: readonly string[]): Lathe {
  const same = builtIn.find(({ name }) => name === lathe.name);
  const named = lathe.name.trim() === '' || (same && JSON.stringify(same) !== JSON.stringify(lathe));
  if (!named) return lathe;
  const taken = [...builtIn, ...keptLathes(texts)].map(({ name }) => name);
  return { ...lathe, name: freeName(lathe.name, taken) };
}
