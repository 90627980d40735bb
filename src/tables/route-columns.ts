/** The columns of routes.csv. */
import { type Column, neededColumn, optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { nameColumn, readName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import { type Reading, read, refuse } from './reading.js';
import type { TypedRow } from './typed-rows.js';

/** One of the names in the cell, with where it stands in the cell's text. */
interface NamedAlternative {
  readonly name: string;
  readonly span: readonly [start: number, end: number];
}

/** The column that names one station or several alternatives with a bar between them. */
export function alternativesColumn(meaning: string): Column<readonly NamedAlternative[]> {
  const allowed = 'a station, or alternatives with a bar between them such as `mill_1|mill_2`';
  return neededColumn({ unit: '', meaning, allowed, read: readAlternatives });
}

function readAlternatives(text: string): Reading<readonly NamedAlternative[]> {
  const alternatives = new Map<string, NamedAlternative>();
  for (const { name, span } of namesBetweenBars(text)) {
    if (name === '') {
      const found = `found an empty place beside a bar in ${inBackticks(text)}, expected a station`;
      return refuse({ code: 'ROU14', text: found, help: 'Leave out the bar that is too many.' });
    }
    const reading = readName(name, { '*': 'means all stations' });
    if (!reading.ok) return refuse({ ...reading.fault, span });
    if (alternatives.has(name)) {
      const found = `${inBackticks(name)} is named twice in one step`;
      return refuse({ code: 'ROU06', text: found, help: 'Name each alternative once.', span });
    }
    alternatives.set(name, { name, span });
  }
  return read([...alternatives.values()]);
}

function namesBetweenBars(text: string): NamedAlternative[] {
  let at = 0;
  return text.split('|').map((part) => {
    const start = at + (part.length - part.trimStart().length);
    at += part.length + 1;
    return { name: part.trim(), span: [start, start + part.trim().length] };
  });
}

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
