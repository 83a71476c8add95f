/** Thickness of common 80 g/m² paper, mm; common practice, no source. */
export const PAPER_THICKNESS_MM = 0.1;

/**
 * Length of a paper strip that goes once round a shaft, printed side out, along its middle: π (d + t). In mm, to
 * floating-point accuracy.
 */
export const wrapLength = (diameter_mm: number, paper_mm: number = PAPER_THICKNESS_MM): number =>
  Math.PI * (diameter_mm + paper_mm);

/** A place round the shaft: `at_mm` along the strip from the scribed 0° line, 0 up to the strip's length. */
export type WrapTick = { readonly id: string; readonly degrees: number; readonly at_mm: number };

export type Wrap = {
  readonly diameter_mm: number;
  readonly length_mm: number;
  readonly ticks: readonly WrapTick[];
};

/**
 * A strip to wrap round the shaft where things are clocked about its axis. Angles count counter-clockwise seen from the
 * drawn right end, so that the strip reads from left to right when its upper edge lies toward the drawn right end.
 */
export function wrapStrip(diameter_mm: number, clocked: readonly { id: string; degrees: number }[]): Wrap {
  const length_mm = wrapLength(diameter_mm);
  const ticks = clocked
    .map(({ id, degrees }) => {
      const turn = ((degrees % 360) + 360) % 360;
      return { id, degrees: turn, at_mm: (turn / 360) * length_mm };
    })
    .sort((a, b) => a.at_mm - b.at_mm);
  return { diameter_mm, length_mm, ticks };
}
