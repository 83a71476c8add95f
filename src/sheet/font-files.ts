/** The font of every page and of the board. */
export const DRAWING_FONT = 'drawing.ttf';

/** Which file of static/fonts holds which characters, first match wins: [file, from, to] in code points. */
const RANGES: readonly (readonly [file: string, from: number, to: number])[] = [
  ['hebrew.ttf', 0x0590, 0x05ff],
  ['arabic.ttf', 0x0600, 0x077f],
  ['devanagari.ttf', 0x0900, 0x097f],
  ['bengali.ttf', 0x0980, 0x09ff],
  ['gurmukhi.ttf', 0x0a00, 0x0a7f],
  ['gujarati.ttf', 0x0a80, 0x0aff],
  ['oriya.ttf', 0x0b00, 0x0b7f],
  ['tamil.ttf', 0x0b80, 0x0bff],
  ['telugu.ttf', 0x0c00, 0x0c7f],
  ['kannada.ttf', 0x0c80, 0x0cff],
  ['malayalam.ttf', 0x0d00, 0x0d7f],
  ['sinhala.ttf', 0x0d80, 0x0dff],
  ['thai.ttf', 0x0e00, 0x0e7f],
  ['lao.ttf', 0x0e80, 0x0eff],
  ['myanmar.ttf', 0x1000, 0x109f],
  ['ethiopic.ttf', 0x1200, 0x139f],
  ['cherokee.ttf', 0x13a0, 0x13ff],
  ['khmer.ttf', 0x1780, 0x17ff],
  ['kana.ttf', 0x3000, 0x312f],
  ['hangul.ttf', 0x3130, 0x318f],
  ['kana.ttf', 0x31a0, 0x33ff],
  ['hangul.ttf', 0xac00, 0xd7a3],
  ['hebrew.ttf', 0xfb1d, 0xfb4f],
  ['arabic.ttf', 0xfb50, 0xfdff],
  ['kana.ttf', 0xfe30, 0xfe4f],
  ['arabic.ttf', 0xfe70, 0xfefe],
  ['kana.ttf', 0xff00, 0xffef],
  ['marks.ttf', 0x0180, 0x2bff],
  ['marks.ttf', 0x2c60, 0x2d7f],
  ['marks.ttf', 0xa640, 0xa7ff],
  ['marks.ttf', 0xfb05, 0xfb17],
  ['marks.ttf', 0x1f600, 0x1f64f],
];

const HAN = { from: 0x4e00, to: 0x9fff, perFile: 0xa80 } as const;

/** The file that may hold a character which the drawing font lacks; null where none of ours does. */
export function fileFor(codePoint: number): string | null {
  if (codePoint >= HAN.from && codePoint <= HAN.to)
    return `han-${Math.floor((codePoint - HAN.from) / HAN.perFile) + 1}.ttf`;
  return RANGES.find(([, from, to]) => codePoint >= from && codePoint <= to)?.[0] ?? null;
}
