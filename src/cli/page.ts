const WIDTH = 96;

/** `text` in lines of at most 96 characters: the first behind `lead`, the rest below its text. */
export function wrapped(lead: string, text: string): string[] {
  const indent = ' '.repeat(lead.length);
  const lines: string[] = [];
  let line = lead;
  for (const word of text.split(' ')) {
    const full = line.length + 1 + word.length > WIDTH && line.trim() !== '' && line.length > lead.length;
    if (full) {
      lines.push(line);
      line = indent;
    }
    line += line.length > lead.length ? ` ${word}` : word;
  }
  return [...lines, line];
}

/** A heading, then its lines; nothing where there are none. Sections stand apart by an empty line. */
export function section(heading: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', heading, ...lines];
}

/** The lines as one text. Control characters of a file (escape codes above all) never reach the terminal. */
export function paged(lines: readonly string[]): string {
  return lines.map((line) => `${line.replace(/[\p{Cc}\u2028\u2029]/gu, ' ').trimEnd()}\n`).join('');
}
