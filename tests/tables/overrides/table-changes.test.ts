/** What differs between two cells is listed by the paths that would change the one into the other. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { applySettings } from '../../../src/tables/overrides/apply-settings.js';
import { plainLayer } from '../../../src/tables/overrides/layered-tables.js';
import { tableChanges } from '../../../src/tables/overrides/table-changes.js';
import { changedTables, soundTables } from '../sound-tables.js';

const SETTINGS = {
  'stations.mill_1.ready_s': ['2', '7'],
  'routes.cap.2.cycle_s': ['240', '200'],
  'robot.hands': ['1', '2'],
  'travel.rack.mill_1.loaded_s': ['1.8', '2.5'],
  'parts.cap.yield_pct': ['98', ''],
  'shifts.two.early.end': ['14:00', '13:30'],
  'stops.mill_1.tool change.minutes': ['4', '5'],
  'costs.box_price.high': ['1100', '1200'],
} as const;

test('settings come back as changes, whichever are made', () => {
  fc.assert(
    fc.property(fc.subarray(Object.keys(SETTINGS) as (keyof typeof SETTINGS)[]), (paths) => {
      const { tables } = applySettings(
        plainLayer(soundTables),
        paths.map((path) => `${path}=${SETTINGS[path][1]}`),
      );
      const changes = tableChanges(soundTables, tables).map(({ path, a, b }) => [path, a, b]);
      expect(changes.sort()).toEqual(paths.map((path) => [path, ...SETTINGS[path]]).sort());
      expect(tableChanges(tables, tables)).toEqual([]);
    }),
  );
});

test('the same said in another way is no change', () => {
  const other = changedTables([
    ['routes.csv', '240,12', '240.0,12.00'],
    ['stations.csv', 'mill_2,machine,2,0,,2,3', 'mill_2,machine,2,0,1,2,3'],
    ['robot.csv', null, 'value;setting\n2;accel_m_s2\n1,0;speed_m_s\n1;hands\n'],
    ['stops.csv', ',yes', ','],
  ]);
  // A capacity of 1 is what the rules give an empty cell, but not its default in the table.
  expect(tableChanges(soundTables, other).map((c) => c.path)).toEqual(['stations.mill_2.capacity']);
});

test('rows that only one side has are told with what they hold', () => {
  const more = changedTables([['travel.csv', 'mill_1,rack', 'rack,done,3,\nmill_1,rack']]);
  expect(tableChanges(soundTables, more)).toEqual([
    { table: 'travel.csv', path: 'travel.rack.done', a: null, b: 'empty_s 3' },
  ]);
  const { 'parts.csv': _, ...less } = soundTables;
  expect(tableChanges(soundTables, less)).toEqual([
    { table: 'parts.csv', path: 'parts.cap', a: 'contribution 4.2, per_shift 100, yield_pct 98', b: null },
  ]);
});
