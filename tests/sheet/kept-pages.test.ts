import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readPng, writePng, type Grey } from './grey-png.ts';
import { pageTexts, rendered } from './pdf-tools.ts';
import { samplePlan } from './sample-report.ts';
import { a4, sampleSheet } from './sheet-fixtures.ts';

/**
 * Pages as they looked when a person last looked at them. After a wanted change, and after looking:
 * KEEP_PAGES=1 npm run unit -- --project core tests/sheet/kept-pages
 */
const FOLDER = fileURLToPath(new URL('./kept/', import.meta.url));
const DPI = 50;
const BLOCK = 3;
/** Shades by which the mean of a block may differ: other versions of poppler smooth a little otherwise. */
const SHADES = 60;
const MOST_BLOCKS = 6;

/** Blocks of 3 by 3 dots whose mean shades differ. */
function differing(a: Grey, b: Grey): number {
  if (a.width !== b.width || a.height !== b.height) return Infinity;
  let count = 0;
  for (let y = 0; y + BLOCK <= a.height; y += BLOCK)
    for (let x = 0; x + BLOCK <= a.width; x += BLOCK) {
      let sum = 0;
      for (let i = 0; i < BLOCK * BLOCK; i++) {
        const at = (y + Math.floor(i / BLOCK)) * a.width + x + (i % BLOCK);
        sum += (a.pixels[at] ?? 0) - (b.pixels[at] ?? 0);
      }
      if (Math.abs(sum) / BLOCK ** 2 > SHADES) count++;
    }
  return count;
}

const fileOf = (page: number): string => `${FOLDER}two-holdings-${String(page).padStart(2, '0')}.png`;
const picture = (pdf: Uint8Array, page: number): Grey => {
  const { width, height, pixels } = rendered(pdf, page, DPI);
  return { width, height, pixels: new Uint8Array(pixels) };
};

test('every page looks as it did when it was last looked at', { timeout: 60_000 }, async () => {
  const pdf = await sampleSheet(a4);
  const count = pageTexts(pdf).length;
  if (process.env['KEEP_PAGES']) {
    mkdirSync(FOLDER, { recursive: true });
    for (let page = 1; page <= count; page++) writeFileSync(fileOf(page), writePng(picture(pdf, page)));
  }
  expect(existsSync(fileOf(count + 1)), 'pages that are no more').toBe(false);
  for (let page = 1; page <= count; page++)
    expect(
      differing(readPng(readFileSync(fileOf(page))), picture(pdf, page)),
      `page ${page}`,
    ).toBeLessThanOrEqual(MOST_BLOCKS);
});

test('a reading that went missing is seen', async () => {
  const holdings = samplePlan.holdings.map((holding) => ({
    ...holding,
    cuts: holding.cuts.map((cut) => ({ ...cut, readings: cut.readings.slice(1) })),
  }));
  const [whole, less] = [
    await sampleSheet(a4),
    await sampleSheet(a4, {}, { plan: { ...samplePlan, holdings } }),
  ];
  expect(differing(picture(whole, 3), picture(less, 3))).toBeGreaterThan(MOST_BLOCKS);
});
