/** Reports rows that name the same thing as an earlier row, and drops them. */
import type { Columns } from './column.js';
import type { Fault } from './complaint-list.js';
import { reportCell, type Sheet } from './sheet.js';
import type { TypedRow } from './typed-rows.js';

interface Repeat<C extends Columns> {
  readonly code: Fault['code'];
  /** Column under which the complaint stands. */
  readonly column: string;
  readonly keyOf: (row: TypedRow<C>) => readonly string[];
  /** What is repeated, in words, such as `the station \`a\``. */
  readonly wordsOf: (row: TypedRow<C>) => string;
}

/** @returns the rows that name something for the first time */
export function firstOfEach<C extends Columns>(
  sheet: Sheet,
  rows: readonly TypedRow<C>[],
  repeat: Repeat<C>,
): TypedRow<C>[] {
  const firstLine = new Map<string, number>();
  return rows.filter((row) => {
    const key = repeat.keyOf(row).join('\0');
    const line = firstLine.get(key);
    if (line === undefined) {
      firstLine.set(key, row.row.line);
      return true;
    }
    reportCell(sheet, row.row, repeat.column, repeat.code, () => ({
      text: `${repeat.wordsOf(row)} is already given on line ${line}`,
      help: 'Keep one of the two rows.',
    }));
    return false;
  });
}
