/** Rules of robot.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'ROB01 an unknown setting near a known one',
    [['robot.csv', 'speed_m_s', 'speed_ms']],
    `robot.csv, line 3, column setting  error ROB01
  Found \`speed_ms\`, expected hands, index_s, speed_m_s, accel_m_s2, travel_s, attended_speed_pct or cost_per_h.
    3 │ speed_ms,1
      │ ~~~~~~~~
  Fix: Did you mean \`speed_m_s\`?

1 error in 1 file. No results.
`,
  ],
  [
    'ROB01 an unknown setting near none',
    [['robot.csv', 'hands,1', 'colour,red']],
    `robot.csv, line 2, column setting  error ROB01
  Found \`colour\`, expected hands, index_s, speed_m_s, accel_m_s2, travel_s, attended_speed_pct or cost_per_h.
    2 │ colour,red
      │ ~~~~~~
  Fix: Known settings: hands, index_s, speed_m_s, accel_m_s2, travel_s, attended_speed_pct, cost_per_h.

1 error in 1 file. No results.
`,
  ],
  [
    'ROB02 a setting given twice',
    [['robot.csv', 'hands,1', 'speed_m_s,2']],
    `robot.csv, line 3, column setting  error ROB02
  The setting \`speed_m_s\` is already given on line 2.
    3 │ speed_m_s,1
      │ ~~~~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'ROB03 an acceleration without a speed',
    [['robot.csv', 'speed_m_s,1\n', 'travel_s,3\n']],
    `robot.csv, line 4, column setting  error ROB03
  \`accel_m_s2\` is given and \`speed_m_s\` is not.
    4 │ accel_m_s2,2
      │ ~~~~~~~~~~
  Fix: Add a row \`speed_m_s\`; an acceleration alone gives no travel time.

1 error in 1 file. No results.
`,
  ],
  [
    'ROB04 an index time with a single gripper',
    [['robot.csv', 'hands,1', 'hands,1\nindex_s,2']],
    `robot.csv, line 3, column value  warning ROB04
  Found index_s 2 with a single gripper, which does not turn; it is not used.
    3 │ index_s,2
      │         ~
  Fix: Set \`hands\` to 2 for a dual gripper, or take the row out.

1 warning in 1 file.
`,
  ],
  [
    'VAL01 a setting without a value',
    [['robot.csv', 'hands,1', 'hands,']],
    `robot.csv, line 2, column value  error VAL01
  Found nothing, expected the value of the setting.
    2 │ hands,
      │       ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a speed of 0',
    [['robot.csv', 'speed_m_s,1', 'speed_m_s,0']],
    `robot.csv, line 3, column value  error VAL03
  For speed_m_s found \`0\`, expected metres per second from 0.001 to 1000.
    3 │ speed_m_s,0
      │           ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a share of full speed above 100',
    [['robot.csv', 'hands,1', 'attended_speed_pct,120']],
    `robot.csv, line 2, column value  error VAL03
  For attended_speed_pct found \`120\`, expected per cent from 1 to 100.
    2 │ attended_speed_pct,120
      │                    ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 three hands',
    [['robot.csv', 'hands,1', 'hands,3']],
    `robot.csv, line 2, column value  error VAL05
  For hands found \`3\`, expected 1 or 2.
    2 │ hands,3
      │       ~

1 error in 1 file. No results.
`,
  ],
];

const inspect = (settings: string) =>
  inspectTables(changedTables([['robot.csv', null, `setting,value\n${settings}`]]));

test('every setting has its place, and its default', () => {
  const all =
    'hands,2\nindex_s,0.5\nspeed_m_s,1.5\naccel_m_s2,3\ntravel_s,4\nattended_speed_pct,80\ncost_per_h,6\n';
  expect(inspect(all).cell?.robot).toEqual({
    hands: 2,
    indexS: 0.5,
    speedMS: 1.5,
    accelMS2: 3,
    travelS: 4,
    attendedSpeedPct: 80,
    costPerH: 6,
  });
  expect(inspect('travel_s,4\n').cell?.robot).toEqual({
    hands: 1,
    indexS: 0,
    speedMS: null,
    accelMS2: null,
    travelS: 4,
    attendedSpeedPct: 100,
    costPerH: 0,
  });
});

test('a setting in other words and a value with a decimal comma are read, and named', () => {
  const { cell, readAs } = inspect('Travel-S,"1,5"\n');
  expect(cell?.robot.travelS).toBe(1.5);
  expect(readAs).toEqual([
    { file: 'robot.csv', line: 2, column: 'setting', found: 'Travel-S', taken: 'travel_s' },
    { file: 'robot.csv', line: 2, column: 'value', found: '1,5', taken: '1.5' },
  ]);
});

test('with semicolons a comma is a decimal one, with commas it is asked about', () => {
  const { cell, readAs } = inspectTables(
    changedTables([['robot.csv', null, 'setting;value\ntravel_s;1,250\n']]),
  );
  expect([cell?.robot.travelS, readAs]).toEqual([1.25, []]);
  expect(inspect('travel_s,"1,250"\n').complaints).toMatchObject([
    { code: 'VAL02', line: 2, column: 'value' },
  ]);
});

test('a gripper that turns is warned of with one hand alone, and only where it takes time', () => {
  const codes = (settings: string) => inspect(`travel_s,4\n${settings}`).complaints.map(({ code }) => code);
  expect(codes('index_s,2\n')).toEqual(['ROB04']);
  expect(codes('index_s,0\n')).toEqual([]);
  expect(codes('hands,2\nindex_s,2\n')).toEqual([]);
});

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
