import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Reads PDF files back with programs that had no part in making them: poppler and qpdf. */

const FROM: Readonly<Record<string, string>> = { qpdf: 'qpdf' };

function tool(name: string, args: readonly string[]): Buffer {
  try {
    return execFileSync(name, args, { maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'pipe'] });
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT')
      throw new Error(`${name} not found: install ${FROM[name] ?? 'poppler-utils'}`, { cause: error });
    throw error;
  }
}

/** Writes the file to a folder of its own, hands its path over, and clears up. */
function withFile<T>(pdf: Uint8Array, use: (path: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'sheet-'));
  const path = join(folder, 'sheet.pdf');
  writeFileSync(path, pdf);
  try {
    return use(path, folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export const qpdfCheck = (pdf: Uint8Array): string =>
  withFile(pdf, (path) => tool('qpdf', ['--check', path]).toString());

export const fontLines = (pdf: Uint8Array): string[] =>
  withFile(pdf, (path) => tool('pdffonts', [path]).toString().trim().split('\n').slice(2));

export const info = (pdf: Uint8Array): string =>
  withFile(pdf, (path) => tool('pdfinfo', ['-l', '-1', path]).toString());

/** The text of each page. */
export const pageTexts = (pdf: Uint8Array): string[] =>
  withFile(pdf, (path) => tool('pdftotext', [path, '-']).toString().split('\f').slice(0, -1));

/** All text in the order in which the file sets it, on one line. */
export const setText = (pdf: Uint8Array): string =>
  withFile(pdf, (path) => tool('pdftotext', ['-raw', path, '-']).toString().replaceAll(/\s+/g, ' '));

export type Word = { text: string; x0: number; y0: number; x1: number; y1: number };
export type PageWords = { width: number; height: number; words: Word[] };

const unescaped = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');

/** Words with their boxes, in points from the top left corner. */
export function pageWords(pdf: Uint8Array): PageWords[] {
  const html = withFile(pdf, (path) => tool('pdftotext', ['-bbox', path, '-']).toString());
  return html
    .split('<page ')
    .slice(1)
    .map((page) => {
      const size = /width="([\d.]+)" height="([\d.]+)"/.exec(page);
      const words = [
        ...page.matchAll(
          /<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g,
        ),
      ];
      return {
        width: Number(size?.[1]),
        height: Number(size?.[2]),
        words: words.map(([, x0, y0, x1, y1, text]) => ({
          text: unescaped(text ?? ''),
          x0: Number(x0),
          y0: Number(y0),
          x1: Number(x1),
          y1: Number(y1),
        })),
      };
    });
}

/** The operators of each page, decompressed. */
export function pageOperators(pdf: Uint8Array): string[] {
  const text = withFile(pdf, (path, folder) => {
    const out = join(folder, 'qdf.pdf');
    tool('qpdf', ['--qdf', '--object-streams=disable', path, out]);
    return readFileSync(out, 'latin1');
  });
  return text
    .split(/%% Contents for page \d+/)
    .slice(1)
    .map((part) => /stream\n([\s\S]*?)\nendstream/.exec(part)?.[1] ?? '');
}

export type Segment = { x0: number; y0: number; x1: number; y1: number; width: number };

/** Straight strokes of one page, piece by piece, in points from the bottom left corner. */
export function segments(operators: string): Segment[] {
  const found: Segment[] = [];
  let width = 1;
  for (const row of operators.split('\n')) {
    const set = /([\d.]+) w\b/.exec(row);
    if (set) width = Number(set[1]);
    if (!/\b[Ss]$/.test(row.trim())) continue;
    const points = [...row.matchAll(/(-?[\d.]+) (-?[\d.]+) [ml]\b/g)].map(
      (m) => [Number(m[1]), Number(m[2])] as const,
    );
    points.forEach(([x1, y1], i) => {
      const before = points[i - 1];
      if (before) found.push({ x0: before[0], y0: before[1], x1, y1, width });
    });
  }
  return found;
}

/** A page in shades of grey, 0 black to 255 white. */
export function rendered(
  pdf: Uint8Array,
  page: number,
  dpi: number,
): { width: number; height: number; pixels: Buffer } {
  const args = ['-r', String(dpi), '-f', String(page), '-l', String(page), '-gray'];
  const pgm = withFile(pdf, (path) => tool('pdftoppm', [...args, path]));
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.subarray(0, 40).toString('latin1'));
  if (!head) throw new Error('pdftoppm gave no grey picture');
  return { width: Number(head[1]), height: Number(head[2]), pixels: pgm.subarray(head[0].length) };
}

/** A page as a printer without greys makes it: one bit a pixel, true is ink. */
export function oneBit(
  pdf: Uint8Array,
  page: number,
  dpi: number,
): { width: number; height: number; ink: (x: number, y: number) => boolean } {
  const args = ['-r', String(dpi), '-f', String(page), '-l', String(page), '-mono'];
  const pbm = withFile(pdf, (path) => tool('pdftoppm', [...args, path]));
  const head = /^P4\s+(\d+)\s+(\d+)\s/.exec(pbm.subarray(0, 40).toString('latin1'));
  if (!head) throw new Error('pdftoppm gave no picture of one bit');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const bits = pbm.subarray(head[0].length);
  const row = Math.ceil(width / 8);
  const ink = (x: number, y: number): boolean =>
    x >= 0 &&
    y >= 0 &&
    x < width &&
    y < height &&
    (((bits[y * row + (x >> 3)] ?? 0) >> (7 - (x & 7))) & 1) === 1;
  return { width, height, ink };
}

/** The tagged structure with its text, indented. */
export const structure = (pdf: Uint8Array): string =>
  withFile(pdf, (path) => tool('pdfinfo', ['-struct-text', path]).toString());
