/** Whether a file is to be traced rather than read as a part, by what it says it is. */
export const looksLikePicture = ({ type, name }: File): boolean =>
  type.startsWith('image/') ||
  type === 'application/pdf' ||
  /\.(?:png|jpe?g|webp|pdf|svg|gif|bmp|tiff?|heic|avif)$/i.test(name);
