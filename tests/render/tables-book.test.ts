// Tables of results as sheets: numbers stay numbers and carry the unit of their column; the answer comes first.
import { expect, test } from 'vitest';
import { tablesBook } from '../../src/render/tables-book.js';

const book = tablesBook(
  'cell A',
  ['It makes 50 parts an hour.'],
  [
    {
      file: 'size.csv',
      rows: [
        ['machines', 'parts_per_h', 'wait_robot_pct', 'proven', 'name'],
        [1, 20.25, 3, true, '=1+1'],
        [2, 40, null, false, 'b'],
      ],
      chart: { kind: 'line', title: 'Parts an hour', of: 'machines', values: ['parts_per_h'] },
    },
    { file: 'points.csv', rows: [['station'], ['mill']] },
    {
      file: 'flows.csv',
      rows: [
        ['year', 'box'],
        [0, -900],
      ],
      money: ['box'],
    },
  ],
  'EUR',
);

test('the answer is the first sheet, then a sheet for each table', () => {
  expect(book.sheets.map(({ name, frozenRows }) => [name, frozenRows])).toEqual([
    ['answer', undefined],
    ['size', 1],
    ['points', 1],
    ['flows', 1],
  ]);
  expect(book.sheets[0]!.rows[1]).toEqual([{ value: 'It makes 50 parts an hour.', look: 'wrapped' }]);
});

test('numbers keep all digits under a format with the unit of the column; texts stay texts', () => {
  expect(book.sheets[1]!.rows[1]).toEqual([
    { value: 1, format: { digits: 0 } },
    { value: 20.25, format: { digits: 2 } },
    { value: 3, format: { digits: 0, unit: '%' } },
    'yes',
    '=1+1',
  ]);
  expect(book.sheets[1]!.rows[2]![2]).toBeNull();
});

test('money carries its currency', () => {
  expect(book.sheets[3]!.rows[1]).toEqual([
    { value: 0, format: { digits: 0 } },
    { value: -900, format: { digits: 2, unit: 'EUR' } },
  ]);
});

test('a table that is worth a picture has one of its own cells', () => {
  expect(book.sheets[1]!.charts).toEqual([
    {
      kind: 'line',
      title: 'Parts an hour',
      categories: 'A2:A3',
      series: [{ name: 'parts_per_h', values: 'B2:B3' }],
      fromZero: true,
      row: 1,
      column: 6,
    },
  ]);
  expect(book.sheets[2]!.charts).toEqual([]);
});
