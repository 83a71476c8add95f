import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { openBook } from './book.ts';
import { cautionsPages } from './cautions-page.ts';
import { checksPages } from './checks-pages.ts';
import { drawingPages } from './drawing-page.ts';
import { DRAWING_FONT, fileFor } from './font-files.ts';
import { holdingPages, offLathePages } from './holding-pages.ts';
import { orderPages } from './order-page.ts';
import type { PageSize } from './paper.ts';
import { stripPages } from './strip-pages.ts';
import { typesetter } from './type.ts';
import { openTypeface, type Typeface } from './typeface.ts';

export type SheetOptions = {
  readonly page: PageSize;
  /** As printed on each page; where it is an ISO date it also dates the file. */
  readonly date: string;
  /** The bytes of static/fonts/drawing.ttf. */
  readonly font: Uint8Array;
  /**
   * Gives the bytes of another file of static/fonts, asked for only where a text needs it. Left out, or where it fails, such
   * characters are printed as a box with their code point.
   */
  readonly loadFont?: (file: string) => Promise<Uint8Array>;
};

/**
 * The whole sheet as a PDF file: drawing, bar and tools, each holding with its cuts, strips at true size, stacks and
 * chart, cautions. Without a plan it is the drawing with the state of its chains and what is wrong. The same input gives
 * the same bytes.
 *
 * @throws RangeError where `font` is no TrueType font.
 */
export async function makeSheet(
  part: Part,
  report: Report,
  lathe: Lathe,
  options: SheetOptions,
): Promise<Uint8Array> {
  const main = openTypeface(options.font, 'F0', 'Drawing');
  const more = await furtherFonts(main, JSON.stringify([part, report, lathe, options.date]), options);
  const type = typesetter(main, more);
  const facts = { title: part.title, drawing: part.drawing ?? '', date: options.date, size: options.page };
  const book = openBook(facts, type, [main, ...more.values()]);
  const matter = { part, report, lathe };
  const { plan } = report;
  drawingPages(book, matter);
  if (plan) {
    orderPages(book, matter, plan);
    plan.holdings.forEach((_, index) => holdingPages(book, matter, plan, index));
    offLathePages(book, matter, plan);
    stripPages(book, matter, plan, options.page);
  }
  checksPages(book, matter, plan);
  cautionsPages(book, matter);
  return book.finish();
}

/** The fonts that hold what the main one lacks of these texts, by file name, in a fixed order. */
async function furtherFonts(
  main: Typeface,
  texts: string,
  { loadFont }: SheetOptions,
): Promise<Map<string, Typeface>> {
  const opened = new Map<string, Typeface>();
  if (!loadFont) return opened;
  const lacking = [...new Set(texts.normalize('NFC'))]
    .map((c) => c.codePointAt(0) ?? 0)
    .filter((c) => !main.has(c));
  const files = [...new Set(lacking.map(fileFor))].filter((file): file is string => file !== null).sort();
  for (const file of files) {
    if (file === DRAWING_FONT) continue;
    const bytes = await loadFont(file).catch(() => null);
    if (bytes) opened.set(file, openTypeface(bytes, `F${opened.size + 1}`, file.replace(/\.ttf$/, '')));
  }
  return opened;
}
