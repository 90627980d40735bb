/** The columns of routes.csv. */
import { alternativesColumn } from './alternatives-column.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { nameColumn } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import type { TypedRow } from './typed-rows.js';

const { seconds, partsHeld } = quantities;

export const routeColumns = {
  part: nameColumn('part name', { total: 'means all parts in the results' }),
  step: numberColumn('', 'order of the step, rising within the part', { words: 'a number' }),
  stations: alternativesColumn('one station, or alternatives with a bar between: `mill_1|mill_2`'),
  cycle_s: optional(numberColumn('s', 'processing at this step', seconds), 0),
  load_s: optional(
    numberColumn('s', 'robot time to place here (not at an infeed)', {
      ...seconds,
      help: 'Robot time is never below 0; where the robot does not place the part, load_s is 0.',
    }),
    0,
  ),
  unload_s: optional(
    numberColumn('s', 'robot time to pick here (not at an outfeed)', {
      ...seconds,
      help: 'A machine that ejects the part itself has unload_s 0.',
    }),
    0,
  ),
  max_wait_s: optional(
    numberColumn('s', 'longest wait after the process has finished', {
      ...seconds,
      help: 'Leave the cell empty where the part may wait without limit.',
    }),
    null,
    'unlimited',
  ),
  parts_per_cycle: optional(numberColumn('parts', 'parts loaded before the machine starts', partsHeld), 1),
  every: optional(numberColumn('parts', 'one part in this many makes this step', partsHeld), 1),
} as const;

export type RouteRow = TypedRow<typeof routeColumns>;

/** For messages: the station, or the alternatives, of a step. */
export function stationsOf(row: RouteRow): string {
  return inBackticks(row.values.stations.map((s) => s.name).join('|'));
}
