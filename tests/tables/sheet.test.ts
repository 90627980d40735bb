/** From a cell of a table back to its place in the file: what a complaint marks, counted out by hand. */
import { expect, test } from 'vitest';
import { complaintList } from '../../src/tables/complaint-list.js';
import {
  cellExcerpt,
  cellText,
  noteTaken,
  reportCell,
  reportTable,
  type Sheet,
} from '../../src/tables/sheet.js';

const LINES = ['part,ratio,note', ' cap , 1x ," a ""b"" "  ', '"lid', 'long",2', 'rod'];
const RODS = { line: 5, endLine: 5, cells: ['rod'] };
const CAPS = { line: 2, endLine: 2, cells: ['cap', '1x', 'a "b"'] };
const LIDS = { line: 3, endLine: 4, cells: ['lid\nlong', '2'] };

/** The columns that a table of parts knows: its note is none of them. */
function sheetOf(): Sheet {
  return {
    ...{ list: complaintList(), file: 'parts.csv', lines: LINES, delimiter: ',' },
    header: { line: 1, endLine: 1, cells: ['part', 'ratio', 'note'] },
    columns: new Map(Object.entries({ part: 0, ratio: 1 })),
    ...{ rows: [CAPS, LIDS, RODS], isWhole: true },
  };
}

test('a cell that its row does not reach, or whose column is not there, is empty', () => {
  const texts = (column: string) => [CAPS, LIDS, RODS].map((row) => cellText(sheetOf(), row, column));
  expect(texts('ratio')).toEqual(['1x', '2', '']);
  expect(texts('yield_pct')).toEqual(['', '', '']);
});

test('a cell is marked without the spaces around it, inside quotation marks too', () => {
  const marked = (row: typeof CAPS, index: number, part?: readonly [number, number]) => {
    const { text, start, end } = cellExcerpt(sheetOf(), row, index, part);
    return [text, start, end];
  };
  expect(marked(CAPS, 0)).toEqual([LINES[1], 1, 4]);
  expect(marked(CAPS, 1)).toEqual([LINES[1], 7, 9]);
  expect(marked(CAPS, 1, [1, 2])).toEqual([LINES[1], 8, 9]);
  expect(marked(CAPS, 1, [1, 9])).toEqual([LINES[1], 8, 9]);
  expect(marked(CAPS, 1, [5, 9])).toEqual([LINES[1], 9, 9]);
  // A doubled mark is one in the value: what is a part of it cannot be told by counting.
  expect(marked(CAPS, 2, [2, 3])).toEqual([LINES[1], 13, 20]);
  expect(marked(LIDS, 0)).toEqual(['"lid\nlong",2', 1, 9]);
  expect(marked(LIDS, 1)).toEqual(['"lid\nlong",2', 11, 12]);
  expect(marked(RODS, 1)).toEqual(['rod', 3, 3]);
});

test('complaints of a row come by column, those of its whole line first, after those of the whole table', () => {
  const sheet = sheetOf();
  const fault = (text: string) => () => ({ text, help: null });
  reportCell(sheet, CAPS, 'ratio', 'VAL02', () => ({ ...fault('cell')(), span: [1, 2] }));
  reportCell(sheet, CAPS, 'part', 'VAL06', fault('name'));
  reportCell(sheet, CAPS, 'yield_pct', 'VAL01', fault('lacking'));
  reportCell(sheet, CAPS, null, 'TAB13', () => ({ ...fault('part of the line')(), span: [7, 9] }));
  reportTable(sheet, { code: 'TAB07', ...fault('no rows')() });
  reportTable(sheet, { code: 'TAB11', ...fault('no column')() }, 'part');
  expect(
    sheet.list
      .sorted()
      .map(({ code, file, line, column, text, excerpt }) => [
        ...[code, file, line, column, text],
        ...(excerpt ? [excerpt.text, excerpt.start, excerpt.end] : []),
      ]),
  ).toEqual([
    ['TAB07', 'parts.csv', null, null, 'no rows'],
    ['TAB11', 'parts.csv', null, 'part', 'no column'],
    ['VAL01', 'parts.csv', 2, 'yield_pct', 'lacking', LINES[1], 1, 22],
    ['TAB13', 'parts.csv', 2, null, 'part of the line', LINES[1], 7, 9],
    ['VAL06', 'parts.csv', 2, 'part', 'name', LINES[1], 1, 4],
    ['VAL02', 'parts.csv', 2, 'ratio', 'cell', LINES[1], 8, 9],
  ]);
});

test('what was read as something else is noted with the words of the cell', () => {
  const sheet = sheetOf();
  noteTaken(sheet, CAPS, 'ratio', { ok: true, value: 1, taken: '1' });
  noteTaken(sheet, LIDS, 'ratio', { ok: true, value: 2 });
  noteTaken(sheet, LIDS, 'ratio', { ok: false, fault: { code: 'VAL02', text: 'no number', help: null } });
  expect(sheet.list.notes()).toEqual([
    { file: 'parts.csv', line: 2, column: 'ratio', found: '1x', taken: '1' },
  ]);
});
