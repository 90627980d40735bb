/** jobs.csv: the jobs of a week, each with its part, quantity and due day. */
import type { Job } from '../core/model/cell.js';
import { DAYS } from '../core/model/cell.js';
import { WEEK_MIN } from '../core/model/week-minutes.js';
import { minutesOfClock } from './clock-column.js';
import { type Column, neededColumn, optional } from './column.js';
import { dayNamed } from './day-named.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { tableLimits } from './limits.js';
import { nameColumn } from './name-column.js';
import { numberColumn } from './number-column.js';
import { type Reading, read, readAs, refuse } from './reading.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, reportTable, type Sheet } from './sheet.js';
import { recordOf, type TypedRow, typedRows } from './typed-rows.js';

const ALLOWED = 'a day from Mon to Sun, with or without a time, such as `Fri` or `Fri 14:00`';
const DAY_MIN = 1440;

/** A day, or a day and a time of day. @param alone what a day without a time means; a value is minutes after Monday 00:00, 0 to 10080 */
function weekTimeColumn(meaning: string, alone: 'its start' | 'its end'): Column<number> {
  return neededColumn({ unit: '', meaning, allowed: ALLOWED, read: (text) => readWeekTime(text, alone) });
}

function readWeekTime(text: string, alone: 'its start' | 'its end'): Reading<number> {
  const [word = '', time, ...more] = text.split(/\s+/);
  const named = dayNamed(word);
  if (named === null || more.length > 0) return refuse(faultOf(text));
  const day = DAYS.indexOf(named);
  const taken = <T>(value: T): Reading<T> =>
    named === word ? read(value) : readAs(value, [named, time].join(' ').trim());
  if (time === undefined) return taken((day + (alone === 'its end' ? 1 : 0)) * DAY_MIN);
  const minutes = minutesOfClock(time);
  return minutes === null ? refuse(faultOf(text)) : taken(day * DAY_MIN + minutes);
}

function faultOf(text: string) {
  const help = /^[A-Z][a-z]{2}\s+24:00$/.test(text)
    ? 'Midnight at the end of a day is the day alone.'
    : `The days are ${DAYS.join(', ')}.`;
  return { code: 'VAL15', text: `found ${inBackticks(text)}, expected ${ALLOWED}`, help } as const;
}

export const jobColumns = {
  job: nameColumn('name or number of the job'),
  part: nameColumn('part of routes.csv that it wants'),
  quantity: numberColumn('parts', 'good parts wanted', { words: 'parts', min: 1, whole: true }),
  due: optional(
    weekTimeColumn('by when all are to be made; a day alone is its end', 'its end'),
    WEEK_MIN,
    'the end of the week',
  ),
  not_before: optional(
    weekTimeColumn('when the material is there; a day alone is its start', 'its start'),
    0,
    'the start of the week',
  ),
  setup_min: optional(
    numberColumn(
      'min',
      'set-up minutes of a changeover to this part that are common to both options, on every machine',
      { words: 'minutes', min: 0 },
    ),
    null,
    'minutes_other of changeovers.csv',
  ),
} as const;

type JobRow = TypedRow<typeof jobColumns>;

export function readJobs(sheet: Sheet, routed: KnownNames<true>): Job[] {
  reportHashed(sheet);
  const rows = firstOfEach(sheet, typedRows(sheet, jobColumns), 'JOB01', ['job']);
  for (const { row, values } of rows) {
    checkReference(sheet, row, { code: 'VAL10', column: 'part', name: values.part }, routed);
    if (values.due <= values.not_before)
      reportCell(sheet, row, 'due', 'JOB02', () => ({
        text: `${inBackticks(values.job)} is due before its material is there`,
        help: 'The plan is of one week: not_before must come earlier in it than due.',
      }));
  }
  checkSetups(sheet, rows);
  if (rows.length > tableLimits.jobs)
    reportTable(sheet, {
      code: 'JOB04',
      text: `found ${rows.length} jobs, expected at most ${tableLimits.jobs}`,
      help: 'Plan one week at a time, or put jobs of one part and one due day together.',
    });
  return rows.map((row) => {
    const { due: dueMin, notBefore: notBeforeMin, ...job } = recordOf(row);
    return { ...job, dueMin, notBeforeMin };
  });
}

/** Jobs of one part share its set-up, so they cannot have unlike minutes. */
function checkSetups(sheet: Sheet, rows: readonly JobRow[]): void {
  const first = new Map<string, JobRow>();
  for (const { row, values, at } of rows) {
    const other = first.get(values.part);
    if (!other) first.set(values.part, { row, values, at });
    else if (other.values.setup_min !== values.setup_min)
      reportCell(sheet, row, sheet.columns.has('setup_min') ? 'setup_min' : null, 'JOB03', () => ({
        text: `the changeover to ${inBackticks(values.part)} takes ${minutesText(values.setup_min)} here and ${minutesText(other.values.setup_min)} on line ${other.at.line}`,
        help: 'Jobs of one part share its changeover: write the same minutes for each of them.',
      }));
  }
}

/** A job whose number begins with # is read as a comment, so a line that looks like one is asked about. */
function reportHashed(sheet: Sheet): void {
  for (const [index, text] of sheet.lines.entries()) {
    const cells = text.trim().split(sheet.delimiter);
    const looksLikeJob = /^"?#[^\s#]/.test(cells[0]!) && cells.length === sheet.header.cells.length;
    if (!looksLikeJob || index + 1 <= sheet.header.line) continue;
    const row = { line: index + 1, endLine: index + 1, cells };
    reportCell(sheet, row, 'job', 'JOB05', () => ({
      severity: 'warning',
      text: `this line begins with # and is left out as a comment, but it has as many cells as a job`,
      help: 'Write the number without the #; in a line that is meant as a comment, put a space after it.',
    }));
  }
}

function minutesText(minutes: number | null): string {
  return minutes === null ? 'the minutes of changeovers.csv' : `${minutes} minutes`;
}
