/** Light modules that a reader wants round a code, on each side. Source: ISO/IEC 18004, quiet zone. */
export const QUIET = 4;

/** A code as a path of unit squares, and how many it has on a side without the quiet zone. */
export type CodePath = { readonly modules: number; readonly path: string };

/**
 * A link as a two-dimensional code (ISO/IEC 18004), of the smallest size that holds it at error correction M. The
 * figures at its end are packed as figures, what stands before them as bytes.
 */
export async function codePath(link: string): Promise<CodePath> {
  const { default: qrcode } = await import('qrcode-generator');
  const code = qrcode(0, 'M');
  const [, head = '', digits = ''] = /^(.*?)(\d*)$/s.exec(link) ?? [];
  code.addData(head, 'Byte');
  if (digits !== '') code.addData(digits, 'Numeric');
  code.make();
  const modules = code.getModuleCount();
  let path = '';
  for (let row = 0; row < modules; row++)
    for (let column = 0; column < modules; column++)
      if (code.isDark(row, column)) path += `M${column + QUIET} ${row + QUIET}h1v1h-1z`;
  return { modules, path };
}
