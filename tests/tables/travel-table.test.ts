/** Rules of travel.csv and of the ways of the robot. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { type Change, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'TRA01 a pair listed twice',
    [['travel.csv', 'mill_1,rack', 'rack,mill_1']],
    `travel.csv, line 3, column from  error TRA01
  The travel from \`rack\` to \`mill_1\` is already given on line 2.
    3 │ rack,mill_1,1.7,
      │ ~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'TRA02 a pair of one station',
    [['travel.csv', 'mill_1,rack', 'mill_1,mill_1']],
    `travel.csv, line 3, column to  error TRA02
  Found \`mill_1\` in both from and to, expected two stations.
    3 │ mill_1,mill_1,1.7,
      │        ~~~~~~
  Fix: Time at a station is load_s, unload_s or index_s.

1 error in 1 file. No results.
`,
  ],
  [
    'TRA03 pairs without a time',
    [['robot.csv', 'speed_m_s,1\naccel_m_s2,2\n', '']],
    `travel.csv  error TRA03
  No robot time is given for 14 pairs of stations: \`rack\` and \`mill_2\`; \`rack\` and \`brush\`; \`rack\` and \`gauge\`; \`rack\` and \`done\`; \`mill_1\` and \`mill_2\`; \`mill_1\` and \`brush\`; \`mill_1\` and \`gauge\`; \`mill_1\` and \`done\`; \`mill_2\` and \`brush\`; \`mill_2\` and \`gauge\`; \`mill_2\` and \`done\`; \`brush\` and \`gauge\`; \`brush\` and \`done\`; \`gauge\` and \`done\`.
  Fix: Positions are given: add \`speed_m_s\` to robot.csv, or a row to travel.csv, or \`travel_s\` to robot.csv.

1 error in 1 file. No results.
`,
  ],
  [
    'TRA03 a pair without a time and no travel table',
    [
      ['travel.csv', null],
      ['robot.csv', 'speed_m_s,1\naccel_m_s2,2\n', ''],
      ['routes.csv', null, 'part,step,stations\ncap,1,rack\ncap,2,done\n'],
      ['stations.csv', null, 'station,kind\nrack,infeed\ndone,outfeed\nmill_1,bench\n'],
      ['variation.csv', null],
      ['stops.csv', null],
      ['changeovers.csv', null],
      ['signals.csv', null],
    ],
    `robot.csv  error TRA03
  No robot time is given between \`rack\` and \`done\`.
  Fix: Add a row to travel.csv, positions with \`speed_m_s\`, or \`travel_s\` in robot.csv for all other pairs.

stations.csv, line 4, column station  warning STA04
  No route visits \`mill_1\`.
    4 │ mill_1,bench
      │ ~~~~~~
  Fix: Name it in a step of routes.csv, or take the row out.

1 error and 1 warning in 2 files. No results.
`,
  ],
  [
    'TRA04 a way round that is quicker',
    [['travel.csv', 'rack,mill_1,1.6,1.8', 'rack,mill_1,30,40']],
    `travel.csv  warning TRA04
  A detour is quicker than the direct trip: \`rack\` to \`mill_1\` takes 40 s, over \`gauge\` 3.41421 s.
  Fix: The direct times are used as given; check the longer of the times named.

1 warning in 1 file.
`,
  ],
  [
    'VAL09 an unknown station',
    [['travel.csv', 'mill_1,rack', 'mill_1,rak']],
    `travel.csv, line 3, column to  error VAL09
  Found \`rak\`, expected a station of stations.csv.
    3 │ mill_1,rak,1.7,
      │        ~~~
  Fix: Did you mean \`rack\`?

1 error in 1 file. No results.
`,
  ],
];

test('two ways from one station are no repeat', () => {
  expect(saidAbout(['travel.csv', 'mill_1,rack,1.7', 'rack,mill_2,2.4'])).toBe('');
});

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
