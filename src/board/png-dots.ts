/** Behind the signature (8 bytes) and the header chunk (25). */
const BEHIND_HEADER = 33;

/**
 * A PNG that says how many dots it has to the metre, so that it is printed and placed at its size. Source: PNG
 * (ISO/IEC 15948) 5.3 for chunks, 11.3.5.3 for pHYs, from memory.
 */
export function withDots(png: Uint8Array, perMetre: number): Uint8Array<ArrayBuffer> {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4); // pHYs
  view.setUint32(8, Math.round(perMetre));
  view.setUint32(12, Math.round(perMetre));
  chunk[16] = 1; // dots to the metre
  view.setUint32(17, crc(chunk.subarray(4, 17)));
  const out = new Uint8Array(png.length + chunk.length);
  out.set(png.subarray(0, BEHIND_HEADER));
  out.set(chunk, BEHIND_HEADER);
  out.set(png.subarray(BEHIND_HEADER), BEHIND_HEADER + chunk.length);
  return out;
}

/** The check sum of chunks, bit by bit: CRC-32 as in PNG annex D. */
function crc(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let i = 0; i < 8; i += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
