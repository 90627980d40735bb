/** The header of a log: which column stands where. */
import type { ComplaintList } from '../complaint-list.js';
import { readHeader } from '../read-header.js';
import { delimiterOf, TABS } from '../read-sheet.js';
import { splitRecords } from '../split-records.js';
import { logColumns } from './log-columns.js';

type Places = Readonly<Record<keyof typeof logColumns, number>>;

/** Places of the columns in a line, from 0; -1 = not there. */
export interface LogHeader extends Places {
  readonly delimiter: ',' | ';';
  readonly width: number;
}

/** @returns null where the log cannot be read with this header; complaints tell why */
export function readLogHeader(
  list: ComplaintList,
  file: string,
  line: string,
  lineNumber: number,
): LogHeader | null {
  const delimiter = delimiterOf(line);
  if (delimiter === null) {
    list.add(TABS.code, { file, line: lineNumber, column: null, order: -1, excerpt: () => null }, () => TABS);
    return null;
  }
  const lines = [...new Array<string>(lineNumber - 1).fill(''), line];
  const base = { list, file, lines, delimiter };
  const header = splitRecords(base, lineNumber - 1).rows[0];
  if (header === undefined) return null;
  const { columns, width } = readHeader({ ...base, header }, logColumns);
  if (list.hasError()) return null;
  const places = Object.keys(logColumns).map((name) => [name, columns.get(name) ?? -1] as const);
  return { delimiter, width, ...(Object.fromEntries(places) as Places) };
}
