/** Sizes of paper in mm, upright. Sources: ISO 216:2007 (A4), ANSI/ASME Y14.1 (letter, size A: 8.5 by 11 in). */
export const PAPER = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
} as const;

export type PageSize = keyof typeof PAPER;
export type Turn = 'upright' | 'across';

/** PDF points in one millimetre (ISO 32000-1, 8.3.2.3: the default unit is 1/72 in). */
export const PT_PER_MM = 72 / 25.4;

/**
 * Where things may stand on a page, in mm from its top left corner. `left` leaves room for punched holes (ISO 838: 12 mm
 * from the edge), `right` for the upright bars that check the printer.
 */
export type Frame = {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
};

const EDGE = { left: 20, right: 17, top: 22, bottom: 25 } as const;

/** Half the height of the header and the footer lines are outside this frame: it is what a page's own matter may fill. */
export function frameOf(size: PageSize, turn: Turn): Frame {
  const { width: w, height: h } = PAPER[size];
  const [width, height] = turn === 'upright' ? [w, h] : [h, w];
  return {
    width,
    height,
    left: EDGE.left,
    right: width - EDGE.right,
    top: EDGE.top,
    bottom: height - EDGE.bottom,
  };
}

/** Width between the side margins, in mm. */
export const measureOf = (frame: Frame): number => frame.right - frame.left;
