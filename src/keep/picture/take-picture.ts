import { isPdf, readImageHeader } from '../../core/tracing/image-header.ts';
import { MOST_PIXELS, MOST_SIDE } from '../../core/tracing/scan.ts';

/** A picture as it is kept: made anew from its pixels, so that nothing but those comes along. */
export type TakenPicture = {
  readonly name: string;
  readonly url: string;
  readonly width: number;
  readonly height: number;
};

/** Largest file that is opened as a picture or a PDF. */
const LARGEST = 60_000_000;
/** A part file is at most 5 MB with its picture in it, so the picture is at most this many characters. */
const LONGEST_URL = 2_600_000;
/** Pixels that a picture is brought down to: an A3 sheet at 150 dpi has 4.3 million. */
const KEPT_PIXELS = 6_000_000;
const KEPT_SIDE = 4096;
/** The header stands within the first of these bytes; in a JPEG a preview may come before it. */
const HEAD = 400_000;

/** What a file is by its first bytes. Rejects with a sentence where it can be neither traced nor paged through. */
export async function kindOf(file: File): Promise<'picture' | 'pdf'> {
  if (file.size > LARGEST) {
    throw new Error(
      `${file.name}: ${Math.round(file.size / 1e6)} MB is too large to trace; scan it coarser.`,
    );
  }
  const head = new Uint8Array(await file.slice(0, HEAD).arrayBuffer());
  if (isPdf(head)) return 'pdf';
  const header = readImageHeader(head);
  if (!header.ok) throw new Error(`${file.name} cannot be traced: ${header.why}.`);
  const { width, height } = header;
  if (width * height > MOST_PIXELS || Math.max(width, height) > MOST_SIDE) {
    const size = `${width} by ${height} pixels are more than are opened here (${MOST_PIXELS / 1e6} million)`;
    throw new Error(`${file.name} cannot be traced: ${size}. Scan it coarser; 150 to 200 dpi are plenty.`);
  }
  return 'picture';
}

/** Decodes a picture whose header was looked at, upright as its camera meant it, and makes it fit to be kept. */
export async function takePicture(file: File): Promise<TakenPicture> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error(`${file.name} cannot be traced: the picture is damaged and does not decode.`);
  }
  try {
    return await keepable(bitmap, file.name);
  } finally {
    bitmap.close();
  }
}

/** Brings pixels down to what is kept, and encodes them so that they fit into a part file. */
export async function keepable(source: ImageBitmap | HTMLCanvasElement, name: string): Promise<TakenPicture> {
  const { width, height } = source;
  let shrink = Math.min(1, KEPT_SIDE / Math.max(width, height), Math.sqrt(KEPT_PIXELS / (width * height)));
  for (let quality = 0.85; ; quality -= 0.15) {
    const canvas = drawn(source, shrink);
    const url = encoded(canvas, quality);
    if (url.length <= LONGEST_URL) return { name, url, width: canvas.width, height: canvas.height };
    if (quality < 0.5) shrink *= 0.7;
  }
}

function drawn(source: ImageBitmap | HTMLCanvasElement, shrink: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(source.width * shrink));
  canvas.height = Math.max(1, Math.round(source.height * shrink));
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('This browser has no room left to draw the picture.');
  // What is clear in a PNG is paper.
  pen.fillStyle = 'white';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(source, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/** WebP where the browser writes it, else JPEG. */
function encoded(canvas: HTMLCanvasElement, quality: number): string {
  const webp = canvas.toDataURL('image/webp', Math.max(quality, 0.3));
  return webp.startsWith('data:image/webp') ? webp : canvas.toDataURL('image/jpeg', Math.max(quality, 0.3));
}

/** A picture that is kept, as it is drawn; null where it does not decode. */
export async function bitmapOf(url: string): Promise<ImageBitmap | null> {
  const [head = '', data = ''] = url.split(',', 2);
  try {
    const bytes = Uint8Array.from(atob(data), (figure) => figure.charCodeAt(0));
    return await createImageBitmap(new Blob([bytes], { type: /^data:([^;]+)/.exec(head)?.[1] ?? '' }));
  } catch {
    return null;
  }
}
