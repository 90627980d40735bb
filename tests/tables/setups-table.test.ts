/** Rules of setups.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { type Change, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'SUP01 a set-up listed twice',
    [['setups.csv', 'mill_1,lid,ring,30\n', 'mill_1,lid,ring,30\nmill_1,cap,lid,20\n']],
    `setups.csv, line 4, column station  error SUP01
  The changeover of \`mill_1\` from \`cap\` to \`lid\` is already given on line 2.
    4 │ mill_1,cap,lid,20
      │ ~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'SUP02 from a job to itself',
    [['setups.csv', 'mill_1,lid,ring,30\n', 'mill_1,lid,ring,30\nmill_1,lid,lid,5\n']],
    `setups.csv, line 4, column to  error SUP02
  Found \`lid\` in both from and to, expected two jobs.
    4 │ mill_1,lid,lid,5
      │            ~~~
  Fix: A job that follows itself needs no changeover: take the row out.

1 error in 1 file. No results.
`,
  ],
  [
    'SUP03 a pair without minutes, at the machine that lacks it',
    [['setups.csv', 'mill_1,ring,cap,10\n', 'mill_2,cap,lid,12\n']],
    `setups.csv  error SUP03
  No minutes are given at \`mill_1\` for \`cap\` to \`ring\`.
  Fix: Give each pair of jobs of a machine one row at least; the other direction takes the same minutes unless it has a row of its own.

1 error in 1 file. No results.
`,
  ],
  [
    'SUP03 many pairs without minutes',
    [
      [
        'setups.csv',
        null,
        'station,from,to,minutes\nmill_1,a,b,1\nmill_1,b,c,1\nmill_1,c,d,1\nmill_1,d,e,1\nmill_1,e,f,1\n',
      ],
    ],
    `setups.csv  error SUP03
  No minutes are given at \`mill_1\` for \`a\` to \`c\`, \`a\` to \`d\`, \`a\` to \`e\`, \`a\` to \`f\`, \`b\` to \`d\` and 5 more.
  Fix: Give each pair of jobs of a machine one row at least; the other direction takes the same minutes unless it has a row of its own.

1 error in 1 file. No results.
`,
  ],
  [
    'SUP04 more jobs than the limit',
    [
      [
        'setups.csv',
        null,
        `station,from,to,minutes\n${Array.from({ length: 200 }, (_, k) => `mill_1,a,job ${k},1\n`).join('')}`,
      ],
    ],
    `setups.csv  error SUP04
  Found 201 jobs at \`mill_1\`, expected at most 200.
  Fix: Take out jobs that are rarely run, or put jobs with alike changeovers under one name.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL09 an unknown station',
    [['setups.csv', 'mill_1,lid', 'mil_1,lid']],
    `setups.csv, line 3, column station  error VAL09
  Found \`mil_1\`, expected a station of stations.csv.
    3 │ mil_1,lid,ring,30
      │ ~~~~~
  Fix: Did you mean \`mill_1\`?

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
