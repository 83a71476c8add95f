import type { Length } from '../lengths/length.ts';
import type { Note } from '../report-types.ts';

/** A correction of one axis of one tool in one holding, from a size measured at a known reading. */
export type ShiftRow = {
  holding: string;
  tool: string;
  axis: 'X' | 'Z';
  /** Holds for the cuts after this one, until the tool is touched off again. */
  after: number;
  /** What the readout showed, and what it should have shown; on X both as the readout counts. */
  shown_mm: number;
  true_mm: number;
  /** By how much later readings change, as the readout counts; 0 where the readout was set, or is not that fine. */
  by_mm: number;
  /** What was done about it. `none`: less than one count of the readout, so that nothing is. */
  set: 'readout' | 'readings' | 'none';
  /** The figure to type into the readout, where that is how it is put right. */
  enter: string;
  say: string;
};

/** A reading that no longer says what the plan says. */
export type ReadingNow = {
  /** The cut, and the place of the reading in its list. */
  n: number;
  at: number;
  axis: 'X' | 'Z' | 'quill';
  planned: string;
  text: string;
  value_mm: number;
  /** The same by the other edge of a blade. */
  other: { edge: 'left' | 'right'; text: string; value_mm: number } | null;
  /** Text now less text planned, as the readout counts, with its sign. */
  by_mm: number;
  by: string;
  /** The edge of a blade that the text goes by; null on other readings. */
  edge: 'left' | 'right' | null;
  /** What moved it: another edge touched off, a correction of the readout, a face that came out elsewhere, another aim. */
  why: ('edge' | 'readout' | 'face' | 'aim')[];
};

/** A mark that is scribed at another place, as its face moved. */
export type MarkNow = { holding: string; station: string; text: string; reading_mm: number };

export type StationNow = {
  station: string;
  /** Measured, cut but not measured, or still to be cut. */
  state: 'measured' | 'cut' | 'open';
  /** Where it stands or is now to be cut, and by how much that differs from the drawing's aim. */
  z_mm: number;
  moved_mm: number;
};

/** How a drawing length comes out with the faces as they now stand or are to be cut. */
export type LengthNow = {
  length: string;
  /** Both faces stand, or one is still to be cut. */
  state: 'cut' | 'open';
  now_mm: number;
  min_mm: number;
  max_mm: number;
  ok: boolean;
  /** Beyond the nearer limit: positive above the greatest, negative below the least; 0 within. */
  beyond_mm: number;
  /** Where both faces stand and cutting one of them further back into its shoulder would bring the length in. */
  recut: string | null;
};

/** A drawing length that is out of its limits, or will be. `beyond_mm`: above the greatest, or negative below the least. */
export type OutOfLimits = { length: string; beyond_mm: number; say: string };

/** One way on where not every length is kept as things stand. */
export type Choice = {
  /** Faces to cut further back into their shoulders: where to, and by how much. */
  recut: { station: string; z_mm: number; by_mm: number }[];
  /** What is then out of its limits. */
  lengths: OutOfLimits[];
  total_mm: number;
  say: string;
};

/**
 * The next cut is to wait. `cannot`: every drawing length that is lost, or that cannot be kept with the others, as the
 * readings now go. `choices`: ways on, the one that loses least first; readings go by the first that cuts nothing back.
 */
export type Stop = {
  lengths: string[];
  total_mm: number;
  say: string;
  cannot: OutOfLimits[];
  choices: Choice[];
};

/** A diameter that is worked to another size than the middle of its limits. */
export type AimNow = {
  segment: string;
  aim_mm: number;
  was_mm: number;
  why: 'matched' | 'fit';
  /** The segment whose measured or proved size is taken over. */
  from: string;
  say: string;
};

export type Verdict = 'in' | 'over' | 'under' | 'not measured';

/** One line of the inspection record. */
export type InspectionRow = {
  /** What carries the size: a segment, a hole, a length, an edge, a crossing. */
  of: string;
  /** Which of its sizes: diameter, start, end, length, depth, … */
  size: string;
  /** Between which stations, for a length. */
  between: [string, string] | null;
  min_mm: number;
  max_mm: number;
  aim_mm: number | null;
  measured_mm: number | null;
  /** As it was typed; null where the size follows from others that were. */
  typed: string | null;
  /** What was typed last where it was measured before the last cut, so that no verdict follows from it; else null. */
  midway: string | null;
  verdict: Verdict;
  /** Beyond the nearer limit, never negative. */
  by_mm: number;
};

/** The `actuals` section of the report. */
export type ActualsReport = {
  /** Cuts of this plan that are ticked, by number. */
  done: number[];
  shifts: ShiftRow[];
  readings: ReadingNow[];
  marks: MarkNow[];
  stations: StationNow[];
  lengths: LengthNow[];
  stop: Stop | null;
  aims: AimNow[];
  inspection: InspectionRow[];
  notes: Note[];
};

/** Places of stations in pm, part coordinates. */
export type Places = ReadonlyMap<string, Length>;
