import type { Unit } from '../../core/lengths/length.ts';
import type { Entry } from '../../core/standards/entry.ts';
import { lookUp, searchTables } from '../../core/standards/look-up.ts';
import { materials } from './completions.ts';
import { limitTables, tableOfClass } from './limit-tables.ts';
import { shopTables } from './shop-tables.ts';
import type { Table } from './table.ts';
import { threadTables } from './thread-tables.ts';

export const tables: readonly Table[] = [...threadTables, ...limitTables, ...shopTables];

/** What a text finds: entries, whole tables, and where nothing is found, what the readers say to it. */
export type Found = {
  readonly entries: readonly Entry[];
  readonly tables: readonly Table[];
  /** Sentences of readers that know something near ("did you mean …"). */
  readonly near: readonly string[];
};

const MOST = 12;
const words = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter(Boolean);

/** Tables whose name or other words begin with every word typed. */
function tablesNamed(query: string): readonly Table[] {
  const wanted = words(query).map((word) => (word.length > 3 ? word.replace(/s$/, '') : word));
  return tables.filter(({ name, also }) => {
    const own = words(`${name} ${also}`);
    return wanted.every((word) => own.some((each) => each.startsWith(word)));
  });
}

/** Everything that the tables have for a text. `unit` is that of bare sizes. Empty for an empty text. */
export function find(query: string, unit: Unit): Found {
  if (query.trim() === '') return { entries: [], tables: [], near: [] };
  const named = query.trim().length < 3 ? [] : materials(query).flatMap(({ hint }) => looked(hint, unit));
  const all = [...searchTables(query, unit, MOST), ...named];
  const entries = all.filter((e, i) => all.findIndex((o) => o.kind === e.kind && o.title === e.title) === i);
  const ofClass = tableOfClass(query);
  return {
    entries,
    tables: [...(ofClass ? [ofClass] : []), ...tablesNamed(query)],
    near: entries.length > 0 ? [] : near(query, unit),
  };
}

const looked = (key: string, unit: Unit): readonly Entry[] => {
  const found = lookUp('material', key, unit);
  return found.ok ? [found.value] : [];
};

/** A reader that has understood the text as its own says more than that it cannot read it. */
function near(query: string, unit: Unit): readonly string[] {
  return (['thread', 'fit', 'bearing', 'undercut'] as const).flatMap((kind) => {
    const read = lookUp(kind, query, unit);
    if (read.ok) return [];
    const { code, say, facts } = read.problem;
    const hints = facts?.['near'];
    const knows = Array.isArray(hints) ? hints.length > 0 : /not-in-table|out-of-range/.test(code);
    return knows ? [say] : [];
  });
}
