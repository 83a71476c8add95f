import type { Report } from '../../core/report-types.ts';

/** The sentence of the first error at any of these places in the part file; null where all is well there. */
export function errorAt(report: Report, ...places: readonly string[]): string | null {
  return report.errors.find(({ where }) => places.includes(where))?.say ?? null;
}

/** The places where a size may be found wrong: as a text, or inside its record. */
export const sizePlaces = (at: string): readonly string[] => [at, `${at}.size`];
/** The places where the tolerance of a size may be found wrong: inside its record, or beside it. */
export const tolPlaces = (at: string, beside: string): readonly string[] => [`${at}.tol`, `${beside}.tol`];
