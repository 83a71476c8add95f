import { describe, expect, test } from 'vitest';
import { oneBit, pageOperators, pageWords, rendered, segments, type Segment } from './pdf-tools.ts';
import { a4, exampleSheet, letter, sampleSheet } from './sheet-fixtures.ts';

const DPI = 200;
const PX = DPI / 72;
/** Dots by which a thin line may be drawn aside: poppler moves strokes on to whole dots. */
const NEAR = [-2, -1, 0, 1, 2];

type Clip = { x0: number; y0: number; x1: number; y1: number };

/** Strokes of a page, each cut to the upright box that it is clipped by; strokes under other clips are left out. */
function strokes(operators: string): Segment[] {
  const parts = operators.split(/^q (.*) W n$/m);
  return parts.flatMap((part, i) => {
    if (i === 0) return segments(part);
    if (i % 2 === 1) return [];
    const box = boxOf(parts[i - 1] ?? '');
    const [inside = '', ...after] = part.split(/^Q$/m);
    const clipped = box ? segments(inside).flatMap((s) => cutTo(s, box)) : [];
    return [...clipped, ...segments(after.join('\n'))];
  });
}

function boxOf(path: string): Clip | null {
  const points = [...path.matchAll(/(-?[\d.]+) (-?[\d.]+) [ml]/g)].map(
    ([, x, y]) => [Number(x), Number(y)] as const,
  );
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const upright = points.length === 4 && new Set(xs).size === 2 && new Set(ys).size === 2;
  return upright
    ? { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) }
    : null;
}

/** Liang and Barsky's clipping of a line to a box. */
function cutTo(s: Segment, box: Clip): Segment[] {
  let [from, to] = [0, 1];
  const [dx, dy] = [s.x1 - s.x0, s.y1 - s.y0];
  for (const [p, q] of [
    [-dx, s.x0 - box.x0],
    [dx, box.x1 - s.x0],
    [-dy, s.y0 - box.y0],
    [dy, box.y1 - s.y0],
  ] as const) {
    if (p === 0 && q < 0) return [];
    if (p < 0) from = Math.max(from, q / p);
    if (p > 0) to = Math.min(to, q / p);
  }
  if (to <= from) return [];
  const at = (t: number): [number, number] => [s.x0 + dx * t, s.y0 + dy * t];
  const [[x0, y0], [x1, y1]] = [at(from), at(to)];
  return [{ ...s, x0, y0, x1, y1 }];
}

const sheets: [string, () => Promise<Uint8Array>][] = [
  ['two holdings, A4', () => sampleSheet(a4)],
  ['blower shaft, letter', () => exampleSheet('blower-shaft', letter)],
  ['idler axle, A4', () => exampleSheet('idler-axle-open', a4)],
  ['winch spindle, letter', () => exampleSheet('winch-spindle-clash', letter)],
];

describe.each(sheets)('%s at 200 dots an inch and one bit a dot', (_name, make) => {
  const made = make();

  test('every line and every hatch line is there', { timeout: 120_000 }, async () => {
    const pdf = await made;
    pageOperators(pdf).forEach((operators, page) => {
      const { height, ink } = oneBit(pdf, page + 1, DPI);
      const near = (x: number, y: number): boolean =>
        NEAR.some((i) => NEAR.some((k) => ink(Math.round(x) + i, Math.round(y) + k)));
      for (const { x0, y0, x1, y1 } of strokes(operators)) {
        const long = Math.hypot(x1 - x0, y1 - y0) * PX;
        // A shorter stroke may wholly lie where a text was cleared.
        if (long < 6) continue;
        const count = Math.ceil(long);
        let there = 0;
        for (let i = 0; i <= count; i++)
          if (near((x0 + ((x1 - x0) * i) / count) * PX, height - (y0 + ((y1 - y0) * i) / count) * PX))
            there++;
        // Dashes leave gaps of up to a third; words written over a line leave one too.
        expect(there / (count + 1), `page ${page + 1}: ${x0} ${y0} to ${x1} ${y1}`).toBeGreaterThan(0.5);
      }
    });
  });

  test('every digit keeps its ink', { timeout: 120_000 }, async () => {
    const pdf = await made;
    pageWords(pdf).forEach(({ words }, i) => {
      const { ink } = oneBit(pdf, i + 1, DPI);
      const grey = rendered(pdf, i + 1, DPI);
      for (const { text, x0, x1, y0, y1 } of words.filter((word) => /\d/.test(word.text))) {
        let [bits, shades] = [0, 0];
        for (let y = Math.floor(y0 * PX); y < y1 * PX; y++)
          for (let x = Math.floor(x0 * PX); x < x1 * PX; x++) {
            if (ink(x, y)) bits++;
            shades += (255 - (grey.pixels[y * grey.width + x] ?? 255)) / 255;
          }
        const kept = bits / shades;
        expect(kept, `page ${i + 1}: ${text}`).toBeGreaterThan(0.6);
        expect(kept, `page ${i + 1}: ${text}`).toBeLessThan(1.6);
      }
    });
  });
});
