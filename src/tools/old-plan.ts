// npm run old-plan: draws static/examples/old-plan.webp, a plan of our own made to look like an old print that was
// scanned a little askew, and the example that traces it. Wants a Chromium. The noise is seeded.
import { chromium } from 'playwright';
import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { newPart } from '../core/part/new-part.ts';
import type { Part } from '../core/part/types.ts';
import { writePart } from '../core/part/write-part.ts';
import { placed } from '../core/tracing/place.ts';
import type { Pixel, Scan } from '../core/tracing/scan.ts';
import { withTrace } from '../core/tracing/trace.ts';
import { findChromium, noChromium } from './find-chromium.mjs';
import { drawOldPlan } from './old-plan-drawing.ts';

const examples = fileURLToPath(new URL('../../static/examples/', import.meta.url));
const font = fileURLToPath(new URL('../../static/fonts/drawing.ttf', import.meta.url));

/** Faces of the spindle, inches from its left end. What lies between D and E has no size of its own on the plan. */
export const faces = { A: 0, B: 0.75, C: 1.875, D: 2.125, E: 3.75, F: 4.375 } as const;
const sheet = {
  width: 1480,
  height: 800,
  /** Pixels to the inch, where the left end lies, and how far the sheet lay askew, degrees. */
  scale: 250,
  left: 190,
  axis: 330,
  skew: 0.9,
} as const;

/** Where a place of the spindle lies in the picture. The sheet is turned about its middle, clockwise on the screen. */
export function inSheet(inches: number): Pixel {
  const [cos, sin] = [Math.cos((sheet.skew * Math.PI) / 180), Math.sin((sheet.skew * Math.PI) / 180)];
  const [x, y] = [sheet.left + inches * sheet.scale - sheet.width / 2, sheet.axis - sheet.height / 2];
  return [cos * x - sin * y + sheet.width / 2, sin * x + cos * y + sheet.height / 2];
}

async function picture(): Promise<string> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error(noChromium);
  const browser = await chromium.launch({ executablePath });
  try {
    const page = await browser.newPage();
    const letters = `data:font/ttf;base64,${(await readFile(font)).toString('base64')}`;
    return await page.evaluate(drawOldPlan, { ...sheet, letters, faces: Object.values(faces) });
  } finally {
    await browser.close();
  }
}

/** The spindle as somebody traced it who took the 5/8 at its right end for 3/8. The chains close all the same. */
function tracedSpindle(image: string): Part {
  const blank: Scan = {
    ...{ image, name: 'old-plan.webp', width: sheet.width, height: sheet.height },
    ...{ scale: 10, angle: 0, origin: [0, 0] as const, fade: 0.2, locked: true },
  };
  const known = { from: inSheet(faces.A), to: inSheet(faces.F), size: '4 3/8', within: 2 };
  let scan = placed(blank, known, faces.F * 25.4);
  if (!scan) throw new Error('the picture could not be placed');
  for (const [id, at] of Object.entries(faces)) if (id !== 'A') scan = withTrace(scan, id, at * 25.4, at, 2);
  const cylinder = (id: string, diameter: string) => ({ id, form: 'cylinder', diameter }) as const;
  return {
    ...newPart('in', 'Grindstone spindle, traced'),
    drawing: 'old plan, one size misread',
    material: 'mild-steel',
    general: {
      lengths: { rule: 'decimals', fraction: '1/64', '2': '.010', '3': '.005', '4': '.0005' },
      diameters: { rule: 'decimals', fraction: '1/64', '2': '.010', '3': '.005', '4': '.0005' },
    },
    faces: Object.entries(faces).map(([id, sketched]) => ({ id, sketched })),
    segments: [
      { ...cylinder('s1', '.500'), role: 'journal' },
      cylinder('s2', '5/8'),
      cylinder('s3', '7/8'),
      cylinder('s4', '5/8'),
      { ...cylinder('s5', '.500'), role: 'journal' },
    ],
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size: '3/4' },
      { id: 'L2', from: 'A', to: 'C', size: '1 7/8' },
      { id: 'L3', from: 'C', to: 'D', size: '1/4' },
      { id: 'L4', from: 'E', to: 'F', size: '3/8' },
      { id: 'L5', from: 'A', to: 'F', size: '4 3/8' },
    ],
    scan,
  };
}

const image = await picture();
await writeFile(`${examples}old-plan.webp`, Buffer.from(image.slice(image.indexOf(',') + 1), 'base64'));
await writeFile(`${examples}grindstone-spindle-traced.json`, writePart(tracedSpindle(image)));
