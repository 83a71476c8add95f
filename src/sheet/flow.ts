import type { Book, SheetPage } from './book.ts';
import type { Turn } from './paper.ts';
import { measureOf } from './paper.ts';

/** Matter that runs down a page and on to the next one. Places and heights in mm. */
export type Flow = {
  readonly book: Book;
  page(): SheetPage;
  /** Where the next thing begins. */
  at(): number;
  move(by: number): void;
  /** Breaks the page unless so much room is left; says whether it did. */
  need(height: number): boolean;
  /** A heading over whatever comes next, which it stays with. */
  heading(text: string): void;
  paragraph(text: string, size?: number, style?: { bold?: boolean; indent?: number }): void;
};

const HEADING = { size: 12, before: 2.5, height: 7 } as const;

/** Starts a new page under this heading; pages that follow say that they continue it. */
export function startFlow(book: Book, title: string, turn: Turn = 'upright'): Flow {
  let page = book.page(title, turn);
  let y = page.frame.top;
  /** A heading that waits for what it stands over, so that the two are never parted. */
  let waiting: string | null = null;
  const { type } = book;
  const left = (): number => page.frame.bottom - y;
  const setHeading = (): void => {
    if (waiting === null) return;
    const [text, width] = [waiting, measureOf(page.frame)];
    waiting = null;
    if (y > page.frame.top) y += HEADING.before;
    const shown = type.fit(text, HEADING.size, 8, width);
    page.ink.text(shown.text, page.frame.left, y + HEADING.height * 0.68, shown.size, { bold: true });
    y += HEADING.height;
  };
  const need = (height: number): boolean => {
    const whole = height + (waiting === null ? 0 : HEADING.before + HEADING.height);
    const broken = whole > left() + 1e-6 && y > page.frame.top;
    if (broken) {
      page = book.page(`${title} (continued)`, turn);
      y = page.frame.top;
    }
    setHeading();
    return broken;
  };
  return {
    book,
    page: () => page,
    at: () => y,
    move: (by) => {
      y += by;
    },
    need,
    heading: (text) => {
      setHeading();
      waiting = text;
    },
    paragraph: (text, size = 9.5, { bold = false, indent = 0 } = {}) => {
      const { step, base } = type.leading(text, size);
      for (const line of type.wrap(text, size, measureOf(page.frame) - indent)) {
        need(step);
        page.ink.text(line, page.frame.left + indent, y + base, size, { bold });
        y += step;
      }
      y += 0.8;
    },
  };
}
