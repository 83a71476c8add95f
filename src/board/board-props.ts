import type { Snippet } from 'svelte';
import type { Unit } from '../core/lengths/length.ts';
import type { Picture } from '../core/outline/picture.ts';
import type { Transaction } from '../core/part/edit.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { Choice } from './choice.ts';
import type { SizeTarget } from './size-target.ts';
import type { Tracing } from './tracing.ts';
import type { Viewport } from './viewport.ts';

/** What the board is given, and what it asks for. */
export type BoardProps = {
  part: Part;
  report: Report;
  chosen: Choice | null;
  /** Ids of stations, lengths and segments to light up. */
  lit: readonly string[];
  unit: Unit;
  onedit: (change: Transaction) => void;
  onchoose: (choice: Choice | null) => void;
  /** Shown instead of the drawing while a holding or a cut is talked about. */
  picture?: Picture | null;
  /** Gives the field of a size a list to complete from, where there is one. */
  completing?: (target: SizeTarget) => ((input: HTMLInputElement) => () => void) | undefined;
  /** The picture that is traced; left out where there is none to be had. */
  tracing?: Tracing;
  /** Told once, when the board has been drawn for the first time. */
  ondrawn?: () => void;
  /** Laid over that picture, at the places it is given. */
  over?: Snippet<[Viewport]> | null;
};
export type Tool = 'choose' | 'land' | 'length';
