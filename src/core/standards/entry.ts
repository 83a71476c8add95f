import type { Length, Unit } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import type { Origin } from './origin.ts';
import type { SuggestKind } from './suggest.ts';

/** One figure or word of an entry. Lengths are left to the reader's unit. */
export type Fact = { readonly name: string } & ({ readonly length: Length } | { readonly text: string });
export type EntryKind = SuggestKind | 'size';
/** What the tables say of one thing, and where from. */
export type Entry = {
  readonly kind: EntryKind;
  readonly title: string;
  readonly facts: readonly Fact[];
  readonly origins: readonly Origin[];
};

/** Builders of facts: nothing comes of a figure or a word that the tables do not have. */
export const size = (name: string, length: Length | null): Fact[] =>
  length === null ? [] : [{ name, length }];
export const word = (name: string, text: string): Fact[] => (text === '' ? [] : [{ name, text }]);
export const range = (
  name: string,
  of: { readonly min: Length | null; readonly max: Length | null } | null,
): Fact[] => (of ? [...size(`${name}, least`, of.min), ...size(`${name}, most`, of.max)] : []);
export const entry = (
  kind: EntryKind,
  title: string,
  facts: readonly Fact[],
  origins: readonly Origin[],
): Outcome<Entry> => ({
  ok: true,
  value: { kind, title, facts, origins },
});

/** Reads a designation and gathers its figures; `unit` is that of bare sizes. */
export type Reader = (text: string, unit: Unit) => Outcome<Entry>;
