/** The file of stopwatch readings: no table of a cell, but read by the same rules and with the same complaints. */
import type { Complaint } from '../core/model/complaint.js';
import type { StopwatchReading } from '../core/readings/reading.js';
import { yesNoColumn } from './choice-column.js';
import { optional } from './column.js';
import { complaintList } from './complaint-list.js';
import { tableLimits } from './limits.js';
import { nameColumn, textColumn } from './name-column.js';
import { numberColumn } from './number-column.js';
import { readSheet } from './read-sheet.js';
import { reportTable, type Sheet } from './sheet.js';
import { recordOf, typedRows } from './typed-rows.js';

export const readingColumns = {
  element: nameColumn('what was timed, such as `mill_1 cycle` or `travel rack mill_1`'),
  seconds: numberColumn('s', 'time read', {
    words: 'seconds',
    min: 0.001,
    max: 1e6,
    help: 'A watch that was not started gives no reading; leave the row out.',
  }),
  cell: optional(nameColumn('cell in which it was timed'), '', 'not given'),
  observer: optional(nameColumn('who held the watch'), '', 'not given'),
  note: optional(textColumn('what was seen'), '', 'none'),
  rating_pct: optional(
    numberColumn('%', 'work pace, 100 is normal; robots and machines have 100', {
      words: 'per cent',
      min: 1,
      max: 300,
    }),
    100,
  ),
  foreign: optional(
    yesNoColumn('whether it is something that does not belong to the work, such as a dropped part'),
    false,
  ),
} as const;

export interface ReadingsRead {
  /** In the order of the file; null where there is an error. */
  readonly readings: readonly StopwatchReading[] | null;
  readonly complaints: readonly Complaint[];
}

/**
 * @param file its name, for the complaints
 * @param text its text
 */
export function readReadings(file: string, text: string): ReadingsRead {
  const list = complaintList();
  const sheet = readSheet(list, file, text, readingColumns, 'rows');
  const rows = sheet === null ? [] : typedRows(sheet, readingColumns);
  const readings: StopwatchReading[] = rows.map(recordOf);
  if (sheet !== null) checkElements(sheet, readings);
  return { readings: list.hasError() ? null : readings, complaints: list.sorted() };
}

/** A name for each reading is most likely a slip of columns. */
function checkElements(sheet: Sheet, readings: readonly StopwatchReading[]): void {
  const count = new Set(readings.map((r) => r.element)).size;
  if (count <= tableLimits.timedElements) return;
  reportTable(sheet, {
    code: 'REA01',
    text: `the file times ${count} unlike elements, at most ${tableLimits.timedElements} are read`,
    help: 'Give all readings of one element the same name; what differs goes into the column note.',
  });
}
