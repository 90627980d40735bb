/** Rules of parts.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL10 a part without a route',
    [['parts.csv', 'cap,', 'cop,']],
    `parts.csv, line 2, column part  error VAL10
  Found \`cop\`, expected a part of routes.csv.
    2 │ cop,4.2,100,,98
      │ ~~~
  Fix: Did you mean \`cap\`?

1 error in 1 file. No results.
`,
  ],
  [
    'PAR01 a part listed twice',
    [['parts.csv', 'cap,4.2,100,,98', 'cap,4.2,100,,98\ncap,5,,,']],
    `parts.csv, line 3, column part  error PAR01
  The part \`cap\` is already given on line 2.
    3 │ cap,5,,,
      │ ~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'PAR03 a demand per shift and one per week',
    [
      ['parts.csv', 'per_shift,ratio', 'per_shift,per_week,ratio'],
      ['parts.csv', 'cap,4.2,100,,98', 'cap,4.2,100,500,,98'],
    ],
    `parts.csv, line 2, column per_week  error PAR03
  \`cap\` has a demand per shift and one per week.
    2 │ cap,4.2,100,500,,98
      │             ~~~
  Fix: Give one of the two, and leave the other empty.

1 error in 1 file. No results.
`,
  ],
  [
    'PAR02 a ratio for some parts only',
    [
      ['routes.csv', 'cap,5,done,,4,,,,\n', 'cap,5,done,,4,,,,\npin,1,rack,,,,,,\npin,2,done,,,,,,\n'],
      ['parts.csv', 'cap,4.2,100,,98', 'cap,4.2,100,2,98\npin,,,,'],
    ],
    `parts.csv, line 3, column ratio  error PAR02
  \`pin\` has no ratio, but \`cap\` has one.
    3 │ pin,,,,
      │       ~
  Fix: Give every part a ratio, or none.

1 error in 1 file. No results.
`,
  ],
  [
    'PAR02 a ratio, and a part that the table does not list',
    [
      ['routes.csv', 'cap,5,done,,4,,,,\n', 'cap,5,done,,4,,,,\npin,1,rack,,,,,,\npin,2,done,,,,,,\n'],
      ['parts.csv', 'cap,4.2,100,,98', 'cap,4.2,100,2,98'],
    ],
    `parts.csv, column ratio  error PAR02
  \`pin\` has no ratio, but \`cap\` has one.
  Fix: Give every part a ratio, or none.

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

const inspect = (text: string) => inspectTables(changedTables([['parts.csv', null, text]]));

test('a part has what is given, and the defaults of what is not', () => {
  const header = 'part,contribution,per_shift,per_week,ratio,yield_pct,unattended\n';
  const at = expect.anything();
  const plain = { part: 'cap', contribution: null, perShift: null, ratio: null, yieldPct: 100, at };
  const part = (cells: string) => {
    const { cell, complaints } = inspect(`${header}cap,${cells}\n`);
    expect(complaints).toEqual([]);
    return cell?.parts[0];
  };
  expect(part(',,,,,')).toEqual(plain);
  expect(part('4.2,,250,2,98,no')).toEqual({
    ...plain,
    contribution: 4.2,
    perWeek: 250,
    ratio: 2,
    yieldPct: 98,
    unattended: false,
  });
  expect(part(',100,,,,yes')).toEqual({ ...plain, perShift: 100 });
});

test('nothing is said of ratios where a row could not be read', () => {
  const codes = (cap: string) =>
    inspect(`part,contribution,ratio\ncap,${cap}\nlid,3,2\n`).complaints.map(({ code }) => code);
  expect(codes('1,')).toEqual(['PAR02', 'VAL10']);
  expect(codes('x,')).toEqual(['VAL02', 'VAL10']);
});
