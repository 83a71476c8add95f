const MORSE = 'dimensions of Morse tapers, two published tables; fifth decimal by diameters over length';
const BROWN_SHARPE =
  'dimensions of Brown & Sharpe tapers, published tables, checked by diameters over length';

/** Inches; taper as change of diameter per foot. */
export type InchTaper = {
  readonly name: string;
  readonly large: number;
  readonly small: number;
  readonly length: number;
  readonly perFoot: number;
  readonly source: string;
};

const row = (
  name: string,
  large: number,
  small: number,
  length: number,
  perFoot: number,
  source: string,
): InchTaper => ({ name, large, small, length, perFoot, source });

export const inchTapers: readonly InchTaper[] = [
  row('Morse 0', 0.3561, 0.252, 2, 0.6246, MORSE),
  row('Morse 1', 0.475, 0.369, 2.125, 0.59858, MORSE),
  row('Morse 2', 0.7, 0.572, 2.5625, 0.59941, MORSE),
  row('Morse 3', 0.938, 0.778, 3.1875, 0.60235, MORSE),
  row('Morse 4', 1.231, 1.02, 4.0625, 0.62326, MORSE),
  row('Morse 4.5', 1.5, 1.266, 4.5, 0.624, MORSE),
  row('Morse 5', 1.748, 1.475, 5.1875, 0.63151, MORSE),
  row('Morse 6', 2.494, 2.116, 7.25, 0.62565, MORSE),
  row('Morse 7', 3.27, 2.75, 10, 0.624, MORSE),
  row('Brown & Sharpe 1', 0.2392, 0.2, 0.9375, 0.502, BROWN_SHARPE),
  row('Brown & Sharpe 2', 0.2997, 0.25, 1.1875, 0.502, BROWN_SHARPE),
  row('Brown & Sharpe 3', 0.3753, 0.3125, 1.5, 0.502, BROWN_SHARPE),
  row('Brown & Sharpe 4', 0.4207, 0.35, 1.6875, 0.5024, BROWN_SHARPE),
  row('Brown & Sharpe 5', 0.5388, 0.45, 2.125, 0.5016, BROWN_SHARPE),
  row('Brown & Sharpe 6', 0.5996, 0.5, 2.375, 0.5033, BROWN_SHARPE),
  row('Brown & Sharpe 7', 0.7201, 0.6, 2.875, 0.5015, BROWN_SHARPE),
  row('Brown & Sharpe 8', 0.8987, 0.75, 3.5625, 0.501, BROWN_SHARPE),
  row('Brown & Sharpe 9', 1.0775, 0.9001, 4.25, 0.5009, BROWN_SHARPE),
  row('Brown & Sharpe 10', 1.2597, 1.0447, 5, 0.5161, BROWN_SHARPE),
  row('Brown & Sharpe 11', 1.4978, 1.25, 5.9375, 0.501, BROWN_SHARPE),
  row('Brown & Sharpe 12', 1.7968, 1.5001, 7.125, 0.4997, BROWN_SHARPE),
  row('Brown & Sharpe 13', 2.0731, 1.7501, 7.75, 0.5002, BROWN_SHARPE),
];
