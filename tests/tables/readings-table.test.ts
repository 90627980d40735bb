/** The file of stopwatch readings: what it takes, and what is said about its faults. */
import { describe, expect, test } from 'vitest';
import { renderComplaints } from '../../src/render/complaints.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { readReadings } from '../../src/tables/readings-table.js';
import { besideFormats } from '../../src/tables/table-formats.js';
import { soundTables } from './sound-tables.js';

const said = (text: string): string =>
  renderComplaints(readReadings('watch.csv', text).complaints, { colour: false });

test('the contract’s columns', () => {
  const columns = besideFormats[0]!.columns;
  expect(columns.map((c) => c.name).join(',')).toBe('element,seconds,cell,observer,note,rating_pct,foreign');
  expect(columns.filter((c) => c.needed).map((c) => c.name)).toEqual(['element', 'seconds']);
});

describe('a sound file', () => {
  test('needs two columns; the others have defaults', () => {
    const { readings, complaints } = readReadings('watch.csv', 'element,seconds\nmill_1 cycle,240.5\n');
    expect(complaints).toEqual([]);
    expect(readings).toEqual([
      {
        element: 'mill_1 cycle',
        seconds: 240.5,
        cell: '',
        observer: '',
        note: '',
        ratingPct: 100,
        foreign: false,
        at: { file: 'watch.csv', line: 2 },
      },
    ]);
  });

  test('is read as spreadsheets save it: mark, semicolons, decimal commas, comments, any order', () => {
    const text =
      '\uFEFF# early shift\r\nforeign;rating_pct;seconds;element;note\r\nyes;90;12,25;mill_1 load;"chips; many"\r\n\r\n;;13;mill_1 load;\r\n';
    const { readings, complaints } = readReadings('watch.csv', text);
    expect(complaints).toEqual([]);
    expect(readings!.map((r) => [r.seconds, r.ratingPct, r.foreign, r.note, r.at!.line])).toEqual([
      [12.25, 90, true, 'chips; many', 3],
      [13, 100, false, '', 5],
    ]);
  });

  test('may stand in the folder of a cell', () => {
    const tables = { ...soundTables, 'readings.csv': 'element,seconds\n', 'readings-figures.csv': '' };
    expect(inspectTables(tables).complaints).toEqual([]);
  });
});

describe('faults', () => {
  test('all are told at once, each with its place', () => {
    const text =
      'element,seconds,rating_pct,foreign\nmill_1 load,0,,\n,12 s,,\nmill_1 load,12,400,maybe\nmill_1 load,11,,\n';
    expect(said(text)).toBe(`watch.csv, line 2, column seconds  error VAL03
  Found \`0\`, expected seconds from 0.001 to 1000000.
    2 │ mill_1 load,0,,
      │             ~
  Fix: A watch that was not started gives no reading; leave the row out.

watch.csv, line 3, column element  error VAL01
  Found nothing, expected a name of at most 64 characters.
    3 │ ,12 s,,
      │ ~
  Fix: Is it the same as above, \`mill_1 load\`? Then write it in this row, too.

watch.csv, line 3, column seconds  error VAL02
  Found \`12 s\`, expected seconds from 0.001 to 1000000.
    3 │ ,12 s,,
      │  ~~~~
  Fix: Write the number alone, \`12\`, without a unit.

watch.csv, line 4, column rating_pct  error VAL03
  Found \`400\`, expected per cent from 1 to 300.
    4 │ mill_1 load,12,400,maybe
      │                ~~~

watch.csv, line 4, column foreign  error VAL05
  Found \`maybe\`, expected \`yes\` or \`no\`.
    4 │ mill_1 load,12,400,maybe
      │                    ~~~~~

5 errors in 1 file. No results.
`);
    expect(readReadings('watch.csv', text).readings).toBeNull();
  });

  test('an unknown column has its nearest name told', () => {
    expect(said('element,secnds\na,1\n')).toContain('Did you mean `seconds`?');
  });

  test('REA01 a name for every reading', () => {
    const rows = Array.from({ length: 1001 }, (_, i) => `load ${i},5\n`).join('');
    expect(said(`element,seconds\n${rows}`)).toBe(`watch.csv  error REA01
  The file times 1001 unlike elements, at most 1000 are read.
  Fix: Give all readings of one element the same name; what differs goes into the column note.

1 error in 1 file. No results.
`);
  });

  test('a file without readings is one', () => {
    expect(said('element,seconds\n')).toContain('error TAB07');
    expect(said('')).toContain('error TAB06');
  });
});
