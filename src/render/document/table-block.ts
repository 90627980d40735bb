/** A table made for the terminal as a block of a document: headings on one line, a caption over it. */
import type { TableData } from '../text-table.js';
import { left, right, type TableBlock, type TableLook, tableOf } from './blocks.js';

/**
 * A column without a heading gets one: the first names what its row is, the last says what comes of it.
 * @param look `prose` for long texts in cells, `wide` for many columns
 */
export function tableBlock(caption: string, { columns, rows }: TableData, look: TableLook = {}): TableBlock {
  const headed = columns.map(({ heading, align }, k) => {
    const text = headingInOneLine(heading) || (k === 0 ? 'figure' : 'verdict');
    return align === 'right' ? right(text) : left(text);
  });
  return tableOf(caption, headed, rows, look);
}

/** @example oneLine('un-\nmanned hours\na week') // 'unmanned hours a week' */
export function headingInOneLine(heading: string): string {
  return heading.replace(/-\n(?=\p{Ll})/gu, '').replaceAll('\n', ' ');
}
