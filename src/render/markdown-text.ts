/** Text of others within Markdown: signs that would break a table or a line are made harmless. */

/** @example markdownText('mill_1|mill_2') // 'mill\\_1\\|mill\\_2' */
export function markdownText(text: string): string {
  return text.replace(/[\\|*_`<>[\]]/g, (sign) => `\\${sign}`).replace(/[\r\n]+/g, ' ');
}
