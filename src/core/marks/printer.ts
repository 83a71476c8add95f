/** How far a printer may be off before what was measured is taken for a mistake, in mm of 100. */
export const MOST_OFF = 10;

/** Whether so many mm are what 100 mm can come out as on paper. */
export const isMeasured = (mm: number): boolean => Math.abs(mm - 100) <= MOST_OFF;

/** Millimetres to draw for one on paper, where 100 mm came out as `measured_mm`. */
export const printerScale = (measured_mm: number): number => 100 / measured_mm;
