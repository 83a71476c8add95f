import { cutsCsv, marksCsv } from '../core/marks/plan-csv.ts';
import { planStrips } from '../core/marks/plan-strips.ts';
import { printerScale } from '../core/marks/printer.ts';
import { stripSvg, wrapSvg } from '../core/marks/strip-svg.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { fileName } from '../keep/files.ts';

/** A file beside the sheet: what it is, and its text when it is asked for. */
export type SheetFile = {
  readonly name: string;
  readonly file: string;
  readonly type: string;
  readonly text: () => string;
};

/** Each strip as a drawing at true size, marks and cuts as tables. `measured_mm`: what 100 mm came out as on paper. */
export function sheetFiles(part: Part, report: Report, measured_mm: number): SheetFile[] {
  const { plan } = report;
  if (!plan) return [];
  const scale = printerScale(measured_mm);
  const { strips, wraps } = planStrips(part, report);
  const svg = (name: string, text: () => string): SheetFile => ({
    name: `${name} (SVG)`,
    file: fileName(`${part.title} ${name}`, 'svg'),
    type: 'image/svg+xml',
    text,
  });
  const csv = (name: string, text: () => string): SheetFile => ({
    name: `${name} (CSV)`,
    file: fileName(`${part.title} ${name}`, 'csv'),
    type: 'text/csv',
    text,
  });
  return [
    ...strips.map((strip) =>
      svg(`Strip ${strip.holding} from ${strip.from}, ${strip.way}`, () => stripSvg(strip, scale)),
    ),
    ...wraps.map((wrap) => svg(`Strip round ${wrap.segment}`, () => wrapSvg(wrap, scale))),
    csv('Marks', () => marksCsv(plan)),
    csv('Cuts', () => cutsCsv(plan)),
  ];
}
