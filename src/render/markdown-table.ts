/** A table in Markdown; signs that would break it are made harmless. */

export function markdownTable(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map(markdownText).join(' | ')} |`;
  return [line(headings), `| ${headings.map(() => '---').join(' | ')} |`, ...rows.map(line)].join('\n');
}

/** @example markdownText('mill_1|mill_2') // 'mill\\_1\\|mill\\_2' */
export function markdownText(text: string): string {
  return text.replace(/[\\|*_`<>[\]]/g, (sign) => `\\${sign}`).replace(/[\r\n]+/g, ' ');
}
