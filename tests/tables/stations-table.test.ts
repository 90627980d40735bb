/** Rules of stations.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { type Change, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'STA01 a station listed twice',
    [
      ['stations.csv', 'gauge,bench', 'mill_1,machine'],
      ['routes.csv', '4,gauge', '4,mill_2'],
    ],
    `stations.csv, line 5, column station  error STA01
  The station \`mill_1\` is already given on line 3.
    5 │ mill_1,machine,1,1,,,,,,
      │ ~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'STA02 x without y',
    [
      ['stations.csv', 'gauge,bench,1,1', 'gauge,bench,1,'],
      ['robot.csv', 'hands,1', 'travel_s,3'],
    ],
    `stations.csv, line 5, column y_m  error STA02
  \`x_m\` is given and \`y_m\` is not.
    5 │ gauge,bench,1,,,,,,,
      │               ~
  Fix: A position needs both; leave both empty where there is none.

1 error in 1 file. No results.
`,
  ],
  [
    'STA03 a time between stops without a time to clear one',
    [['stations.csv', '20,5', '20,']],
    `stations.csv, line 3, column mttr_min  error STA03
  \`mtbf_h\` is given and \`mttr_min\` is not.
    3 │ mill_1,machine,1,0,,2,3,12,20,
      │                               ~
  Fix: Random stops need both; leave both empty for none.

1 error in 1 file. No results.
`,
  ],
  [
    'STA03 a time to clear one without a time between stops',
    [['stations.csv', '20,5', ',5']],
    `stations.csv, line 3, column mtbf_h  error STA03
  \`mttr_min\` is given and \`mtbf_h\` is not.
    3 │ mill_1,machine,1,0,,2,3,12,,5
      │                            ~
  Fix: Random stops need both; leave both empty for none.

1 error in 1 file. No results.
`,
  ],
  [
    'STA04 a station that no route visits',
    [['stations.csv', 'done,outfeed,3,0,,,,,,', 'done,outfeed,3,0,,,,,,\nspare,bench,,,,,,,,']],
    `stations.csv, line 8, column station  warning STA04
  No route visits \`spare\`.
    8 │ spare,bench,,,,,,,,
      │ ~~~~~
  Fix: Name it in a step of routes.csv, or take the row out.

1 warning in 1 file.
`,
  ],
  [
    'STA06 random stops of an infeed and an outfeed',
    [
      ['stations.csv', 'rack,infeed,0,0,,,,,,', 'rack,infeed,0,0,40,2,3,5,8,4'],
      ['stations.csv', 'done,outfeed,3,0,,,,,,', 'done,outfeed,3,0,,,,,9,5'],
    ],
    `stations.csv, line 2, column mtbf_h  warning STA06
  Found mtbf_h 8 at \`rack\`, which a station of kind infeed does not have; it is not used.
    2 │ rack,infeed,0,0,40,2,3,5,8,4
      │                          ~
  Fix: Leave mtbf_h and mttr_min empty; time to fill or to clear it is a planned stop of stops.csv.

stations.csv, line 7, column mtbf_h  warning STA06
  Found mtbf_h 9 at \`done\`, which a station of kind outfeed does not have; it is not used.
    7 │ done,outfeed,3,0,,,,,9,5
      │                      ~
  Fix: Leave mtbf_h and mttr_min empty; time to fill or to clear it is a planned stop of stops.csv.

2 warnings in 1 file.
`,
  ],
  [
    'STA06 room, door and random stops of a held station',
    [['stations.csv', 'brush,held,2,1,,,,,,', 'brush,held,2,1,2,4,5,6,7,8']],
    `stations.csv, line 6, column capacity  warning STA06
  Found capacity 2 at \`brush\`, which a station of kind held does not have; it is not used.
    6 │ brush,held,2,1,2,4,5,6,7,8
      │                ~
  Fix: Leave the cell empty: the robot holds the part there for the time of the step in routes.csv.

stations.csv, line 6, column ready_s  warning STA06
  Found ready_s 4 at \`brush\`, which a station of kind held does not have; it is not used.
    6 │ brush,held,2,1,2,4,5,6,7,8
      │                  ~
  Fix: Leave the cell empty: the robot holds the part there for the time of the step in routes.csv.

stations.csv, line 6, column close_s  warning STA06
  Found close_s 5 at \`brush\`, which a station of kind held does not have; it is not used.
    6 │ brush,held,2,1,2,4,5,6,7,8
      │                    ~
  Fix: Leave the cell empty: the robot holds the part there for the time of the step in routes.csv.

stations.csv, line 6, column mtbf_h  warning STA06
  Found mtbf_h 7 at \`brush\`, which a station of kind held does not have; it is not used.
    6 │ brush,held,2,1,2,4,5,6,7,8
      │                        ~
  Fix: Leave the cell empty: the robot holds the part there for the time of the step in routes.csv.

4 warnings in 1 file.
`,
  ],
  ['one part in the hand at a held station', [['stations.csv', 'brush,held,2,1,', 'brush,held,2,1,1']], ''],
  [
    'VAL03 a capacity of 0',
    [['stations.csv', 'mill_1,machine,1,0,', 'mill_1,machine,1,0,0']],
    `stations.csv, line 3, column capacity  error VAL03
  Found \`0\`, expected a whole number of parts from 1 to 10000.
    3 │ mill_1,machine,1,0,0,2,3,12,20,5
      │                    ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL04 a capacity of one and a half',
    [['stations.csv', 'mill_1,machine,1,0,', 'mill_1,machine,1,0,1.5']],
    `stations.csv, line 3, column capacity  error VAL04
  Found \`1.5\`, expected a whole number of parts from 1 to 10000.
    3 │ mill_1,machine,1,0,1.5,2,3,12,20,5
      │                    ~~~

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
