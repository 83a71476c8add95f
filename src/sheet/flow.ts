import type { Book, SheetPage } from './book.ts';
import type { Turn } from './paper.ts';
import { measureOf } from './paper.ts';
import type { Tag } from './tags.ts';

/** Matter that runs down a page and on to the next one. Places and heights in mm. */
export type Flow = {
  readonly book: Book;
  /** What all of it is read out under. */
  readonly section: Tag;
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

const HEADING = { size: 12, before: 2.5, height: 7, base: 4.8 } as const;

/** Starts a new page under this heading; pages that follow say that they continue it. */
export function startFlow(book: Book, title: string, turn: Turn = 'upright'): Flow {
  const section = book.section();
  let page = book.page(title, section.add('H1'), turn);
  let y = page.frame.top;
  /** A heading that waits for what it stands over, so that the two are never parted. */
  let waiting: string | null = null;
  const { type } = book;
  const left = (): number => page.frame.bottom - y;
  /** Letters of some scripts reach far above and below. */
  const headingBox = (text: string): { text: string; size: number; base: number; height: number } => {
    const shown = type.fit(text, HEADING.size, 8, measureOf(page.frame));
    const { base, step } = type.leading(shown.text, shown.size);
    const over = Math.max(0, base - HEADING.base);
    return {
      ...shown,
      base: HEADING.base + over,
      height: Math.max(HEADING.height + over, HEADING.base + over + step - base),
    };
  };
  const setHeading = (): void => {
    if (waiting === null) return;
    const shown = headingBox(waiting);
    waiting = null;
    if (y > page.frame.top) y += HEADING.before;
    const { ink, frame } = page;
    ink.tagged(section.add('H2'), () =>
      ink.text(shown.text, frame.left, y + shown.base, shown.size, { bold: true }),
    );
    y += shown.height;
  };
  const need = (height: number): boolean => {
    const whole = height + (waiting === null ? 0 : HEADING.before + headingBox(waiting).height);
    const broken = whole > left() + 1e-6 && y > page.frame.top;
    if (broken) {
      page = book.page(`${title} (continued)`, null, turn);
      y = page.frame.top;
    }
    setHeading();
    return broken;
  };
  return {
    book,
    section,
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
      let tag: Tag | null = null;
      const lines = type.wrap(text, size, measureOf(page.frame) - indent);
      for (const [i, line] of lines.entries()) {
        need(step);
        tag ??= section.add('P');
        const { ink, frame } = page;
        ink.tagged(tag, () =>
          ink.text(line, frame.left + indent, y + base, size, { bold, goesOn: i < lines.length - 1 }),
        );
        y += step;
      }
      y += 0.8;
    },
  };
}
