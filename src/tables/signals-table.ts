/** signals.csv: the input and output points of each machine. */
import type { Signal } from '../core/model/cell.js';
import { choiceColumn, yesNoColumn } from './choice-column.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { nameColumn, stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { firstOfEach } from './repeated-rows.js';
import type { Sheet } from './sheet.js';
import { recordOf, typedRows } from './typed-rows.js';

export const signalColumns = {
  station: stationName('machine that the signal belongs to'),
  signal: nameColumn('name of the signal'),
  direction: choiceColumn(['in', 'out'], 'seen from the robot'),
  kind: optional(
    choiceColumn<'digital' | 'analog'>(['digital', 'analog'], 'kind of point'),
    'digital' as const,
    'digital',
  ),
  volts: optional(
    numberColumn('V', 'voltage of the signal', { words: 'volts', min: 0, aboveMin: true }),
    null,
  ),
  milliamps: optional(numberColumn('mA', 'current of the signal', { words: 'milliamperes', min: 0 }), null),
  normally: optional(choiceColumn<'open' | 'closed'>(['open', 'closed'], 'state at rest'), null),
  cable_m: optional(
    numberColumn('m', 'length of the cable, not there and back', { words: 'metres', min: 0 }),
    null,
  ),
  cable_mm2: optional(
    numberColumn('mm2', 'copper cross-section of the cable', {
      words: 'square millimetres',
      min: 0,
      aboveMin: true,
    }),
    null,
  ),
  safety: optional(yesNoColumn('whether it is part of a safety function'), false),
} as const;

export function readSignals(sheet: Sheet, stations: KnownNames<unknown>): Signal[] {
  const rows = firstOfEach(
    sheet,
    typedRows(sheet, signalColumns),
    'SIG01',
    ['signal', 'station'],
    ({ values }) => `the signal ${inBackticks(values.signal)} of ${inBackticks(values.station)}`,
  );
  for (const { row, values } of rows)
    checkReference(sheet, row, { code: 'VAL09', column: 'station', name: values.station }, stations);
  return rows.map(recordOf);
}
