/** variation.csv: how times scatter. */
import {
  DISTRIBUTIONS,
  ELEMENTS,
  type Element,
  type StationKind,
  type Variation,
} from '../core/model/cell.js';
import { choiceColumn } from './choice-column.js';
import { neededColumn, optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { nameColumn } from './name-column.js';
import { read } from './reading.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, type Sheet } from './sheet.js';
import { typedRows } from './typed-rows.js';
import { readParameters } from './variation-parameters.js';

const parameter = (meaning: string) =>
  optional(
    neededColumn<string>({
      unit: 'as the element',
      meaning,
      allowed: 'a number, as the distribution asks',
      read: (text) => read(text),
    }),
    '',
    'none',
  );

/** Times of cycle, load, unload and travel are in seconds; repair and response in minutes. */
export const variationColumns = {
  station: nameColumn('station, or `*` for all'),
  element: choiceColumn(ELEMENTS, 'what varies: s for cycle, load, unload, travel; min for repair, response'),
  distribution: choiceColumn(DISTRIBUTIONS, 'distribution of the times'),
  a: parameter(
    'first parameter: the mean or the value; of `triangular` and `pert` the low value; of readings all of them',
  ),
  b: parameter('second parameter; of `triangular` and `pert` the likely value'),
  c: parameter('third parameter; of `triangular` and `pert` the high value'),
} as const;

export function readVariation(sheet: Sheet, stations: KnownNames<StationKind | null>): Variation[] {
  const rows = firstOfEach(
    sheet,
    typedRows(sheet, variationColumns),
    'VAR01',
    ['element', 'station'],
    ({ values }) => `the variation of ${values.element} at ${inBackticks(values.station)}`,
  );
  return rows.map((row) => {
    const { station, element, distribution } = row.values;
    if (station !== '*')
      checkReference(sheet, row.row, { code: 'VAL09', column: 'station', name: station }, stations);
    const kind = stations?.get(station) ?? null;
    if (kind !== null && UNUSED[kind]?.includes(element))
      reportCell(sheet, row.row, 'element', 'VAR05', () => ({
        severity: 'warning',
        text: `found ${element} at ${inBackticks(station)}, which a station of kind ${kind} does not have; it is not used`,
        help: 'Take the row out, or name the station that it is meant for.',
      }));
    return { station, element, distribution, parameters: readParameters(sheet, row), at: row.at };
  });
}

/** What never happens at a station of a kind: the robot only picks at an infeed, and random stops are of machines. */
const UNUSED: Partial<Record<StationKind, readonly Element[]>> = {
  infeed: ['load', 'repair'],
  outfeed: ['unload', 'repair'],
  held: ['repair'],
};
