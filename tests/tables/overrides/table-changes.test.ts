/** What differs between two cells is listed by the paths that would change the one into the other. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { applySettings } from '../../../src/tables/overrides/apply-settings.js';
import { changedRows, pasteText } from '../../../src/tables/overrides/changed-rows.js';
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

test('with semicolons a decimal comma is the number; a text with a comma is not one', () => {
  const routes = (text: string) =>
    tableChanges({ 'routes.csv': 'part,step,stations,cycle_s\ncap,1,m,2.5\n' }, { 'routes.csv': text }).map(
      ({ path, a, b }) => [path, a, b],
    );
  expect(routes('part;step;stations;cycle_s\ncap;1,0;m;2,50\n')).toEqual([]);
  expect(routes('part;step;stations;cycle_s\ncap;1;m;2,6\n')).toEqual([
    ['routes.cap.1.cycle_s', '2.5', '2,6'],
  ]);
  const robot = (a: string, b: string) =>
    tableChanges({ 'robot.csv': a }, { 'robot.csv': b }).map(({ path, a, b }) => [path, a, b]);
  expect(robot('setting,value\nspeed_m_s,1.234\n', 'setting;value\nspeed_m_s;1,234\n')).toEqual([]);
  expect(robot('setting,value\nspeed_m_s,1.5\n', 'setting;value\nspeed_m_s;\n')).toEqual([
    ['robot.speed_m_s', '1.5', ''],
  ]);
  expect(robot('setting,value\nspeed_m_s,0\n', 'setting,value\nspeed_m_s,\n')).toEqual([
    ['robot.speed_m_s', '0', ''],
  ]);
});

test('a row that only one side has is told without the word for its one column, or as there', () => {
  const robot = (rows: string) => ({ 'robot.csv': `setting,value\nhands,1\n${rows}` });
  expect(tableChanges(robot(''), robot('index_s,2\nspeed_m_s,\n')).map(({ path, b }) => [path, b])).toEqual([
    ['robot.index_s', '2'],
    ['robot.speed_m_s', 'there'],
  ]);
});

test('rows to paste are those that differ from the line of the same number, under the header', () => {
  const before = {
    'routes.csv': '\uFEFF# mine\r\npart,step\r\ncap,1\r\ncap,2\r\n',
    'robot.csv': 'setting,value\n',
  };
  const after = {
    'routes.csv': '# yours\npart,step\ncap,1\n\ncap,3\n',
    'robot.csv': 'setting,value\n\n',
    'parts.csv': '\npart,ratio\ncap,2\n',
  };
  const tables = changedRows(before, after);
  expect(tables).toEqual([
    { file: 'routes.csv', header: 'part,step', rows: ['cap,3'] },
    { file: 'parts.csv', header: 'part,ratio', rows: ['cap,2'] },
  ]);
  expect(pasteText(tables[0]!)).toBe('part,step\ncap,3\n');
});
