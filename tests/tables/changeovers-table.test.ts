/** Rules of changeovers.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'CHA01 a station listed twice',
    [['changeovers.csv', 'mill_1,40,30,80,1', 'mill_1,40,30,80,1\nmill_1,10,,,']],
    `changeovers.csv, line 3, column station  error CHA01
  The station \`mill_1\` is already given on line 2.
    3 │ mill_1,10,,,
      │ ~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'CHA02 more hours than the year has',
    [['changeovers.csv', 'mill_1,40,30,80', 'mill_1,20000,40,80']],
    `changeovers.csv, line 2, column per_year  error CHA02
  20000 changeovers of 40 minutes (80% of them with the machine stopped) stop \`mill_1\` for 10667 hours a year, which has 8760.
    2 │ mill_1,20000,40,80,1
      │        ~~~~~
  Fix: Check whether per_year is of one year and one machine, and minutes_other in minutes.

1 error in 1 file. No results.
`,
  ],
  [
    'CHA04 more hours than somebody is there',
    [['changeovers.csv', '40,30', '6000,30']],
    `changeovers.csv, line 2, column per_year  warning CHA04
  6000 changeovers of 30 minutes stop \`mill_1\` for 2400 hours a year; somebody is there for at most 2080 (pattern \`two\`).
    2 │ mill_1,6000,30,80,1
      │        ~~~~
  Fix: Check whether per_year is of one year and one machine, and minutes_other in minutes.

1 warning in 1 file.
`,
  ],
  [
    'CHA03 a changeover at a rack',
    [['changeovers.csv', 'mill_1', 'rack']],
    `changeovers.csv, line 2, column station  error CHA03
  \`rack\` is an infeed, expected a station that is set up for a job.
    2 │ rack,40,30,80,1
      │ ~~~~
  Fix: Give the changeovers of the machines; time to fill or empty a rack is a planned stop of stops.csv.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL01 no number of changeovers',
    [['changeovers.csv', 'mill_1,40', 'mill_1,']],
    `changeovers.csv, line 2, column per_year  error VAL01
  Found nothing, expected changeovers from 0 to 100000.
    2 │ mill_1,,30,80,1
      │        ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a share above 100',
    [['changeovers.csv', ',80,', ',180,']],
    `changeovers.csv, line 2, column internal_pct  error VAL03
  Found \`180\`, expected per cent from 0 to 100.
    2 │ mill_1,40,30,180,1
      │              ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL09 an unknown station',
    [['changeovers.csv', 'mill_1', 'mil_1']],
    `changeovers.csv, line 2, column station  error VAL09
  Found \`mil_1\`, expected a station of stations.csv.
    2 │ mil_1,40,30,80,1
      │ ~~~~~
  Fix: Did you mean \`mill_1\`?

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

const inspect = (row: string, ...changes: readonly Change[]) =>
  inspectTables(
    changedTables([
      ['changeovers.csv', null, `station,per_year,minutes_other,internal_pct,people\n${row}\n`],
      ...changes,
    ]),
  );
const codes = (row: string, ...changes: readonly Change[]) =>
  inspect(row, ...changes).complaints.map(({ code }) => code);

test('a changeover has what is given, and the defaults of what is not', () => {
  const at = expect.anything();
  expect(inspect('mill_1,40,30,80,2').cell?.changeovers).toEqual([
    { station: 'mill_1', perYear: 40, minutesOther: 30, internalPct: 80, people: 2, at },
  ]);
  expect(inspect('gauge,40,,,').cell?.changeovers).toEqual([
    { station: 'gauge', perYear: 40, minutesOther: 0, internalPct: 100, people: 1, at },
  ]);
});

test('racks are not set up, neither the first nor the last', () => {
  expect([codes('rack,40,30,80,1'), codes('done,40,30,80,1')]).toEqual([['CHA03'], ['CHA03']]);
});

test('the hours of a year are held against those that somebody is there, then against those that there are', () => {
  // Five days of 8 h, 52 times: 2080 h, as 2600 changeovers of 60 minutes of which the machine stops for 80%.
  expect(codes('mill_1,2600,60,80,1')).toEqual([]);
  expect(codes('mill_1,2601,60,80,1')).toEqual(['CHA04']);
  expect(codes('mill_1,8760,60,,1')).toEqual(['CHA04']);
  expect(inspect('mill_1,8761,60,,1').complaints).toMatchObject([
    {
      code: 'CHA02',
      text: '8761 changeovers of 60 minutes stop `mill_1` for 8761 hours a year, which has 8760',
    },
  ]);
  // Without shifts nobody knows when somebody is there.
  expect(codes('mill_1,2601,60,80,1', ['shifts.csv', null])).toEqual([]);
});

test('the longest pattern is held against them', () => {
  const rows = ['short,a,Mon-Wed', 'long,a,Mon-Sat', 'alike,a,Mon-Sat'].map((row) => `${row},06:00,14:00`);
  const shifts: Change = ['shifts.csv', null, `pattern,shift,days,start,end\n${rows.join('\n')}\n`];
  const [one, ...more] = inspect('mill_1,2601,60,,1', shifts).complaints;
  expect(more).toEqual([]);
  expect(one?.text).toMatch(/somebody is there for at most 2496 \(pattern `long`\)$/);
});
