import type { Pen } from './pen.ts';

/**
 * A stretch of a label: on the line, the upper and lower figure of a fraction with a solidus between, or two limits one
 * above the other.
 */
export type Run =
  | { readonly text: string; readonly form: 'plain' | 'upper' | 'lower' }
  | { readonly form: 'stacked'; readonly text: string; readonly below: string };

/** Height of a fraction's figures, and of stacked limits, against the plain ones. */
const SMALL = 0.74;
const SOLIDUS = '\u2044';

const UNIT = String.raw`(?:\s?(?:mm|in|"))?`;
const DEVIATION = String.raw`[+−-]\s?[\d.,]+${UNIT}`;
const LIMIT = String.raw`Ø?\d*[.,]\d+${UNIT}`;
/** Two deviations, or two limits that both have decimals. */
const STACK = new RegExp(
  `(${DEVIATION})\\s*/\\s*(${DEVIATION})|(?<![\\d.,])(${LIMIT})/(${LIMIT})(?![\\d.,])`,
  'g',
);

/**
 * A label cut into runs, so that `1 5/8` is drawn as one and five eighths, and `+.000/-.001` or `.4995/.4985` one above
 * the other. A fraction has no decimal mark on either side of its solidus.
 */
export function runsOf(text: string): Run[] {
  const runs: Run[] = [];
  let at = 0;
  for (const match of text.matchAll(STACK)) {
    const [whole, over, under, most, least] = match;
    runs.push(...fractionsOf(text.slice(at, match.index)));
    runs.push({ form: 'stacked', text: over ?? most ?? '', below: under ?? least ?? '' });
    at = match.index + whole.length;
  }
  return [...runs, ...fractionsOf(text.slice(at))];
}

function fractionsOf(text: string): Run[] {
  const runs: Run[] = [];
  let at = 0;
  const plain = (part: string) => {
    if (part) runs.push({ text: part, form: 'plain' });
  };
  for (const match of text.matchAll(/(?<![\d.,])(\d+)\/(\d+)(?!\d|[.,]\d)/g)) {
    const [whole, upper = '', lower = ''] = match;
    plain(text.slice(at, match.index).replace(/(\d) $/, '$1\u2009'));
    runs.push(
      { text: upper, form: 'upper' },
      { text: SOLIDUS, form: 'plain' },
      { text: lower, form: 'lower' },
    );
    at = match.index + whole.length;
  }
  plain(text.slice(at));
  return runs;
}

export type LabelFont = { readonly family: string; readonly size: number };
export type Measure = (text: string) => number;

const fontOf = ({ family, size }: LabelFont, run: Run) =>
  `${run.form === 'plain' ? size : Math.round(size * SMALL * 10) / 10}px ${family}`;

const widthOf = (pen: Pen, run: Run): number =>
  run.form === 'stacked'
    ? Math.max(pen.measureText(run.text).width, pen.measureText(run.below).width)
    : pen.measureText(run.text).width;

/** Measures labels on a canvas; widths are kept, as every zoom asks for all of them again. */
export function labelMeasure(pen: Pen, font: LabelFont): Measure {
  const known = new Map<string, number>();
  return (text) => {
    const kept = known.get(text);
    if (kept !== undefined) return kept;
    const width = runsOf(text).reduce((sum, run) => {
      pen.font = fontOf(font, run);
      return sum + widthOf(pen, run);
    }, 0);
    known.set(text, width);
    return width;
  };
}

/** Draws a label with its left end on the baseline at x, y, in the pen's fill. */
export function drawLabel(pen: Pen, font: LabelFont, text: string, x: number, y: number): void {
  let at = x;
  pen.label?.(true);
  for (const run of runsOf(text)) {
    pen.font = fontOf(font, run);
    if (run.form === 'stacked') {
      pen.fillText(run.text, at, y - font.size * 0.56);
      pen.fillText(run.below, at, y + font.size * 0.13);
    } else {
      const rise = run.form === 'upper' ? font.size * 0.3 : run.form === 'lower' ? -font.size * 0.06 : 0;
      pen.fillText(run.text, at, y - rise);
    }
    at += widthOf(pen, run);
  }
  pen.label?.(false);
}
