/** Rules of shifts.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL11 a time with a point',
    [['shifts.csv', '06:00,14:00', '06.00,14:00']],
    `shifts.csv, line 2, column start  error VAL11
  Found \`06.00\`, expected a time of day from 00:00 to 23:59, such as \`06:30\`.
    2 │ two,early,Mon-Fri,06.00,14:00,09:00-09:20;11:30-12:00,yes,1,38
      │                   ~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL11 midnight as 24:00',
    [['shifts.csv', '06:00,14:00', '06:00,24:00']],
    `shifts.csv, line 2, column end  error VAL11
  Found \`24:00\`, expected a time of day from 00:00 to 23:59, such as \`06:30\`.
    2 │ two,early,Mon-Fri,06:00,24:00,09:00-09:20;11:30-12:00,yes,1,38
      │                         ~~~~~
  Fix: Write midnight as \`00:00\`; an end at or before the start is on the next day.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL12 an unknown day',
    [['shifts.csv', 'early,Mon-Fri', 'early,Mon-Fry']],
    `shifts.csv, line 2, column days  error VAL12
  Found \`Mon-Fry\`, expected days such as \`Mon-Fri\`, \`Mon,Wed,Sat\` or \`Fri-Mon\`.
    2 │ two,early,Mon-Fry,06:00,14:00,09:00-09:20;11:30-12:00,yes,1,38
      │           ~~~~~~~
  Fix: The days are Mon, Tue, Wed, Thu, Fri, Sat, Sun; set a list in quotation marks where commas part the columns.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL12 a day in a list',
    [['shifts.csv', 'early,Mon-Fri', 'early,"Mon,Wendsday"']],
    `shifts.csv, line 2, column days  error VAL12
  Found \`Wendsday\`, expected days such as \`Mon-Fri\`, \`Mon,Wed,Sat\` or \`Fri-Mon\`.
    2 │ two,early,"Mon,Wendsday",06:00,14:00,09:00-09:20;11:30-12:00,yes,1,38
      │                ~~~~~~~~
  Fix: The days are Mon, Tue, Wed, Thu, Fri, Sat, Sun; set a list in quotation marks where commas part the columns.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL13 breaks that are no spans',
    [['shifts.csv', '11:30-12:00', '11:30']],
    `shifts.csv, line 2, column breaks  error VAL13
  Found \`11:30\`, expected breaks such as \`09:00-09:20;11:30-12:00\`.
    2 │ two,early,Mon-Fri,06:00,14:00,09:00-09:20;11:30,yes,1,38
      │                                           ~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'SHI01 a shift given twice for one day',
    [['shifts.csv', 'two,night,Mon-Fri', 'two,early,Fri-Mon']],
    `shifts.csv, line 3, column shift  error SHI01
  The shift \`early\` of \`two\` is already given for Mon on line 2.
    3 │ two,early,Fri-Mon,22:00,06:00,01:00-01:30,no,0,0
      │     ~~~~~
  Fix: Keep one of the two, or rename one.

1 error in 1 file. No results.
`,
  ],
  [
    'SHI02 shifts that overlap',
    [['shifts.csv', 'night,Mon-Fri,22:00', 'late,Tue,13:30']],
    `shifts.csv, line 3, column start  error SHI02
  The shifts \`early\` (Tue 06:00-14:00) and \`late\` (Tue 13:30-06:00) of the pattern \`two\` overlap.
    3 │ two,late,Tue,13:30,06:00,01:00-01:30,no,0,0
      │              ~~~~~
  Fix: A pattern has one shift at a time; set shifts that are alternatives in patterns of their own.

1 error in 1 file. No results.
`,
  ],
  [
    'SHI02 shifts that overlap over the end of the week',
    [
      ['shifts.csv', 'early,Mon-Fri', 'early,Mon'],
      ['shifts.csv', 'night,Mon-Fri,22:00,06:00', 'night,Sun,22:00,06:30'],
    ],
    `shifts.csv, line 3, column start  error SHI02
  The shifts \`early\` (Mon 06:00-14:00) and \`night\` (Sun 22:00-06:30) of the pattern \`two\` overlap.
    3 │ two,night,Sun,22:00,06:30,01:00-01:30,no,0,0
      │               ~~~~~
  Fix: A pattern has one shift at a time; set shifts that are alternatives in patterns of their own.

1 error in 1 file. No results.
`,
  ],
  [
    'SHI03 a break outside its shift',
    [['shifts.csv', '11:30-12:00', '13:50-14:10']],
    `shifts.csv, line 2, column breaks  error SHI03
  Found the break \`13:50-14:10\`, expected one inside the shift 06:00-14:00.
    2 │ two,early,Mon-Fri,06:00,14:00,09:00-09:20;13:50-14:10,yes,1,38
      │                               ~~~~~~~~~~~~~~~~~~~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'SHI04 breaks that overlap',
    [['shifts.csv', '11:30-12:00', '09:10-09:30']],
    `shifts.csv, line 2, column breaks  error SHI04
  The breaks \`09:00-09:20\` and \`09:10-09:30\` overlap.
    2 │ two,early,Mon-Fri,06:00,14:00,09:00-09:20;09:10-09:30,yes,1,38
      │                               ~~~~~~~~~~~~~~~~~~~~~~~
  Fix: Write them as one break.

1 error in 1 file. No results.
`,
  ],
  [
    'SHI05 operators in an unattended shift',
    [['shifts.csv', 'no,0,0', 'no,1,30']],
    `shifts.csv, line 3, column operators  warning SHI05
  Found operators 1 in an unattended shift: they are paid, but stops wait for attended hours.
    3 │ two,night,Mon-Fri,22:00,06:00,01:00-01:30,no,1,30
      │                                              ~
  Fix: Set attended to yes, or operators to 0.

1 warning in 1 file.
`,
  ],
];

test('breaks stand on the clock of their shift, that of a night after midnight on the next day', () => {
  const breaksOf = (...changes: readonly Change[]) =>
    inspectTables(changedTables(changes)).cell?.shifts.map(({ breaks }) =>
      breaks.map(({ startMin, endMin }) => [startMin, endMin]),
    );
  const night = [[1500, 1530]];
  expect(breaksOf()).toEqual([
    [
      [540, 560],
      [690, 720],
    ],
    night,
  ]);
  // From the first minute, one after another, to the last minute.
  const whole: Change = ['shifts.csv', '09:00-09:20;11:30-12:00', '06:00-06:10;06:10-06:30;13:50-14:00'];
  expect(breaksOf(whole)).toEqual([
    [
      [360, 370],
      [370, 390],
      [830, 840],
    ],
    night,
  ]);
  // A break over midnight.
  expect(breaksOf(['shifts.csv', '01:00-01:30', '23:50-00:20'])?.[1]).toEqual([[1430, 1460]]);
});

test('breaks come in their order, operators by default where somebody is there', () => {
  const { cell } = inspectTables(
    changedTables([
      [
        'shifts.csv',
        null,
        `pattern,shift,days,start,end,breaks,breaks_stop,attended,operators
p,one,Mon,06:00,14:00,11:30-12:00;09:00-09:20;07:00-07:05,yes,yes,
p,two,Tue,06:00,14:00,,no,no,
p,three,Wed,06:00,14:00,,,yes,3
`,
      ],
    ]),
  );
  expect(cell?.shifts).toMatchObject([
    {
      breaks: [
        { startMin: 420, endMin: 425 },
        { startMin: 540, endMin: 560 },
        { startMin: 690, endMin: 720 },
      ],
      breaksStop: true,
      attended: true,
      operators: 1,
    },
    { breaks: [], attended: false, operators: 0 },
    { attended: true, operators: 3 },
  ]);
  expect(cell?.shifts.map((shift) => 'breaksStop' in shift)).toEqual([true, false, false]);
});

test('a long shift overlaps every shift inside it', () => {
  const rows = [
    'long,Mon,06:00,20:00',
    'two,Mon,07:00,08:00',
    'three,Mon,09:00,10:00',
    'four,Mon,20:00,06:00',
  ];
  const text = `pattern,shift,days,start,end\n${rows.map((row) => `p,${row}`).join('\n')}\n`;
  const { complaints } = inspectTables(changedTables([['shifts.csv', null, text]]));
  expect(complaints.map(({ code, line }) => [code, line])).toEqual([
    ['SHI02', 3],
    ['SHI02', 4],
  ]);
});

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});
