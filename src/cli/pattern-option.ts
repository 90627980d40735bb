/** The shift pattern of the command line. */

import { patternNames } from '../core/calendar/week-calendar.js';
import type { Cell } from '../core/model/cell.js';
import { nameHelp } from '../tables/nearest-name.js';
import { UsageError } from './usage-error.js';

/**
 * @returns the pattern asked for, else the first of shifts.csv; null where there is none
 * @throws UsageError for a name that the cell does not have
 */
export function patternOf(cell: Cell, asked: string | undefined): string | null {
  const names = patternNames(cell.shifts);
  if (asked === undefined) return names[0] ?? null;
  if (names.includes(asked)) return asked;
  throw new UsageError(
    names.length === 0
      ? 'There is no shifts.csv with patterns; leave `--pattern` out to run day and night.'
      : `There is no pattern \`${asked}\` in shifts.csv; it has ${names.map((n) => `\`${n}\``).join(', ')}. ${nameHelp(asked, names, 'patterns') ?? ''}`.trim(),
  );
}
