import { crc32, deflateSync, inflateSync } from 'node:zlib';

/** A picture in shades of grey, 0 black to 255 white, row by row. */
export type Grey = { readonly width: number; readonly height: number; readonly pixels: Uint8Array };

const SIGNATURE = Buffer.from('89504e470d0a1a0a', 'hex');

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** A PNG file with unfiltered rows (W3C Portable Network Graphics, 11.2 and 12.7): what `readPng` can read back. */
export function writePng({ width, height, pixels }: Grey): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y++) rows.set(pixels.subarray(y * width, (y + 1) * width), y * (width + 1) + 1);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** Reads what `writePng` wrote; other PNG files are refused. */
export function readPng(file: Buffer): Grey {
  const [width, height, size] = [file.readUInt32BE(16), file.readUInt32BE(20), file.readUInt32BE(33)];
  if (file.subarray(37, 41).toString('latin1') !== 'IDAT')
    throw new Error('not a picture that was kept by us');
  const rows = inflateSync(file.subarray(41, 41 + size));
  const pixels = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    if (rows[y * (width + 1)] !== 0) throw new Error('a row with a filter');
    pixels.set(rows.subarray(y * (width + 1) + 1, (y + 1) * (width + 1)), y * width);
  }
  return { width, height, pixels };
}
