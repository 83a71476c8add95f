import { PDFDocument, PDFHexString, PDFName, PDFStreamWriter, PDFString } from 'pdf-lib';
import type { PDFRef } from 'pdf-lib';
import { Ink } from './ink.ts';
import { frameOf, PT_PER_MM } from './paper.ts';
import type { Frame, PageSize, Turn } from './paper.ts';
import { writeStructure } from './structure.ts';
import { packed } from './packed.ts';
import { drawSurround } from './surround.ts';
import { Tag } from './tags.ts';
import type { Typesetter } from './type.ts';
import type { Typeface } from './typeface.ts';

export type SheetPage = {
  readonly frame: Frame;
  readonly ink: Ink;
  readonly heading: string;
  /** Where the heading opens a section, its tag; null on pages that go on with one. */
  readonly headed: Tag | null;
};

/** The pages of one sheet in the making. */
export type Book = {
  readonly type: Typesetter;
  /** Where things may stand on its pages. */
  frame(turn: Turn): Frame;
  /** The tag of a new last section. */
  section(): Tag;
  /** A new last page. */
  page(heading: string, headed: Tag | null, turn?: Turn): SheetPage;
  empty(): boolean;
  /** All pages with their headers, footers and check bars, as a PDF file. */
  finish(): Promise<Uint8Array>;
};

export type BookFacts = {
  readonly title: string;
  readonly drawing: string;
  readonly date: string;
  readonly size: PageSize;
};

/** Objects that are packed together in the file. */
const PER_STREAM = 500;

/** Starts an empty book. `faces` are the open fonts; those used are embedded when it is finished. */
export function openBook(facts: BookFacts, type: Typesetter, faces: readonly Typeface[]): Book {
  const pages: SheetPage[] = [];
  const document = new Tag('Document');
  return {
    type,
    frame: (turn) => frameOf(facts.size, turn),
    section: () => document.add('Sect'),
    page(heading, headed, turn = 'upright') {
      const frame = frameOf(facts.size, turn);
      const ink = new Ink(pages.length, frame.height, type);
      const made: SheetPage = { frame, ink, heading, headed };
      pages.push(made);
      return made;
    },
    empty: () => pages.length === 0,
    finish: () => {
      pages.forEach((page, i) => drawSurround(page, { ...facts, number: i + 1, of: pages.length }));
      return bound(facts, pages, document, faces);
    },
  };
}

/** The dates of a file are those of the sheet, never of the clock: the same input gives the same bytes. */
function fileDate(date: string): Date {
  const time = Date.parse(date);
  return new Date(Number.isFinite(time) ? time : 0);
}

async function bound(
  facts: BookFacts,
  pages: readonly SheetPage[],
  document: Tag,
  faces: readonly Typeface[],
): Promise<Uint8Array> {
  const doc = await PDFDocument.create({ updateMetadata: false });
  const { context } = doc;
  doc.setTitle(facts.title === '' ? 'Shaft' : facts.title, { showInWindowTitleBar: true });
  doc.setLanguage('en');
  doc.setProducer('Shaftwright');
  doc.setCreator('Shaftwright');
  doc.setCreationDate(fileDate(facts.date));
  doc.setModificationDate(fileDate(facts.date));
  const fonts = new Map<string, PDFRef>();
  for (const face of faces) if (face.used()) fonts.set(face.key, face.embed(context));
  for (const { frame, ink } of pages) {
    const page = doc.addPage([frame.width * PT_PER_MM, frame.height * PT_PER_MM]);
    for (const key of [...ink.fonts].sort()) {
      const ref = fonts.get(key);
      if (ref) page.node.setFontDictionary(PDFName.of(key), ref);
    }
    page.node.addContentStream(context.register(packed(context, ink.operators())));
  }
  outline(doc, pages);
  writeStructure(
    doc,
    document,
    pages.map(({ ink }) => ink.marks),
  );
  return PDFStreamWriter.forContext(context, Infinity, true, PER_STREAM).serializeToBuffer();
}

/** Bookmarks, one a page: ISO 32000-1, 12.3.3. */
function outline(doc: PDFDocument, pages: readonly SheetPage[]): void {
  const { context } = doc;
  const root = context.nextRef();
  const refs = pages.map(() => context.nextRef());
  pages.forEach(({ heading }, i) => {
    const page = doc.getPage(i);
    const item = context.obj({ Parent: root, Dest: [page.ref, 'Fit'] });
    item.set(PDFName.of('Title'), PDFHexString.fromText(heading.replace(/\p{Cs}/gu, '\ufffd')));
    const [before, after] = [refs[i - 1], refs[i + 1]];
    if (before) item.set(PDFName.of('Prev'), before);
    if (after) item.set(PDFName.of('Next'), after);
    const ref = refs[i];
    if (ref) context.assign(ref, item);
  });
  const [first, last] = [refs[0], refs.at(-1)];
  if (!first || !last) return;
  context.assign(root, context.obj({ Type: 'Outlines', First: first, Last: last, Count: refs.length }));
  doc.catalog.set(PDFName.of('Outlines'), root);
  doc.catalog.set(PDFName.of('Lang'), PDFString.of('en'));
}
