import { packLeaders } from '../outline/lanes.ts';
import type { SegmentWrap } from './plan-strips.ts';
import type { Strip, StripTick } from './strip.ts';

/** Heights in mm: letters, a row of labels, the band of ticks above them, paper beyond the ends. */
const LETTER = 2.8;
const ROW = 4.4;
const BAND = 9;
const TAIL = 6;
/** Widest a letter of a plain sans serif comes out, as a share of its height; labels are never closer than that. */
const WIDEST = 0.75;

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const round = (mm: number): number => Math.round(mm * 1e4) / 1e4;
const line = (x0: number, y0: number, x1: number, y1: number, width = 0.25): string =>
  `<path d="M${round(x0)} ${round(y0)}L${round(x1)} ${round(y1)}" stroke-width="${width}"/>`;
const words = (x: number, y: number, text: string, align: 'start' | 'end' = 'start'): string =>
  `<text x="${round(x)}" y="${round(y)}" text-anchor="${align}">${escaped(text)}</text>`;

/** A drawing whose user unit is a millimetre, so that it prints at true size (SVG 2, 8.2 and CSS absolute lengths). */
function drawing(width: number, height: number, title: string, body: readonly string[]): string {
  const [w, h] = [round(width), round(height)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}">`,
    `<title>${escaped(title)}</title>`,
    `<g fill="none" stroke="#000" stroke-linecap="butt">`,
    ...body.filter((item) => !item.startsWith('<text')),
    '</g>',
    `<g font-family="sans-serif" font-size="${LETTER}" fill="#000">`,
    ...body.filter((item) => item.startsWith('<text')),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

/**
 * A strip along the bar as one SVG drawing at true size, however long, headstock at the left.
 *
 * @param scale - Millimetres of drawing for one of strip: more than 1 for a printer that comes out short.
 */
export function stripSvg(strip: Strip, scale = 1): string {
  const labels = [
    { at: 0, waste: 'none', text: `0 = ${strip.from}` } as const,
    ...strip.ticks.map((tick) => ({ at: tick.at_mm, waste: tick.waste, text: tickText(tick) })),
  ].map((label) => ({ ...label, width: [...label.text].length * LETTER * WIDEST + 1 }));
  const reserve = Math.max(TAIL, ...labels.map(({ width }) => width));
  const long = strip.length_mm * scale;
  const width = TAIL + long + reserve;
  const place = (at: number): number => TAIL + (strip.way === 'headstock' ? long - at * scale : at * scale);
  const rows = packLeaders(
    labels.map(({ at, width: wide }, i) => ({ id: String(i), x: place(at), width: wide })),
    1.5,
  );
  const height = BAND + ROW * Math.max(1, ...rows.map(({ row }) => row + 1)) + 1;
  const body = labels.flatMap(({ at, waste, text }, i) => {
    const x = place(at);
    const y = BAND + ROW * (rows[i]?.row ?? 0);
    const arrow = at === 0 ? [`<path d="M${round(x)} 0l-1.2 2.4h2.4z" fill="#000" stroke="none"/>`] : [];
    const side = waste === 'none' ? [] : wasteLines(x, waste === 'headstock' ? -1 : 1);
    return [line(x, 0, x, y + 3.4), ...arrow, ...side, words(x + 1, y + 3.2, text)];
  });
  const frame = `<path d="M0.125 0.125H${round(width - 0.125)}V${round(height - 0.125)}H0.125Z" stroke-width="0.25"/>`;
  return drawing(width, height, `Holding ${strip.holding}, from ${strip.from} toward the ${strip.way}`, [
    frame,
    ...body,
  ]);
}

const tickText = ({ station, text, rule_text }: StripTick): string =>
  `${station}  ${text}${rule_text === null ? '' : `  (${rule_text})`}`;

/** Slanting lines on the waste side of a tick. */
function wasteLines(x: number, way: 1 | -1): string[] {
  const [from, to] = way > 0 ? [x, x + 3.5] : [x - 3.5, x];
  return [0.9, 1.8, 2.7, 3.6, 4.5, 5.4, 6.3].flatMap((c) => {
    const [a, b] = [Math.max(0, c - 4), Math.min(3.5, c)];
    return a < b && from + b <= to + 1e-9 ? [line(from + a, c - a, from + b, c - b, 0.18)] : [];
  });
}

/** A strip to wrap round the shaft as an SVG drawing at true size; `scale` as for a strip along the bar. */
export function wrapSvg(wrap: SegmentWrap, scale = 1): string {
  const long = wrap.length_mm * scale;
  const height = 10 + 3.8 * Math.min(3, Math.max(1, wrap.ticks.length));
  const label = (x: number, y: number, text: string): string => {
    const over = x + [...text].length * LETTER * WIDEST > long;
    return over ? words(x - 0.8, y, text, 'end') : words(x + 0.8, y, text);
  };
  return drawing(long, height, `To wrap round ${wrap.segment}`, [
    `<path d="M0 0.125H${round(long)}M0 ${round(height - 0.125)}H${round(long)}" stroke-width="0.25"/>`,
    line(0.125, 0, 0.125, height),
    line(long - 0.125, 0, long - 0.125, height),
    label(0, 3.4, '0°'),
    ...wrap.ticks.flatMap(({ id, degrees, at_mm }, i) => [
      line(at_mm * scale, 4.2, at_mm * scale, height),
      label(at_mm * scale, 7.8 + (i % 3) * 3.8, `${id} ${degrees}°`),
    ]),
  ]);
}
