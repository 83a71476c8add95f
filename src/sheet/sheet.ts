import { isMeasured } from '../core/marks/printer.ts';
import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Plan } from '../core/plan/types.ts';
import type { Report } from '../core/report-types.ts';
import { openBook, type Book } from './book.ts';
import { cautionsPages } from './cautions-page.ts';
import { checksPages } from './checks-pages.ts';
import { drawingPages } from './drawing-page.ts';
import { DRAWING_FONT, fileFor } from './font-files.ts';
import { holdingPages, offLathePages } from './holding-pages.ts';
import { inspectionPages } from './inspection-page.ts';
import { orderPages } from './order-page.ts';
import { PAGE_KINDS, type PageKind } from './page-kinds.ts';
import type { PageSize } from './paper.ts';
import { cardPages } from './setting-cards.ts';
import { startFlow } from './flow.ts';
import { stripPages } from './strip-pages.ts';
import { typesetter } from './type.ts';
import { openTypeface, type Typeface } from './typeface.ts';
import type { SheetMatter } from './wording.ts';

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
  /** The kinds of page wanted; left out, all. */
  readonly pages?: readonly PageKind[];
  /** What 100 mm came out as, in mm, on this printer: strips make up for it. Left out, 100. */
  readonly measured_mm?: number;
  /** Told before each piece of work; `done` of `of` are behind it. */
  readonly onprogress?: (done: number, of: number) => void;
};

/**
 * The whole sheet, or the kinds of page that were chosen, as a PDF file: drawing, bar and tools, each holding with its
 * cuts, setting cards, strips at true size, inspection, stacks and chart, cautions. Without a plan it is the drawing with the state of its chains and what is wrong. The same input gives
 * the same bytes.
 *
 * @throws RangeError where `font` is no TrueType font, or `measured_mm` is no `isMeasured`.
 */
export async function makeSheet(
  part: Part,
  report: Report,
  lathe: Lathe,
  options: SheetOptions,
): Promise<Uint8Array> {
  if (!isMeasured(options.measured_mm ?? 100))
    throw new RangeError(`makeSheet: 100 mm cannot have come out as ${options.measured_mm ?? 100} mm`);
  const main = openTypeface(options.font, 'F0', 'Drawing');
  const more = await furtherFonts(main, JSON.stringify([part, report, lathe, options.date]), options);
  const type = typesetter(main, more);
  const facts = { title: part.title, drawing: part.drawing ?? '', date: options.date, size: options.page };
  const book = openBook(facts, type, [main, ...more.values()]);
  const steps = stepsOf(book, { part, report, lathe }, options);
  const of = steps.length + 1;
  for (const [done, step] of steps.entries()) {
    options.onprogress?.(done, of);
    step();
  }
  if (book.empty()) emptyPage(book);
  options.onprogress?.(steps.length, of);
  return book.finish();
}

/** The work of each kind of page wanted, in order. */
function stepsOf(book: Book, matter: SheetMatter, options: SheetOptions): (() => void)[] {
  const { plan } = matter.report;
  const planned = (make: (plan: Plan) => (() => void)[]): (() => void)[] => (plan ? make(plan) : []);
  const work: Readonly<Record<PageKind, () => (() => void)[]>> = {
    drawing: () => [() => drawingPages(book, matter)],
    order: () => planned((all) => [() => orderPages(book, matter, all)]),
    holdings: () =>
      planned((all) => [
        ...all.holdings.map((_, index) => () => holdingPages(book, matter, all, index)),
        () => offLathePages(book, matter, all),
      ]),
    cards: () => planned((all) => [() => cardPages(book, matter, all)]),
    strips: () => planned(() => [() => stripPages(book, matter, options.page, options.measured_mm ?? 100)]),
    inspection: () => [() => inspectionPages(book, matter)],
    checks: () => [() => checksPages(book, matter, plan)],
    cautions: () => [() => cautionsPages(book, matter)],
  };
  const wanted = options.pages ?? PAGE_KINDS;
  return PAGE_KINDS.filter((kind) => wanted.includes(kind)).flatMap((kind) => work[kind]());
}

/** A file without pages is none: where nothing of what was wanted is there, one page says so. */
function emptyPage(book: Book): void {
  startFlow(book, 'Nothing to print').paragraph(
    'This part has nothing for the kinds of page that were chosen.',
    11,
  );
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
