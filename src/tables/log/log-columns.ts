/** The columns of a log of signals. */
import { LOG_SIGNALS } from '../../core/model/log-signals.js';
import { choiceColumn } from '../choice-column.js';
import { neededColumn, optional } from '../column.js';
import { nameColumn, stationName } from '../name-column.js';
import { read } from '../reading.js';

export const TIME_ALLOWED =
  'seconds, or a date and time such as `2026-10-19T06:00:00.250+02:00`; one form throughout the log';

export const logColumns = {
  time: neededColumn<string>({
    unit: '',
    meaning: 'when it happened',
    allowed: TIME_ALLOWED,
    read: (text) => read(text),
  }),
  station: stationName('where it happened'),
  signal: choiceColumn(LOG_SIGNALS, 'what happened'),
  value: optional(choiceColumn(['1', '0'], '1 for a rise, 0 for a drop'), null, 'it happened'),
  part: optional(nameColumn('part that it happened to'), null, 'not said'),
} as const;
