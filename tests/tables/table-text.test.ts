/** Faults of the text of a table, whatever its columns. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'TAB01 a needed table is missing',
    [['routes.csv', null]],
    `routes.csv  error TAB01
  The table is needed and is not there.
  Fix: Add it to the folder; \`roundsman init\` writes a filled-in example.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB01 a needed table is spelt with a capital',
    [
      ['robot.csv', null],
      ['Robot.csv', null, 'setting,value\n'],
    ],
    `Robot.csv  warning TAB02
  \`Robot.csv\` is not a table of a cell and is not read.
  Fix: Did you mean \`robot.csv\`?

robot.csv  error TAB01
  The table is needed and is not there.
  Fix: Rename \`Robot.csv\`.

1 error and 1 warning in 2 files. No results.
`,
  ],
  [
    'TAB02 a file that is not a known table',
    [
      ['base.csv', null, 'a,b\n1,2\n'],
      ['station.csv', null, ''],
    ],
    `base.csv  warning TAB02
  \`base.csv\` is not a table of a cell and is not read.
  Fix: Known tables: stations.csv, routes.csv, robot.csv, travel.csv, parts.csv, shifts.csv, stops.csv, variation.csv, changeovers.csv, setups.csv and 3 more.

station.csv  warning TAB02
  \`station.csv\` is not a table of a cell and is not read.
  Fix: Did you mean \`stations.csv\`?

2 warnings in 2 files.
`,
  ],
  [
    'TAB04 NUL characters',
    [['parts.csv', null, 'part\0,ratio\0']],
    `parts.csv  error TAB04
  The file is not a text table: it holds NUL characters.
  Fix: Save the sheet as CSV in UTF-8; a workbook or \`Unicode text\` cannot be read.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB05 bytes that are not UTF-8',
    [['parts.csv', 'cap,4.2', 'cap\ufffd,4.2']],
    `parts.csv, line 2  error TAB05
  Found a character that is not UTF-8.
    2 │ cap�,4.2,100,,98
      │    ~
  Fix: Save the table as CSV in UTF-8; older spreadsheets save in the code page of the country.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB06 an empty table',
    [['travel.csv', null, '']],
    `travel.csv  error TAB06
  The table is empty, expected a header row.
  Fix: Begin with \`from,to,empty_s,loaded_s\`.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB06 comments and blank lines only',
    [['stations.csv', null, '# nothing yet\n\n,,,\n']],
    `stations.csv  error TAB06
  The table is empty, expected a header row.
  Fix: Begin with \`station,kind,x_m,y_m,capacity,ready_s,close_s,cost_per_h,mtbf_h,mttr_min\`.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB07 a header only, in a needed table',
    [['routes.csv', null, 'part,step,stations\n']],
    `routes.csv  error TAB07
  The table has a header and no rows.
  Fix: Add at least one row.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB07 a header only, in another table',
    [['stops.csv', null, 'station,name,minutes\n']],
    `stops.csv  warning TAB07
  The table has a header and no rows.
  Fix: Add rows, or take the file out of the folder.

1 warning in 1 file.
`,
  ],
  [
    'TAB08 tabs between the columns',
    [['parts.csv', null, 'part	ratio\ncap	1\n']],
    `parts.csv  error TAB08
  The columns are separated by tabs, expected commas or semicolons.
  Fix: Save the table as CSV, not as tab-separated text.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB09 a quotation mark that is not closed',
    [['parts.csv', 'cap,4.2', '"cap,4.2']],
    `parts.csv, line 2  error TAB09
  A quotation mark opens here and is not closed before the next column.
    2 │ "cap,4.2,100,,98
      │ ~
  Fix: Set the whole value in quotation marks and double each mark inside it, or use none.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB09 text after a closing quotation mark',
    [['parts.csv', 'cap,4.2', '"cap"s,4.2']],
    `parts.csv, line 2  error TAB09
  Found \`s\` after a closing quotation mark.
    2 │ "cap"s,4.2,100,,98
      │      ~
  Fix: Set the whole value in quotation marks and double each mark inside it, or use none.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB09 leaves the rows around it to be checked',
    [
      ['shifts.csv', 'two,early', '"two,early'],
      ['shifts.csv', '22:00', '22.00'],
    ],
    `shifts.csv, line 2  error TAB09
  A quotation mark opens here and is not closed before the next column.
    2 │ "two,early,Mon-Fri,06:00,14:00,09:00-09:20;11:30-12:00,yes,1,38
      │ ~
  Fix: Set the whole value in quotation marks and double each mark inside it, or use none.

shifts.csv, line 3, column start  error VAL11
  Found \`22.00\`, expected a time of day from 00:00 to 23:59, such as \`06:30\`.
    3 │ two,night,Mon-Fri,22.00,06:00,01:00-01:30,no,0,0
      │                   ~~~~~

2 errors in 1 file. No results.
`,
  ],
  [
    'TAB10 an unknown column near a known one',
    [['parts.csv', 'yield_pct', 'yeild_pct']],
    `parts.csv, line 1, column yeild_pct  error TAB10
  Found the unknown column \`yeild_pct\`, expected part, contribution, per_shift, per_week, ratio, yield_pct, unattended.
    1 │ part,contribution,per_shift,ratio,yeild_pct
      │                                   ~~~~~~~~~
  Fix: Did you mean \`yield_pct\`?

1 error in 1 file. No results.
`,
  ],
  [
    'TAB10 an unknown column near none',
    [['parts.csv', 'part,contribution', 'part,colour']],
    `parts.csv, line 1, column colour  error TAB10
  Found the unknown column \`colour\`, expected part, contribution, per_shift, per_week, ratio, yield_pct, unattended.
    1 │ part,colour,per_shift,ratio,yield_pct
      │      ~~~~~~
  Fix: Take the column out.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB10 a misspelt needed column is one cause',
    [['travel.csv', 'empty_s', 'emtpy_s']],
    `travel.csv, line 1, column emtpy_s  error TAB10
  Found the unknown column \`emtpy_s\`, expected from, to, empty_s, loaded_s.
    1 │ from,to,emtpy_s,loaded_s
      │         ~~~~~~~
  Fix: Did you mean \`empty_s\`?

1 error in 1 file. No results.
`,
  ],
  [
    'TAB10 a column without a name between others',
    [
      ['stops.csv', 'name,every_parts', 'name,,every_parts'],
      ['stops.csv', 'change,50', 'change,,50'],
    ],
    `stops.csv, line 1  error TAB10
  Found a column without a name, expected station, name, every_parts, every_h, minutes, operator, early_parts.
    1 │ station,name,,every_parts,every_h,minutes,operator
      │              ~
  Fix: Take the column out.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB11 a needed column is missing',
    [['changeovers.csv', null, 'station,people\nmill_1,1\n']],
    `changeovers.csv, line 1, column per_year  error TAB11
  The needed column \`per_year\` is missing.
    1 │ station,people
      │ ~~~~~~~~~~~~~~
  Fix: Add it; it holds changeovers from 0 to 100000.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB12 a column named twice',
    [['changeovers.csv', null, 'station,per_year,per_year\nmill_1,40,41\n']],
    `changeovers.csv, line 1, column per_year  error TAB12
  The column \`per_year\` is named twice.
    1 │ station,per_year,per_year
      │                  ~~~~~~~~
  Fix: Keep one of the two.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB13 a value under no column',
    [['changeovers.csv', '40,30,80,1', '40,30,80,1,7']],
    `changeovers.csv, line 2  error TAB13
  Found \`7\` as value 6 of a row of 5 columns.
    2 │ mill_1,40,30,80,1,7
      │                   ~
  Fix: If a number was written with a decimal comma, write a decimal point; set text with commas in quotation marks.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB13 a decimal comma in a table with commas',
    [['changeovers.csv', '40,30,80,1', '40,30,80,1,5']],
    `changeovers.csv, line 2  error TAB13
  Found \`5\` as value 6 of a row of 5 columns.
    2 │ mill_1,40,30,80,1,5
      │                   ~
  Fix: If a number was written with a decimal comma, write a decimal point; set text with commas in quotation marks.

1 error in 1 file. No results.
`,
  ],
  [
    'TAB13 a decimal comma that pushes empty cells past the end',
    [['routes.csv', '240,12,10', '240,5,12,10']],
    `routes.csv, line 3  error TAB13
  Found 10 values in a row of 9 columns, the last of them empty.
    3 │ cap,2,mill_1|mill_2,240,5,12,10,,,
      │                                   ~
  Fix: If a number was written with a decimal comma, write a decimal point; set text with commas in quotation marks.

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

test('twenty unknown columns are named, those after them counted', () => {
  const names = Array.from({ length: 22 }, (_, i) => `unknown ${i + 1}`);
  const told = (count: number) => {
    const header = ['part', ...names.slice(0, count)].join(',');
    const { complaints } = inspectTables(changedTables([['parts.csv', null, `${header}\ncap\n`]]));
    return complaints.map(({ code, line, column, text, excerpt }) => [
      ...[code, line, column, text, header.slice(excerpt?.start, excerpt?.end)],
    ]);
  };
  const expected = 'expected part, contribution, per_shift, per_week, ratio, yield_pct, unattended';
  const named = names.map((name) => [
    'TAB10',
    1,
    name,
    `found the unknown column \`${name}\`, ${expected}`,
    name,
  ]);
  expect(told(20)).toEqual(named.slice(0, 20));
  expect(told(22)).toEqual([
    ...named.slice(0, 20),
    ['TAB10', 1, null, `found 2 more unknown columns, ${expected}`, 'unknown 21'],
  ]);
});

test('rows without a value and comments that a spreadsheet set in quotation marks are passed over', () => {
  const text = '"",Cell 3,;\npart,ratio\n"",""\n"# note","5"\n"",\ncap,2\n';
  const { cell, complaints, readAs } = inspectTables(changedTables([['parts.csv', null, text]]));
  expect(complaints).toEqual([]);
  expect(cell!.parts).toMatchObject([{ part: 'cap', ratio: 2, at: { line: 6 } }]);
  expect(readAs.map(({ found }) => found)).toEqual(['Cell 3']);
});

test.each<[string, readonly (readonly [line: number, found: string, marked: number, help: RegExp])[]]>([
  // Both rows are as long as each other, so both are told of.
  [
    'part,ratio\ncap,2,5\nlid,3,5\n',
    [
      [2, '`5` as value 3 of a row of 2', 6, /decimal comma/],
      [3, '`5` as value 3 of a row of 2', 6, /decimal comma/],
    ],
  ],
  ['part,ratio\ncap,2,,7\n', [[2, '`7` as value 4 of a row of 2', 7, /delimiter too many/]]],
  ['part;ratio\ncap;2;7,5\n', [[2, '`7,5` as value 3 of a row of 2', 6, /delimiter too many/]]],
  ['part,ratio\ncap,2,,\n', []],
  ['part,ratio\ncap,2,,\nlid,3\n', []],
  [
    'part,ratio,yield_pct\ncap,2,98\nlid,2,5,,\n',
    [[3, '5 values in a row of 3 columns, the last of them empty', 8, /decimal comma/]],
  ],
  ['part;ratio\ncap;2,5;;\nlid;3\n', []],
])('values beyond the header: %j', (text, expected) => {
  const { complaints } = inspectTables(changedTables([['parts.csv', null, text]]));
  const told = complaints.filter(({ code }) => code === 'TAB13');
  expect(told.map(({ line, text, excerpt }) => [line, text, excerpt?.start])).toEqual(
    expected.map(([line, found, marked]) => [
      line,
      `found ${found}${found.endsWith('of 2') ? ' columns' : ''}`,
      marked,
    ]),
  );
  for (const [k, [, , , help]] of expected.entries()) expect(told[k]!.help).toMatch(help);
});

test('columns that are missing come after those of the header', () => {
  const { complaints } = inspectTables(
    changedTables([['parts.csv', null, 'contribution,colour,ratio,ratio\n']]),
  );
  expect(complaints.map(({ code, column }) => [code, column])).toEqual([
    ['TAB10', 'colour'],
    ['TAB12', 'ratio'],
    ['TAB11', 'part'],
  ]);
});
