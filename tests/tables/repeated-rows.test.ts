// Rows that name the same thing twice, by rows made by hand.
import { expect, test } from 'vitest';
import { complaintList } from '../../src/tables/complaint-list.js';
import { nameColumn } from '../../src/tables/name-column.js';
import { firstOfEach } from '../../src/tables/repeated-rows.js';
import { type TypedRow, typedRows } from '../../src/tables/typed-rows.js';

const lines = ['from,to', 'a,bc', 'ab,c', 'a,bc', 'a,b', 'a,bc'];
const rows = lines.map((line, i) => ({ line: i + 1, endLine: i + 1, cells: line.split(',') }));
const sheetOf = () => ({
  list: complaintList(),
  ...{ file: 'a.csv', lines, delimiter: ',' as const, header: rows[0]!, rows: rows.slice(1), isWhole: true },
  columns: new Map([
    ['from', 0],
    ['to', 1],
  ]),
});
const columns = { from: nameColumn('where it begins'), to: nameColumn('where it ends') };

test('the first of each stays, and each later one is told with the line of the first', () => {
  const sheet = sheetOf();
  const words = ({ row }: TypedRow<typeof columns>) => `the way \`${row.cells.join(' to ')}\``;
  const kept = firstOfEach(sheet, typedRows(sheet, columns), 'STA01', ['to', 'from'], words);
  expect(kept.map(({ row }) => row.line)).toEqual([2, 3, 5]);
  const text = 'the way `a to bc` is already given on line 2';
  const help = 'Keep one of the two rows.';
  expect(sheet.list.sorted()).toMatchObject([
    { code: 'STA01', line: 4, column: 'to', text, help },
    { code: 'STA01', line: 6, column: 'to', text, help },
  ]);
});

test('a row that one column names is told by it', () => {
  const sheet = sheetOf();
  const kept = firstOfEach(sheet, typedRows(sheet, columns), 'STA01', ['from']);
  expect(kept.map(({ row }) => row.line)).toEqual([2, 3]);
  expect(sheet.list.sorted().map(({ text }) => text)).toEqual(
    [1, 2, 3].map(() => 'the from `a` is already given on line 2'),
  );
});
