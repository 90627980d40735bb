/** Running text broken into lines that fit. */

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
  let isEmpty = true;
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    if (!isEmpty && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = indent;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  lines.push(line);
  return lines.join('\n');
}

/** Items as a list with a dash each. */
export function bullets(items: readonly string[], columns: number): string {
  return items.map((item) => paragraph(item, columns, '- ')).join('\n');
}
