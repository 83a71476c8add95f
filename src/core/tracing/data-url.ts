const HEAD = /^data:image\/(?:png|jpeg|webp);base64,/;
const FIGURES = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const VALUES: ReadonlyMap<string, number> = new Map([...FIGURES].map((figure, value) => [figure, value]));
/** A header stands within this many bytes; in a JPEG a preview and other notes may come before it. */
const HEAD_BYTES = 400_000;

/** Whether a text is a data URL of a picture of a kind that is traced, in base64. */
export const isDataUrl = (text: string): boolean => HEAD.test(text);

/** The first bytes of a data URL, enough to read the header of the picture; up to the first character that is not base64. */
export function headOfDataUrl(url: string): Uint8Array {
  const begin = HEAD.exec(url)?.[0].length ?? 0;
  const text = url.slice(begin, begin + Math.ceil((HEAD_BYTES * 4) / 3));
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let count = 0;
  let bits = 0;
  let held = 0;
  for (const figure of text) {
    const value = VALUES.get(figure);
    if (value === undefined) break;
    held = ((held << 6) | value) & 0xffffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[count++] = (held >> bits) & 0xff;
  }
  return bytes.subarray(0, count);
}
