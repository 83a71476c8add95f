import type { Book, SheetPage } from './book.ts';
import type { Turn } from './paper.ts';
import { measureOf } from './paper.ts';

/** Matter that runs down a page and on to the next one. Places and heights in mm. */
export type Flow = {
  readonly book: Book;
  page(): SheetPage;
  /** Where the next thing begins, and the room left under it. */
  at(): number;
  left(): number;
  move(by: number): void;
  /** Breaks the page unless so much room is left; says whether it did. */
  need(height: number): boolean;
  heading(text: string): void;
  paragraph(text: string, size?: number, style?: { bold?: boolean; indent?: number }): void;
};

/** Starts a new page under this heading; pages that follow say that they continue it. */
export function startFlow(book: Book, heading: string, turn: Turn = 'upright'): Flow {
  let page = book.page(heading, turn);
  let y = page.frame.top;
  const { type } = book;
  const left = (): number => page.frame.bottom - y;
  const need = (height: number): boolean => {
    if (height <= left() + 1e-6 || y <= page.frame.top) return false;
    page = book.page(`${heading} (continued)`, turn);
    y = page.frame.top;
    return true;
  };
  const paragraph: Flow['paragraph'] = (text, size = 9.5, { bold = false, indent = 0 } = {}) => {
    const step = type.leading(text, size);
    for (const line of type.wrap(text, size, measureOf(page.frame) - indent)) {
      need(step);
      page.ink.text(line, page.frame.left + indent, y + step * 0.8, size, { bold });
      y += step;
    }
    y += 0.8;
  };
  return {
    book,
    page: () => page,
    at: () => y,
    left,
    move: (by) => {
      y += by;
    },
    need,
    heading: (text) => {
      if (y > page.frame.top) y += 2.5;
      need(22);
      paragraph(text, 12, { bold: true });
    },
    paragraph,
  };
}
