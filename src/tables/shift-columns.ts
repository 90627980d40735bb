/** The columns of shifts.csv. */
import { yesNoColumn } from './choice-column.js';
import { breaksColumn, clockColumn } from './clock-column.js';
import { optional } from './column.js';
import { daysColumn } from './days-column.js';
import { nameColumn } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import type { TypedRow } from './typed-rows.js';

export const shiftColumns = {
  pattern: nameColumn('name of the pattern that the shift belongs to'),
  shift: nameColumn('name of the shift'),
  days: daysColumn('days on which the shift starts'),
  start: clockColumn('start of the shift'),
  end: clockColumn('end of the shift; at or before the start it is on the next day'),
  breaks: optional(breaksColumn('breaks inside the shift'), [], 'none'),
  attended: optional(yesNoColumn('whether an operator is there'), true),
  operators: optional(
    numberColumn('people', 'operators at the cell', quantities.people),
    null,
    '1 in an attended shift, 0 in an unattended one',
  ),
  labour_per_h: optional(
    numberColumn('money/h', 'cost of one operator for one hour', quantities.moneyPerHour),
    0,
  ),
  breaks_stop: optional(
    yesNoColumn('whether the cell stops in the breaks, as where a person loads it'),
    false,
    'no: the robot goes on',
  ),
} as const;

export type ShiftRow = TypedRow<typeof shiftColumns>;
