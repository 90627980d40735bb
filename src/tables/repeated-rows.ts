/** Reports rows that name the same thing as an earlier row, and drops them. */
import type { Columns } from './column.js';
import type { Fault } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import { reportCell, type Sheet } from './sheet.js';
import type { TypedRow } from './typed-rows.js';

/**
 * @param keys columns that name a thing together; the complaint stands under the first
 * @param wordsOf what is repeated; without, such as `the station \`a\``
 * @returns the rows that name something for the first time
 */
export function firstOfEach<C extends Columns>(
  sheet: Sheet,
  rows: readonly TypedRow<C>[],
  code: Fault['code'],
  keys: readonly [keyof C & string, ...(keyof C & string)[]],
  wordsOf = ({ values }: TypedRow<C>) => `the ${keys[0]} ${inBackticks(`${values[keys[0]]}`)}`,
): TypedRow<C>[] {
  const firstLine = new Map<string, number>();
  return rows.filter((row) => {
    const key = JSON.stringify(keys.map((column) => row.values[column]));
    const line = firstLine.get(key);
    if (line === undefined) {
      firstLine.set(key, row.row.line);
      return true;
    }
    reportCell(sheet, row.row, keys[0], code, () => ({
      text: `${wordsOf(row)} is already given on line ${line}`,
      help: 'Keep one of the two rows.',
    }));
    return false;
  });
}
