/** Running text broken into lines that fit; wide characters count as two, and a figure stays with its unit. */
import stringWidth from 'string-width';

/** A blank to break at: not one between a figure and a short unit behind it. */
const BREAK = / (?!(?<=\d )(?:s|min|h|m|mm2|V|A|mA|[A-Z]{3})(?![\w-]))/u;

/**
 * @param indent written before every line but the first, which is preceded by `first`
 * @example paragraph('one two three', 8) // 'one two\nthree'
 */
export function paragraph(
  text: string,
  columns: number,
  first = '',
  indent = ' '.repeat(first.length),
): string {
  const lines: string[] = [];
  let line = first;
  let width = stringWidth(first);
  let isEmpty = true;
  for (const word of text.trim().replace(/\s+/g, ' ').split(BREAK)) {
    const more = stringWidth(word);
    if (!isEmpty && width + 1 + more > columns) {
      lines.push(line);
      line = indent;
      width = stringWidth(indent);
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    width += isEmpty ? more : more + 1;
    isEmpty = false;
  }
  lines.push(line);
  return lines.join('\n');
}

/** Items as a list with a dash each. */
export function bullets(items: readonly string[], columns: number): string {
  return items.map((item) => paragraph(item, columns, '- ')).join('\n');
}
