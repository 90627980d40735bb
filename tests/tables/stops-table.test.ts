/** Rules of stops.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { type Change, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'STO01 neither parts nor hours',
    [['stops.csv', '50,,4', ',,4']],
    `stops.csv, line 2, column every_parts  error STO01
  \`tool change\` has neither every_parts nor every_h, expected one of them.
    2 │ mill_1,tool change,,,4,yes
      │                    ~
  Fix: Write how often the stop comes due in parts or in hours; for both causes give two rows with names of their own.

1 error in 1 file. No results.
`,
  ],
  [
    'STO02 both parts and hours',
    [['stops.csv', '50,,4', '50,8,4']],
    `stops.csv, line 2, column every_h  error STO02
  \`tool change\` has both every_parts and every_h, expected one of them.
    2 │ mill_1,tool change,50,8,4,yes
      │                       ~
  Fix: Write how often the stop comes due in parts or in hours; for both causes give two rows with names of their own.

1 error in 1 file. No results.
`,
  ],
  [
    'STO03 a stop listed twice',
    [
      [
        'stops.csv',
        'mill_1,tool change,50,,4,yes',
        'mill_1,tool change,50,,4,yes\nmill_1,tool change,,8,2,no',
      ],
    ],
    `stops.csv, line 3, column name  error STO03
  The stop \`tool change\` of \`mill_1\` is already given on line 2.
    3 │ mill_1,tool change,,8,2,no
      │        ~~~~~~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'STO04 done early by as many parts as lie between two stops',
    [
      ['stops.csv', 'operator', 'operator,early_parts'],
      ['stops.csv', '50,,4,yes', '50,,4,yes,50'],
    ],
    `stops.csv, line 2, column early_parts  error STO04
  \`tool change\` has early_parts 50, which is not below every_parts, 50.
    2 │ mill_1,tool change,50,,4,yes,50
      │                              ~~
  Fix: Give early_parts only with every_parts and operator yes, and fewer parts than lie between two stops.

1 error in 1 file. No results.
`,
  ],
  [
    'STO04 done early though nobody is needed for it',
    [
      ['stops.csv', 'operator', 'operator,early_parts'],
      ['stops.csv', '50,,4,yes', '50,,4,no,20'],
    ],
    `stops.csv, line 2, column early_parts  error STO04
  \`tool change\` has early_parts 20, but operator no.
    2 │ mill_1,tool change,50,,4,no,20
      │                             ~~
  Fix: Give early_parts only with every_parts and operator yes, and fewer parts than lie between two stops.

1 error in 1 file. No results.
`,
  ],
  [
    'STO05 a stop at a held station',
    [['stops.csv', 'mill_1,tool', 'brush,tool']],
    `stops.csv, line 2, column station  error STO05
  \`brush\` is a held station, where no planned stop such as \`tool change\` is reckoned with.
    2 │ brush,tool change,50,,4,yes
      │ ~~~~~
  Fix: Give the stop to a machine that is stopped meanwhile, or add its share to cycle_s of the held step.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL09 an unknown station',
    [['stops.csv', 'mill_1,tool', 'mil_1,tool']],
    `stops.csv, line 2, column station  error VAL09
  Found \`mil_1\`, expected a station of stations.csv.
    2 │ mil_1,tool change,50,,4,yes
      │ ~~~~~
  Fix: Did you mean \`mill_1\`?

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
