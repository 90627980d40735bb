/** One misspelt name is one complaint: where it is wrong, with all that refers to it. */
import { expect, test } from 'vitest';
import { type Change, saidAbout, soundTables } from './sound-tables.js';

const cases: readonly (readonly [what: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL16 a station listed otherwise than it is named',
    [['stations.csv', 'mill_1,', 'mil_1,']],
    `stations.csv, line 3, column station  error VAL16
  Nothing refers to \`mil_1\`, while \`mill_1\` is not in stations.csv and is named on line 3 of routes.csv, lines 2 and 3 of travel.csv, line 2 of stops.csv, line 3 of variation.csv, line 2 of changeovers.csv, lines 2, 3 and 4 of setups.csv, line 2 of signals.csv.
    3 │ mil_1,machine,1,0,,2,3,12,20,5
      │ ~~~~~
  Fix: Write one name everywhere: \`mill_1\` here, or \`mil_1\` there.

1 error in 1 file. No results.
`,
  ],
  [
    'a name misspelt in the same way in two tables',
    [
      ['stops.csv', 'mill_1', 'mil_1'],
      ['changeovers.csv', 'mill_1', 'mil_1'],
    ],
    `stops.csv, line 2, column station  error VAL09
  Found \`mil_1\`, expected a station of stations.csv; also on line 2 of changeovers.csv.
    2 │ mil_1,tool change,50,,4,yes
      │ ~~~~~
  Fix: Did you mean \`mill_1\`?

1 error in 1 file. No results.
`,
  ],
  [
    'two names equally near',
    [['changeovers.csv', 'mill_1', 'mill_7']],
    `changeovers.csv, line 2, column station  error VAL09
  Found \`mill_7\`, expected a station of stations.csv.
    2 │ mill_7,40,30,80,1
      │ ~~~~~~
  Fix: Did you mean \`mill_1\` or \`mill_2\`?

1 error in 1 file. No results.
`,
  ],
  [
    'of two equally near the one that nothing refers to yet',
    [
      ['stations.csv', 'mill_1,', 'mill_8,machine,,,,,\nmill_1,'],
      ['changeovers.csv', 'mill_1', 'mill_7'],
    ],
    `changeovers.csv, line 2, column station  error VAL09
  Found \`mill_7\`, expected a station of stations.csv.
    2 │ mill_7,40,30,80,1
      │ ~~~~~~
  Fix: Did you mean \`mill_8\`?

stations.csv, line 3, column station  warning STA04
  No route visits \`mill_8\`.
    3 │ mill_8,machine,,,,,
      │ ~~~~~~
  Fix: Name it in a step of routes.csv, or take the row out.

1 error and 1 warning in 2 files. No results.
`,
  ],
  [
    'VAL16 a part listed otherwise than it is named',
    [['routes.csv', null, soundTables['routes.csv']!.replaceAll('cap,', 'kap,')]],
    `routes.csv, line 2, column part  error VAL16
  Nothing refers to \`kap\`, while \`cap\` is not in routes.csv and is named on line 2 of parts.csv, lines 2 and 3 of jobs.csv.
    2 │ kap,1,rack,,,4,,,
      │ ~~~
  Fix: Write one name everywhere: \`cap\` here, or \`kap\` there.

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_what, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
