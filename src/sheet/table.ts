import type { Flow } from './flow.ts';
import type { Tag } from './tags.ts';

/** One paragraph of a cell, size in points. */
export type CellText = { readonly text: string; readonly size?: number; readonly bold?: boolean };
/** A cell's paragraphs; `tick` draws a box to tick, `blank` a line to write on. */
export type Cell = { readonly texts: readonly CellText[]; readonly form?: 'tick' | 'blank' };
export type Column = {
  readonly head: string;
  /** Share of the width; the shares of a table are added up. */
  readonly share: number;
  readonly align?: 'start' | 'end';
};

const PAD = 1.2;
const SIZE = 9;
const RULE = { width: 0.18 } as const;
const FRAME = { width: 0.35 } as const;

/** A cell of one plain paragraph. */
export const plain = (text: string, size?: number, bold?: boolean): Cell => ({
  texts: [{ text, ...(size === undefined ? {} : { size }), ...(bold ? { bold } : {}) }],
});

type SetLine = {
  readonly text: string;
  readonly size: number;
  readonly bold: boolean;
  readonly step: number;
  readonly base: number;
};
type SetRow = {
  readonly cells: readonly { lines: readonly SetLine[]; form: Cell['form'] }[];
  readonly height: number;
};

/**
 * A ruled table. A row stands on one page; its head is repeated on each page. Only a row higher than a whole page is
 * parted, between two lines. `least` is the least height of a row in mm.
 */
export function table(
  flow: Flow,
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  least = 0,
): void {
  const { frame } = flow.page();
  const all = columns.reduce((sum, column) => sum + column.share, 0);
  const widths = columns.map(({ share }) => (share / all) * (frame.right - frame.left));
  const head = setRow(
    flow,
    columns.map(({ head: text }) => plain(text, 8, true)),
    widths,
    0,
  );
  const most = frame.bottom - frame.top - head.height;
  const set = rows.flatMap((row) => parted(setRow(flow, row, widths, least), most));
  flow.need(head.height + Math.min(set[0]?.height ?? 0, most));
  const tag = flow.section.add('Table');
  drawRow(flow, head, widths, columns, { rule: FRAME.width, row: tag.add('TR'), cells: 'TH' });
  for (const row of set) {
    // Read out, the table goes on as one: the repeated head is for the eye.
    if (flow.need(row.height)) drawRow(flow, head, widths, columns, { rule: FRAME.width, row: null });
    drawRow(flow, row, widths, columns, { rule: RULE.width, row: tag.add('TR'), cells: 'TD' });
  }
  flow.move(2);
}

function setRow(flow: Flow, row: readonly Cell[], widths: readonly number[], least: number): SetRow {
  const { type } = flow.book;
  const cells = widths.map((width, i) => {
    const cell = row[i];
    const lines = (cell?.texts ?? []).flatMap(({ text, size = SIZE, bold = false }) =>
      type
        .wrap(text, size, width - 2 * PAD)
        .map((line) => ({ text: line, size, bold, ...type.leading(line, size) })),
    );
    return { lines, form: cell?.form };
  });
  const tallest = Math.max(...cells.map(({ lines }) => heightOf(lines)), least);
  return { cells, height: tallest + 2 * PAD };
}

const heightOf = (lines: readonly SetLine[]): number => lines.reduce((sum, { step }) => sum + step, 0);

/** A row that no page could hold, in as many rows as it takes. */
function parted(row: SetRow, most: number): SetRow[] {
  if (row.height <= most) return [row];
  const rest = row.cells.map(({ lines, form }) => ({ lines: [...lines], form }));
  const out: SetRow[] = [];
  while (rest.some(({ lines }) => lines.length > 0)) {
    const cells = rest.map(({ lines, form }) => {
      let height = 0;
      const count = lines.findIndex(({ step }) => (height += step) > most - 2 * PAD);
      return { lines: lines.splice(0, count < 0 ? lines.length : Math.max(count, 1)), form };
    });
    out.push({ cells, height: Math.max(...cells.map(({ lines }) => heightOf(lines))) + 2 * PAD });
  }
  return out;
}

function drawRow(
  flow: Flow,
  row: SetRow,
  widths: readonly number[],
  columns: readonly Column[],
  { rule, row: tag, cells: role = 'TD' }: { rule: number; row: Tag | null; cells?: 'TH' | 'TD' },
): void {
  const { frame, ink } = flow.page();
  const top = flow.at();
  let x = frame.left;
  row.cells.forEach(({ lines, form }, i) => {
    const width = widths[i] ?? 0;
    const end = columns[i]?.align === 'end';
    ink.tagged(tag?.add(role) ?? null, () => {
      let y = top + PAD;
      for (const [k, { text, size, bold, step, base }] of lines.entries()) {
        const edge = end ? x + width - PAD : x + PAD;
        const goesOn = k < lines.length - 1;
        ink.text(text, edge, y + base, size, { bold, align: end ? 'end' : 'start', goesOn });
        y += step;
      }
      const foot = top + row.height - 2;
      if (form === 'tick')
        ink.saying('box to tick', () =>
          ink.rectangle(x + width / 2 - 2.2, top + PAD + 0.4, 4.4, 4.4, { width: 0.35 }),
        );
      if (form === 'blank')
        ink.saying('to be written in', () =>
          ink.line([x + PAD, foot, x + width - PAD, foot], { width: 0.25 }),
        );
    });
    x += width;
  });
  ink.line([frame.left, top + row.height, frame.right, top + row.height], { width: rule });
  flow.move(row.height);
}
