/** The rows by which changed tables differ from those before, in the tables' own form, ready to paste. */
import type { Tables } from '../inspect-tables.js';

export interface PasteTable {
  readonly file: string;
  /** As it stands in the table. */
  readonly header: string;
  readonly rows: readonly string[];
}

/** @param after the same tables with cells changed and rows added; rows that stay keep their lines */
export function changedRows(before: Tables, after: Tables): PasteTable[] {
  return Object.entries(after).flatMap(([file, text]) => {
    const old = before[file];
    if (old === text) return [];
    const lines = (t: string): string[] => t.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
    const [is, was] = [lines(text), lines(old ?? '')];
    const header = is.findIndex((line) => line.trim() !== '' && !line.startsWith('#'));
    const rows = is.filter((line, i) => i > header && line !== '' && line !== was[i]);
    return rows.length === 0 ? [] : [{ file, header: is[header]!, rows }];
  });
}

export function pasteText({ header, rows }: PasteTable): string {
  return `${[header, ...rows].join('\n')}\n`;
}
