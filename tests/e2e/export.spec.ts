import { expect, test } from '@playwright/test';
import { downloadOf } from './app.ts';

async function extentOf(svg: string): Promise<{ width: number; height: number; box: number[] }> {
  const [, width = '', height = '', box = ''] =
    /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(svg) ?? [];
  return { width: Number(width), height: Number(height), box: box.split(' ').map(Number) };
}

test('the drawing alone is saved as an SVG at true size, with texts that can be searched', async ({
  page,
}) => {
  await page.goto('/');
  const { name, bytes } = await downloadOf(page, () =>
    page.getByRole('button', { name: 'Save the drawing as SVG' }).click(),
  );
  expect(name).toBe('forge-blower-shaft.svg');
  const svg = bytes.toString();
  const { width, height, box } = await extentOf(svg);
  // A pixel of the page is 1/96 in: width over box is the same on both axes, so a millimetre is a millimetre.
  expect(width / (box[2] ?? 0)).toBeCloseTo(25.4 / 96, 4);
  expect(height / (box[3] ?? 0)).toBeCloseTo(25.4 / 96, 4);

  // As another reader has it: the browser lays the file out by itself.
  await page.goto('about:blank');
  await page.setContent(svg);
  const seen = await page.evaluate(() => {
    const root = document.querySelector('svg');
    const texts = [...document.querySelectorAll('text')].map((text) => text.textContent ?? '');
    const widths = new Set(
      [...document.querySelectorAll('path[stroke]')].map((p) => p.getAttribute('stroke-width')),
    );
    const wide = [...document.querySelectorAll<SVGPathElement>('path[stroke-width="1.89"]')][0]?.getBBox();
    const outline = { width: wide?.width ?? 0, height: wide?.height ?? 0 };
    return {
      outline,
      width: root?.getBoundingClientRect().width ?? 0,
      texts,
      widths: [...widths].map(Number).sort(),
    };
  });
  expect(seen.width).toBeCloseTo((width * 96) / 25.4, 0);
  expect(seen.texts).toContain('Ø7/16');
  expect(seen.texts).toContain('Ø.4995 .4985');
  // The plan has the whole of it in brackets as 4.609, and the flywheel's land as .6870 +.0000/-.0010.
  expect(seen.outline.width / 96).toBeCloseTo(4.609, 3);
  expect(seen.outline.height / 96).toBeCloseTo(0.6865, 4);
  expect(svg).not.toMatch(/<(?:image|script|foreignObject)/);
  // ISO 128: wide lines are twice the narrow ones.
  const [narrow = 0, wide = 0] = seen.widths;
  expect(wide / narrow).toBeCloseTo(2, 2);
});

test('and as a PNG of 300 dots to the inch that says so', async ({ page }) => {
  await page.goto('/');
  const svg = await downloadOf(page, () =>
    page.getByRole('button', { name: 'Save the drawing as SVG' }).click(),
  );
  const { name, bytes } = await downloadOf(page, () =>
    page.getByRole('button', { name: 'Save the drawing as PNG' }).click(),
  );
  expect(name).toBe('forge-blower-shaft.png');
  const { width, height } = await extentOf(svg.bytes.toString());
  // PNG (ISO/IEC 15948): width and height at 16 and 20, and a pHYs chunk of 11811 dots to the metre.
  expect(Math.abs(bytes.readUInt32BE(16) - (width / 25.4) * 300)).toBeLessThanOrEqual(1);
  expect(Math.abs(bytes.readUInt32BE(20) - (height / 25.4) * 300)).toBeLessThanOrEqual(1);
  const at = bytes.indexOf('pHYs');
  expect([bytes.readUInt32BE(at + 4), bytes.readUInt32BE(at + 8), bytes[at + 12]]).toEqual([11811, 11811, 1]);
  // A browser refuses a chunk whose check sum is wrong.
  const loads = await page.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    return image.naturalWidth;
  }, bytes.toString('base64'));
  expect(loads).toBe(bytes.readUInt32BE(16));
});
