/** The part of pako that the sheet uses; the package brings no types. */
declare module 'pako' {
  type Options = { level: number; windowBits: number; memLevel: number };
  const pako: { deflate(data: Uint8Array, options: Options): Uint8Array };
  export default pako;
}
