/** Rules of jobs.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { jobColumns } from '../../src/tables/jobs-table.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'JOB01 a job listed twice',
    [['jobs.csv', 'j2,cap', 'j1,cap']],
    `jobs.csv, line 3, column job  error JOB01
  The job \`j1\` is already given on line 2.
    3 │ j1,cap,300,Fri,Tue,25
      │ ~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'JOB02 due before its material',
    [['jobs.csv', 'Fri,Tue', 'Mon,Tue']],
    `jobs.csv, line 3, column due  error JOB02
  \`j2\` is due before its material is there.
    3 │ j2,cap,300,Mon,Tue,25
      │            ~~~
  Fix: The plan is of one week: not_before must come earlier in it than due.

1 error in 1 file. No results.
`,
  ],
  [
    'JOB03 unlike set-up minutes of one part',
    [['jobs.csv', 'Fri,Tue,25', 'Fri,Tue,']],
    `jobs.csv, line 3, column setup_min  error JOB03
  The changeover to \`cap\` takes the minutes of changeovers.csv here and 25 minutes on line 2.
    3 │ j2,cap,300,Fri,Tue,
      │                    ~
  Fix: Jobs of one part share its changeover: write the same minutes for each of them.

1 error in 1 file. No results.
`,
  ],
  [
    'JOB04 more jobs than the limit',
    [
      [
        'jobs.csv',
        null,
        `job,part,quantity\n${Array.from({ length: 201 }, (_, k) => `${k},cap,1\n`).join('')}`,
      ],
    ],
    `jobs.csv  error JOB04
  Found 201 jobs, expected at most 200.
  Fix: Plan one week at a time, or put jobs of one part and one due day together.

1 error in 1 file. No results.
`,
  ],
  [
    'JOB05 a job whose number begins with #',
    [['jobs.csv', 'j2,cap', ' #2,cap']],
    `jobs.csv, line 3, column job  warning JOB05
  This line begins with # and is left out as a comment, but it has as many cells as a job.
    3 │  #2,cap,300,Fri,Tue,25
      │  ~~
  Fix: Write the number without the #; in a line that is meant as a comment, put a space after it.

1 warning in 1 file.
`,
  ],
  [
    'VAL10 an unknown part',
    [['jobs.csv', 'j1,cap', 'j1,cup']],
    `jobs.csv, line 2, column part  error VAL10
  Found \`cup\`, expected a part of routes.csv.
    2 │ j1,cup,120,Wed 14:00,,25
      │    ~~~
  Fix: Did you mean \`cap\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL15 an unknown day',
    [['jobs.csv', 'Wed 14:00', 'midweek']],
    `jobs.csv, line 2, column due  error VAL15
  Found \`midweek\`, expected a day from Mon to Sun, with or without a time, such as \`Fri\` or \`Fri 14:00\`.
    2 │ j1,cap,120,midweek,,25
      │            ~~~~~~~
  Fix: The days are Mon, Tue, Wed, Thu, Fri, Sat, Sun.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL15 midnight as 24:00',
    [['jobs.csv', 'Wed 14:00', 'Wed 24:00']],
    `jobs.csv, line 2, column due  error VAL15
  Found \`Wed 24:00\`, expected a day from Mon to Sun, with or without a time, such as \`Fri\` or \`Fri 14:00\`.
    2 │ j1,cap,120,Wed 24:00,,25
      │            ~~~~~~~~~
  Fix: Midnight at the end of a day is the day alone.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL04 a piece of a part',
    [['jobs.csv', 'j1,cap,120', 'j1,cap,1.5']],
    `jobs.csv, line 2, column quantity  error VAL04
  Found \`1.5\`, expected a whole number of parts, 1 or more.
    2 │ j1,cap,1.5,Wed 14:00,,25
      │        ~~~

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

test('moments of the week: a day alone is its end for due and its start for not_before', () => {
  const rows = 'a,cap,1,Mon,Mon\nb,cap,1,Sun,Sun 23:59\nc,cap,1,,\nd,cap,1,Tue 6:30,\n';
  const changes: readonly Change[] = [['jobs.csv', null, `job,part,quantity,due,not_before\n${rows}`]];
  const { cell } = inspectTables(changedTables(changes));
  expect(cell!.jobs.map((job) => [job.dueMin, job.notBeforeMin, job.setupMin])).toEqual([
    [1440, 0, null],
    [10_080, 10_079, null],
    [10_080, 0, null],
    [1440 + 390, 0, null],
  ]);
});

test('a moment in other words is read as the day and time that it names', () => {
  const due = (text: string) => jobColumns.due.read(text, { decimalComma: false });
  expect(due('Wed   14:00')).toEqual({ ok: true, value: 3720 });
  expect(due('mittwoch  14:00')).toEqual({ ok: true, value: 3720, taken: 'Wed 14:00' });
  expect(due('FRI')).toEqual({ ok: true, value: 7200, taken: 'Fri' });
  expect(due('Wed 14:00 sharp').ok).toBe(false);
});

test('as many jobs as the limit are read, and a header in a comment is no job', () => {
  const jobs = Array.from({ length: 200 }, (_, k) => `${k},cap,1\n`).join('');
  expect(saidAbout(['jobs.csv', null, `#job,part,quantity\njob,part,quantity\n${jobs}`])).toBe('');
});

test('a job that is set aside with # and a space, and a remark, are comments without a word', () => {
  expect(saidAbout(['jobs.csv', 'j2,cap', '# j2,cap'])).toBe('');
  expect(saidAbout(['jobs.csv', 'j2,cap', '#two rows, of one part\nj2,cap'])).toBe('');
});
