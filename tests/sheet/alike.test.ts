import { describe, expect, test } from 'vitest';
import { pageTexts, rendered } from './pdf-tools.ts';
import { drawn } from './pdfjs.ts';
import { samplePlan } from './sample-report.ts';
import { a4, exampleSheet, letter, sampleSheet } from './sheet-fixtures.ts';

/** Dots an inch, and the side of the blocks whose mean shades are compared: the two smooth the edges of letters otherwise. */
const DPI = 50;
const BLOCK = 8;
/** Of 255. The two differ by up to 36 here; a reading that one of them leaves out makes a block differ by more. */
const SHADES = 48;

type Grey = { width: number; height: number; pixels: Uint8Array };

/** The block whose mean shade differs most, of those that both pictures have. */
function mostApart(a: Grey, b: Grey): number {
  const mean = ({ width, pixels }: Grey, x: number, y: number): number => {
    let sum = 0;
    for (let i = 0; i < BLOCK * BLOCK; i++)
      sum += pixels[(y + Math.floor(i / BLOCK)) * width + x + (i % BLOCK)] ?? 255;
    return sum / BLOCK ** 2;
  };
  let most = 0;
  for (let y = 0; y + BLOCK <= Math.min(a.height, b.height); y += BLOCK)
    for (let x = 0; x + BLOCK <= Math.min(a.width, b.width); x += BLOCK)
      most = Math.max(most, Math.abs(mean(a, x, y) - mean(b, x, y)));
  return most;
}

async function apart(one: Uint8Array, other = one): Promise<number[]> {
  const pages = pageTexts(one).map((_, i) => i + 1);
  const byPdfJs = await drawn(one, pages, DPI);
  return byPdfJs.map((page, i) => {
    const { width, height, pixels } = rendered(other, i + 1, DPI);
    expect(Math.abs(page.width - width), 'width').toBeLessThanOrEqual(1);
    expect(Math.abs(page.height - height), 'height').toBeLessThanOrEqual(1);
    return mostApart(page, { width, height, pixels: new Uint8Array(pixels) });
  });
}

describe('poppler and pdf.js draw every page alike', () => {
  test.each([
    ['two holdings, A4', () => sampleSheet(a4)],
    ['blower shaft, letter', () => exampleSheet('blower-shaft', letter)],
    ['idler axle, A4', () => exampleSheet('idler-axle-open', a4)],
    ['winch spindle, letter', () => exampleSheet('winch-spindle-clash', letter)],
    ['a title in two scripts', () => sampleSheet(a4, { title: 'मोटर अक्ष 軸' }, { plan: null })],
  ])('%s', { timeout: 60_000 }, async (_name, make) => {
    const differences = await apart(await make());
    for (const [i, most] of differences.entries()) expect(most, `page ${i + 1}`).toBeLessThan(SHADES);
  });

  test('a reading that one of them leaves out is seen', async () => {
    const holdings = samplePlan.holdings.map((holding) => ({
      ...holding,
      cuts: holding.cuts.map((cut) => ({ ...cut, readings: cut.readings.slice(1) })),
    }));
    const pages = { ...a4, pages: ['holdings' as const] };
    const less = await sampleSheet(pages, {}, { plan: { ...samplePlan, holdings } });
    expect(Math.max(...(await apart(await sampleSheet(pages), less)))).toBeGreaterThan(SHADES);
  });
});
