import type { Length, Unit } from '../../core/lengths/length.ts';
import type { Origin, Provenance } from '../../core/standards/origin.ts';
import { signed, written } from './written.ts';

/** Two deviations, written one beside the other. */
export type Zone = { readonly upper: Length; readonly lower: Length };
/** One field of a table; null where the table has nothing. */
export type Cell = Length | string | Zone | null;
export type Row = { readonly cells: readonly Cell[]; readonly from: Provenance };

/** A table of the trade as it is looked up. The first column names the row. */
export type Table = {
  readonly id: string;
  readonly name: string;
  /** Other words that it is found by. */
  readonly also: string;
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
  readonly origins: readonly Origin[];
};

/** Rows that all come from one place. */
export const rowsOf = (from: Provenance, cells: readonly (readonly Cell[])[]): readonly Row[] =>
  cells.map((own) => ({ cells: own, from }));

/** A field in the unit shown; a dash where the table has nothing. */
export function cellText(cell: Cell, unit: Unit): string {
  if (cell === null || cell === '') return '–';
  if (typeof cell === 'string') return cell;
  return typeof cell === 'number'
    ? written(cell, unit)
    : `${signed(cell.upper, unit)} ${signed(cell.lower, unit)}`;
}
