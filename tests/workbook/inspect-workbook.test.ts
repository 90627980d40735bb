// A cell from the bytes of a workbook, without a disk.
import { expect, test } from 'vitest';
import { inspectWorkbook, WorkbookFault } from '../../src/index.js';
import { workbookBytes } from '../../src/workbook/write-workbook.js';
import { bookOf, soundSheets } from '../support/broken-books.js';

test.each(['xlsx', 'ods'] as const)('a sound %s gives its cell', async (kind) => {
  const { cell, complaints } = await inspectWorkbook(
    await workbookBytes(bookOf(), kind),
    kind,
    `cell.${kind}`,
  );
  expect(complaints).toEqual([]);
  expect(cell?.stations.map((s) => s.name)).toEqual(['rack', 'mill', 'out']);
});

test('a fault is told of its cell, and there is no cell then', async () => {
  const [head, ...rows] = soundSheets.routes!;
  const routes = [head!, rows[0]!, ['cap', 2, 'mil', 60, 5, 4], rows[2]!];
  const bytes = await workbookBytes(bookOf({ routes }), 'xlsx');
  const { cell, complaints } = await inspectWorkbook(bytes, 'xlsx', 'cell.xlsx');
  expect(cell).toBeNull();
  expect(complaints.map(({ code, cell: at }) => [code, at])).toEqual([['VAL09', 'routes!C3']]);
});

test('where a needed table is lacking, sheets of other names are named, with the name they should have', async () => {
  const book = bookOf();
  const sheets = book.sheets.map((sheet) => (sheet.name === 'routes' ? { ...sheet, name: 'Sheet2' } : sheet));
  const { complaints } = await inspectWorkbook(
    await workbookBytes({ ...book, sheets }, 'xlsx'),
    'xlsx',
    'cell.xlsx',
  );
  const said = complaints.find(({ code }) => code === 'TAB02');
  expect(said?.text).toContain('`Sheet2`');
  expect(said?.help).toBe('Tables go by the names of their sheets; lacking: `routes`.');
});

test('what is no workbook is said in words', async () => {
  await expect(inspectWorkbook(new Uint8Array(9), 'xlsx', 'cell.xlsx')).rejects.toThrow(WorkbookFault);
});
