/** Faults of single values: numbers, names, words. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { type Change, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL01 a needed value is empty',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,,4']],
    `travel.csv, line 2, column empty_s  error VAL01
  Found nothing, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,,4
      │             ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL01 a dash counts as empty',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,-,4']],
    `travel.csv, line 2, column empty_s  error VAL01
  Found nothing, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,-,4
      │             ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 not a number',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,three,4']],
    `travel.csv, line 2, column empty_s  error VAL02
  Found \`three\`, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,three,4
      │             ~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a hexadecimal number',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,0x10,4']],
    `travel.csv, line 2, column empty_s  error VAL02
  Found \`0x10\`, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,0x10,4
      │             ~~~~
  Fix: Write the number in decimal digits.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 infinity',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,Infinity,4']],
    `travel.csv, line 2, column empty_s  error VAL02
  Found \`Infinity\`, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,Infinity,4
      │             ~~~~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a unit in the cell',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,12 s,4']],
    `travel.csv, line 2, column empty_s  error VAL02
  Found \`12 s\`, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,12 s,4
      │             ~~~~
  Fix: Write the number alone, \`12\`, without a unit.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a currency in the cell',
    [['parts.csv', 'cap,4.2', 'cap,€4.20']],
    `parts.csv, line 2, column contribution  error VAL02
  Found \`€4.20\`, expected money from -1000000000 to 1000000000.
    2 │ cap,€4.20,100,,98
      │     ~~~~~
  Fix: Write the amount alone, \`4.20\`; the currency is named once, in costs.csv.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a per cent sign in a cell of seconds',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,3%,4']],
    `travel.csv, line 2, column empty_s  error VAL02
  Found \`3%\`, expected seconds, 0 or from 0.01 to 1000000.
    2 │ rack,mill_1,3%,4
      │             ~~
  Fix: Write the number alone, \`3\`, without a unit.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a comma that may be decimal or part thousands',
    [['parts.csv', 'cap,4.2,100', 'cap,4.2,"1,500"']],
    `parts.csv, line 2, column per_shift  error VAL02
  Found \`1,500\`, expected parts from 0 to 10000000.
    2 │ cap,4.2,"1,500",,98
      │          ~~~~~
  Fix: Write \`1.500\` if the comma is a decimal one, \`1500\` if it parts the thousands.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 thousands separators',
    [['parts.csv', 'cap,4.2,100', 'cap,4.2,"1,250,500.5"']],
    `parts.csv, line 2, column per_shift  error VAL02
  Found \`1,250,500.5\`, expected parts from 0 to 10000000.
    2 │ cap,4.2,"1,250,500.5",,98
      │          ~~~~~~~~~~~
  Fix: Leave out the thousands separators: \`1250500.5\`.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 thousands parted by spaces',
    [['parts.csv', 'cap,4.2,100', 'cap,4.2,1 250']],
    `parts.csv, line 2, column per_shift  error VAL02
  Found \`1 250\`, expected parts from 0 to 10000000.
    2 │ cap,4.2,1 250,,98
      │         ~~~~~
  Fix: Leave out the thousands separators: \`1250\`.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 thousands and a decimal comma, semicolons between the columns',
    [['parts.csv', null, 'part;contribution\ncap;1.234,5\n']],
    `parts.csv, line 2, column contribution  error VAL02
  Found \`1.234,5\`, expected money from -1000000000 to 1000000000.
    2 │ cap;1.234,5
      │     ~~~~~~~
  Fix: Leave out the thousands separators: \`1234.5\`.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a typographic minus',
    [
      ['stations.csv', 'x_m,y_m', 'x_m,y_m'],
      ['stations.csv', 'mill_1,machine,1,0', 'mill_1,machine,\u22121,0'],
    ],
    `stations.csv, line 3, column x_m  error VAL02
  Found \`−1\`, expected metres from -10000 to 10000.
    3 │ mill_1,machine,−1,0,,2,3,12,20,5
      │                ~~
  Fix: Write the minus sign as a plain \`-\`.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a number below its range',
    [['routes.csv', '240,12,10', '240,12,-4']],
    `routes.csv, line 3, column unload_s  error VAL03
  Found \`-4\`, expected seconds, 0 or from 0.01 to 1000000.
    3 │ cap,2,mill_1|mill_2,240,12,-4,,,
      │                            ~~
  Fix: A machine that ejects the part itself has unload_s 0.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a wait below 0',
    [['routes.csv', '4,4,60', '4,4,-60']],
    `routes.csv, line 5, column max_wait_s  error VAL03
  Found \`-60\`, expected seconds, 0 or from 0.01 to 1000000.
    5 │ cap,4,gauge,20,4,4,-60,,5
      │                    ~~~
  Fix: Leave the cell empty where the part may wait without limit.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a share above 100',
    [['parts.csv', ',98', ',101']],
    `parts.csv, line 2, column yield_pct  error VAL03
  Found \`101\`, expected per cent from 0 to 100.
    2 │ cap,4.2,100,,101
      │              ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a share below 0',
    [['changeovers.csv', ',80,', ',-1,']],
    `changeovers.csv, line 2, column internal_pct  error VAL03
  Found \`-1\`, expected per cent from 0 to 100.
    2 │ mill_1,40,30,-1,1
      │              ~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a value that must be above 0',
    [['parts.csv', '100,,98', '100,0,98']],
    `parts.csv, line 2, column ratio  error VAL03
  Found \`0\`, expected parts from 0.001 to 1000000.
    2 │ cap,4.2,100,0,98
      │             ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL04 a number that is not whole',
    [['routes.csv', '4,4,60,,5', '4,4,60,,2.5']],
    `routes.csv, line 5, column every  error VAL04
  Found \`2.5\`, expected a whole number of parts from 1 to 10000.
    5 │ cap,4,gauge,20,4,4,60,,2.5
      │                        ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 an unknown kind',
    [['stations.csv', 'mill_2,machine', 'mill_2,machin']],
    `stations.csv, line 4, column kind  error VAL05
  Found \`machin\`, expected \`infeed\`, \`outfeed\`, \`machine\`, \`bench\`, \`held\` or \`buffer\`.
    4 │ mill_2,machin,2,0,,2,3,12,,
      │        ~~~~~~
  Fix: Did you mean \`machine\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 a slip in a word',
    [['stops.csv', '4,yes', '4,yse']],
    `stops.csv, line 2, column operator  error VAL05
  Found \`yse\`, expected \`yes\` or \`no\`.
    2 │ mill_1,tool change,50,,4,yse
      │                          ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 neither yes nor no',
    [['stops.csv', '4,yes', '4,perhaps']],
    `stops.csv, line 2, column operator  error VAL05
  Found \`perhaps\`, expected \`yes\` or \`no\`.
    2 │ mill_1,tool change,50,,4,perhaps
      │                          ~~~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL06 a name that is too long',
    [['parts.csv', 'cap,', 'ccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc,']],
    `parts.csv, line 2, column part  error VAL06
  Found \`cccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc…\` with 65 characters, expected a name of at most 64 characters.
    2 │ ccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc,4.2,100,,98
      │ ~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL07 a control character in a name',
    [['stops.csv', 'tool change', 'tool\u001b[31mchange']],
    `stops.csv, line 2, column name  error VAL07
  Found the control or invisible character U+001B at position 5, expected visible characters only.
    2 │ mill_1,tool␛[31mchange,50,,4,yes
      │            ~
  Fix: Type the text anew; it may have been copied from a page or a document.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL07 a line end in a name',
    [['stops.csv', 'tool change', '"tool\nchange"']],
    `stops.csv, line 2, column name  error VAL07
  Found the control or invisible character U+000A at position 5, expected visible characters only.
    2 │ mill_1,"tool␊change",50,,4,yes
      │             ~
  Fix: Type the text anew; it may have been copied from a page or a document.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL07 a direction mark in a name',
    [['stops.csv', 'tool change', 'tool \u202echange']],
    `stops.csv, line 2, column name  error VAL07
  Found the control or invisible character U+202E at position 6, expected visible characters only.
    2 │ mill_1,tool <U+202E>change,50,,4,yes
      │             ~~~~~~~~
  Fix: Type the text anew; it may have been copied from a page or a document.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL08 a bar in a station name',
    [
      ['stations.csv', 'gauge,bench', 'gau|ge,bench'],
      ['routes.csv', '4,gauge', '4,mill_1'],
    ],
    `stations.csv, line 5, column station  error VAL08
  Found \`gau|ge\` as a name, but \`|\` separates alternative stations.
    5 │ gau|ge,bench,1,1,,,,,,
      │    ~
  Fix: Choose another name.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL08 a star as a station name',
    [['stations.csv', 'done,outfeed,3,0,,,,,,', 'done,outfeed,3,0,,,,,,\n*,bench,,,,,,,,']],
    `stations.csv, line 8, column station  error VAL08
  Found \`*\` as a name, but \`*\` means all stations.
    8 │ *,bench,,,,,,,,
      │ ~
  Fix: Choose another name.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL08 a part called total',
    [
      ['routes.csv', null, 'part,step,stations\ntotal,1,rack\ntotal,2,done\n'],
      ['parts.csv', null],
      ['jobs.csv', null],
    ],
    `routes.csv, line 2, column part  error VAL08
  Found \`total\` as a name, but \`total\` means all parts in the results.
    2 │ total,1,rack
      │ ~~~~~
  Fix: Choose another name.

routes.csv, line 3, column part  error VAL08
  Found \`total\` as a name, but \`total\` means all parts in the results.
    3 │ total,2,done
      │ ~~~~~
  Fix: Choose another name.

2 errors in 1 file. No results.
`,
  ],
  [
    'VAL08 a name that the program keeps',
    [['stops.csv', 'tool change', '__proto__']],
    `stops.csv, line 2, column name  error VAL08
  Found \`__proto__\` as a name, but \`__proto__\` is kept by the program.
    2 │ mill_1,__proto__,50,,4,yes
      │        ~~~~~~~~~
  Fix: Choose another name.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL14 a number too large to be meant',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,1e999,4']],
    `travel.csv, line 2, column empty_s  error VAL14
  Found \`1e999\`, expected seconds, 0 or from 0.01 to 1000000; a number here is 0 or between 1e-9 and 1000000000000 in size.
    2 │ rack,mill_1,1e999,4
      │             ~~~~~
  Fix: Look for a slipped exponent or a wrong unit.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL14 a number too small to be meant',
    [['travel.csv', 'mill_1,1.6,1.8', 'mill_1,1e-400,4']],
    `travel.csv, line 2, column empty_s  error VAL14
  Found \`1e-400\`, expected seconds, 0 or from 0.01 to 1000000; a number here is 0 or between 1e-9 and 1000000000000 in size.
    2 │ rack,mill_1,1e-400,4
      │             ~~~~~~
  Fix: Look for a slipped exponent or a wrong unit.

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
