/** Values that no shop has are refused where they stand; the ends of the ranges are taken. */
import { describe, expect, test } from 'vitest';
import { changeoverColumns } from '../../src/tables/changeovers-table.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { partColumns } from '../../src/tables/parts-table.js';
import { robotSettings } from '../../src/tables/robot-table.js';
import { routeColumns } from '../../src/tables/route-columns.js';
import { stationColumns } from '../../src/tables/stations-table.js';
import { stopColumns } from '../../src/tables/stops-table.js';
import { travelColumns } from '../../src/tables/travel-table.js';
import { type Change, changedTables } from './sound-tables.js';

const style = { decimalComma: false };
const columns = [
  [stationColumns.capacity, ['1', '10000'], ['0', '10001', '1e6', '1e12']],
  [stationColumns.mtbf_h, ['0.01', '1000000'], ['0', '0.009', '1e-9', '1e7']],
  [stationColumns.mttr_min, ['0.01', '100000'], ['0', '0.001', '1e12']],
  [stationColumns.ready_s, ['0', '0.01', '1000000'], ['0.009', '1e-9', '1e12']],
  [stationColumns.x_m, ['-10000', '10000'], ['1e5']],
  [routeColumns.cycle_s, ['0', '0.01', '1000000'], ['-1', '1e-9', '1e12']],
  [routeColumns.parts_per_cycle, ['1', '10000'], ['10001']],
  [travelColumns.empty_s, ['0', '0.01'], ['1e-9']],
  [stopColumns.minutes, ['0', '0.01', '100000'], ['1e12', '1e-9']],
  [stopColumns.every_h, ['0.01'], ['1e-9', '0']],
  [stopColumns.every_parts, ['1'], ['0', '1e12']],
  [changeoverColumns.per_year, ['0', '100000'], ['1e9']],
  [changeoverColumns.minutes_other, ['100000'], ['1e12']],
  [changeoverColumns.people, ['1000'], ['1e6']],
  [partColumns.contribution, ['-1000000000'], ['1e12']],
  [partColumns.ratio, ['0.001'], ['1e-9']],
  [robotSettings.speed_m_s, ['0.001'], ['1e-9', '1e6']],
  [robotSettings.attended_speed_pct, ['1'], ['0.001']],
] as const;

test.each(columns)('%#: the ends are taken, what lies beyond is not', (column, taken, refused) => {
  for (const text of taken) expect(column.read(text, style), text).toMatchObject({ ok: true });
  for (const text of refused)
    expect(column.read(text, style), text).toMatchObject({ ok: false, fault: { code: 'VAL03' } });
});

describe('told at file, line and column', () => {
  const at = (...change: Change) =>
    inspectTables(changedTables([change])).complaints.map((c) => [c.file, c.line, c.column, c.code]);

  test.each([
    [
      ['stations.csv', '2,3,12,20,5', '2,3,12,1e-9,5'],
      ['stations.csv', 3, 'mtbf_h', 'VAL03'],
    ],
    [
      ['stops.csv', '50,,4', '50,,1e12'],
      ['stops.csv', 2, 'minutes', 'VAL03'],
    ],
    [
      ['routes.csv', '240,12', '1e-9,12'],
      ['routes.csv', 3, 'cycle_s', 'VAL03'],
    ],
    [
      ['changeovers.csv', 'mill_1,40', 'mill_1,1e9'],
      ['changeovers.csv', 2, 'per_year', 'VAL03'],
    ],
    [
      ['variation.csv', 'lognormal,240,12', 'lognormal,1e-9,12'],
      ['variation.csv', 2, 'a', 'VAR04'],
    ],
    [
      ['variation.csv', 'lognormal,240,12,', 'gamma,240,1e-9,'],
      ['variation.csv', 2, 'b', 'VAR04'],
    ],
  ] as const)('%j', (change, place) => {
    expect(at(...(change as unknown as Change))).toEqual([place]);
  });
});
