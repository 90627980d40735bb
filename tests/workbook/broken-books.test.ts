// Workbooks with faults and tricks: each is read rightly or complained of with its sheet and cell, and none does harm.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type CellFolder, readCellFolder } from '../../src/files/read-cell-folder.js';
import { renderComplaints } from '../../src/render/complaints.js';
import type { Workbook, WorkbookKind } from '../../src/workbook/workbook.js';
import { workbookBytes } from '../../src/workbook/write-workbook.js';
import { freshFolder } from '../cli/run-in.js';
import { bookOf, patchedBook, rawCell, saidSize, soundSheets } from '../support/broken-books.js';
import { atSize } from '../support/size.js';

const folder = freshFolder();
let count = 0;

async function read(bytes: Uint8Array | string, kind: string = 'xlsx'): Promise<CellFolder> {
  count += 1;
  const path = join(folder, `cell${count}.${kind}`);
  writeFileSync(path, bytes);
  return readCellFolder(path);
}

async function readBook(book: Workbook, kind: WorkbookKind): Promise<CellFolder> {
  return read(await workbookBytes(book, kind), kind);
}

function said({ complaints }: CellFolder): string {
  return renderComplaints(complaints, { colour: false }).replaceAll(/cell\d+\./g, 'cell.');
}

const notes = ({ readAs }: CellFolder): string[] =>
  readAs.map(({ cell, file, found, taken }) => `${cell ?? file.replace(/\d+/, '')}: ${found} = ${taken}`);

const routes = soundSheets.routes!;
const SHEET1 = 'xl/worksheets/sheet1.xml';
const SHEET2 = 'xl/worksheets/sheet2.xml';
const SHEET4 = 'xl/worksheets/sheet4.xml';

test('the sound workbook is sound', async () => {
  for (const kind of ['xlsx', 'ods'] as const) {
    const found = await readBook(bookOf(), kind);
    expect(said(found)).toBe('');
    expect(found.cell?.routes[0]?.steps[1]?.cycleS).toBe(60);
    expect(notes(found)).toEqual([]);
  }
});

describe('files that are no workbook', () => {
  test('an empty file', async () => {
    expect(said(await read(''))).toBe(`cell.xlsx  error BOK07
  The workbook cannot be read: it is not a workbook: it cannot be unpacked.
  Fix: Open it in the office program and save it anew as .xlsx or .ods.

1 error in 1 file. No results.
`);
  });
  test('a table under the ending of a workbook', async () => {
    expect(said(await read('station,kind\n', 'ods'))).toContain('it cannot be unpacked');
  });
  test('half a file', async () => {
    const bytes = await workbookBytes(bookOf(), 'xlsx');
    expect(said(await read(bytes.slice(0, bytes.length / 2)))).toContain('error BOK07');
  });
  test('a part with a slip in it', async () => {
    const bytes = await patchedBook('ods', bookOf(), [['content.xml', '<office:body>', '<office:body><x>']]);
    expect(said(await read(bytes, 'ods'))).toContain(
      'error BOK07\n  The workbook cannot be read: it is damaged',
    );
  });
  test('one that is locked with a password, or of the old kind', async () => {
    const bytes = Uint8Array.from([
      0xd0,
      0xcf,
      0x11,
      0xe0,
      0xa1,
      0xb1,
      0x1a,
      0xe1,
      ...new Array(600).fill(0),
    ]);
    expect(said(await read(bytes))).toContain(
      'locked with a password, or it is a workbook of the old kind (.xls)',
    );
  });
  test('the one kind under the ending of the other', async () => {
    expect(said(await read(await workbookBytes(bookOf(), 'ods'), 'xlsx'))).toContain(
      'it is an .ods file under the ending .xlsx.\n  Fix: Give the file the ending .ods.',
    );
  });
  test('one that is not there', async () => {
    expect(said(await readCellFolder(join(folder, 'none.xlsx')))).toContain(
      'error FIL01\n  There is no workbook',
    );
  });
});

describe('files that unpack to too much', () => {
  test('one that says so', async () => {
    const bytes = saidSize(await workbookBytes(bookOf(), 'xlsx'), SHEET1, 500 * 1024 * 1024);
    expect(said(await read(bytes))).toContain('it unpacks to 500 MB, at most 96 MB are read');
  });
  test.each([10, 0])('one that says %i bytes and holds more', async (size) => {
    const big = 'x'.repeat(300_000);
    const bytes = await patchedBook('xlsx', bookOf(), [
      [SHEET1, '</sheetData>', `</sheetData><!--${big}-->`],
    ]);
    expect(said(await read(saidSize(bytes, SHEET1, size)))).toContain('error BOK07');
  });
  test('cells that are filled down to the end of the sheet', async () => {
    const bytes = await patchedBook('ods', bookOf(), [
      ['content.xml', '<table:table-row>', '<table:table-row table:number-rows-repeated="1000000">'],
    ]);
    expect(said(await read(bytes, 'ods'))).toContain('repeats filled cells');
  });
});

describe('rows without anything', () => {
  test('a million of them in .xlsx', async () => {
    const rows = Array.from({ length: atSize(20_000, 200_000) }, (_, i) => `<row r="${i + 5}"/>`).join('');
    const bytes = await patchedBook('xlsx', bookOf(), [
      [SHEET2, '</sheetData>', `${rows}<row r="1048576"><c r="A1048576" s="0"/></row></sheetData>`],
    ]);
    expect(said(await read(bytes))).toBe('');
  });
  test('a million of them in .ods, with a look', async () => {
    const more =
      '<table:table-row table:number-rows-repeated="1048000"><table:table-cell table:style-name="c1" table:number-columns-repeated="1024"/></table:table-row></table:table>';
    const bytes = await patchedBook('ods', bookOf(), [['content.xml', '</table:table>', more]]);
    expect(said(await read(bytes, 'ods'))).toBe('');
  });
  test('blank rows between keep the numbers of the rows', async () => {
    const rows = [...routes.slice(0, 2), [], [], ['cap', 2, 'mill', 'soon', 5, 4], routes[3]!];
    for (const kind of ['xlsx', 'ods'] as const)
      expect(
        said(await readBook(bookOf({ routes: rows }), kind)),
      ).toBe(`cell.${kind}, routes!D5, column cycle_s  error VAL02
  Found \`soon\`, expected seconds, 0 or from 0.01 to 1000000.
    5 │ cap,2,mill,soon,5,4
      │            ~~~~

1 error in 1 file. No results.
`);
  });
  test('rows in groups and rows that repeat in print count in .ods', async () => {
    const bytes = await patchedBook('ods', bookOf(), [
      ['content.xml', '<table:table-row>', '<table:table-header-rows><table:table-row>'],
      [
        'content.xml',
        '</table:table-row>',
        '</table:table-row></table:table-header-rows><table:table-row-group>',
      ],
      ['content.xml', '</table:table>', '</table:table-row-group></table:table>'],
    ]);
    expect(said(await read(bytes, 'ods'))).toBe('');
  });
});

describe('formulas', () => {
  const withFormula = (formula: string, value: number | string | null) =>
    bookOf({ routes: [...routes.slice(0, 2), ['cap', 2, 'mill', { value, formula }, 5, 4], routes[3]!] });

  test.each(['xlsx', 'ods'] as const)(
    'the result in the file is taken, whatever the formula says: %s',
    async (kind) => {
      const found = await readBook(withFormula('1+1', 77), kind);
      expect(said(found)).toBe('');
      expect(found.cell?.routes[0]?.steps[1]?.cycleS).toBe(77);
    },
  );
  test.each(['xlsx', 'ods'] as const)('without a result it is asked for, once: %s', async (kind) => {
    expect(
      said(await readBook(withFormula('C2*2', null), kind)),
    ).toBe(`cell.${kind}, routes!D3, column cycle_s  error BOK01
  The formula \`=${kind === 'ods' ? '[.C2]' : 'C2'}*2\` has no result in the file.
  Fix: Formulas are not worked out here: open the workbook in the office program, save it there, or write the value.

1 error in 1 file. No results.
`);
  });
  test('a cell that shows an error', async () => {
    const bytes = await patchedBook('xlsx', bookOf(), [
      [SHEET2, /<c r="D3"[^>]*><v>60<\/v><\/c>/, rawCell('D3', '<f>1/0</f><v>#DIV/0!</v>', ' t="e"')],
    ]);
    expect(said(await read(bytes))).toBe(`cell.xlsx, routes!D3, column cycle_s  error BOK02
  The cell shows \`#DIV/0!\`.
  Fix: Fix the formula, or write the value.

1 error in 1 file. No results.
`);
  });
});

describe('times and dates', () => {
  const styled = (code: string): [string, string | RegExp | null, string][] => [
    [
      'xl/styles.xml',
      /<cellXfs count="\d+">([\s\S]*?)<\/cellXfs>/,
      `<cellXfs count="2">$1<xf numFmtId="${code}" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>`,
    ],
  ];
  const inShift = (ref: string, value: string) =>
    [SHEET4, new RegExp(`<c r="${ref}"[^>]*>.*?</c>`), rawCell(ref, `<v>${value}</v>`, ' s="1"')] as const;

  test.each([
    ['1900', ''],
    ['1904', ' date1904="1"'],
  ])('a time of day, in the calendar of %s', async (_name, attribute) => {
    const bytes = await patchedBook('xlsx', bookOf(), [
      ...styled('20'),
      inShift('D2', '0.25'),
      inShift('E2', '0.58333333333333337'),
      ...(attribute === ''
        ? []
        : [['xl/workbook.xml', '<sheets>', `<workbookPr${attribute}/><sheets>`] as const]),
    ]);
    const found = await read(bytes);
    expect(said(found)).toBe('');
    expect(found.cell?.shifts[0]).toMatchObject({ startMin: 360, endMin: 840 });
  });
  test('a time that lost its format', async () => {
    const rows = [soundSheets.shifts![0]!, ['day', 'early', 'Mon-Fri', 0.25, 14 / 24, true]];
    const found = await readBook(bookOf({ shifts: rows }), 'ods');
    expect(said(found)).toBe('');
    expect(found.cell?.shifts[0]).toMatchObject({ startMin: 360, endMin: 840 });
    expect(notes(found)).toEqual(['shifts!F2: TRUE = yes']);
  });
  test('5:10 among seconds, which the office program made a time of day', async () => {
    const bytes = await patchedBook('xlsx', bookOf(), [
      ...styled('20'),
      [SHEET2, /<c r="D3"[^>]*>.*?<\/c>/, rawCell('D3', '<v>0.2152777777777778</v>', ' s="1"')],
    ]);
    expect(said(await read(bytes))).toContain(
      'Write 310 if 5 minutes and 10 seconds are meant, 18600 if 5 hours and 10 minutes are.',
    );
  });
  test('a date in the place of a name', async () => {
    const bytes = await patchedBook('xlsx', bookOf(), [
      ...styled('14'),
      [SHEET2, /<c r="A3"[^>]*>.*?<\/c>/, rawCell('A3', '<v>46115</v>', ' s="1"')],
    ]);
    expect(said(await read(bytes))).toContain(`cell.xlsx, routes!A3, column part  error BOK03
  Found a date, 2026-04-03, where the table has none.
  Fix: Office programs take texts such as 3-4 for a date: set the format of the cell to text and type it anew.
`);
  });
  test('in .ods', async () => {
    const bytes = await patchedBook('ods', bookOf(), [
      [
        'content.xml',
        '<table:table-cell office:value-type="string"><text:p>06:00</text:p></table:table-cell>',
        '<table:table-cell office:value-type="time" office:time-value="PT06H30M00S"><text:p>06:30 AM</text:p></table:table-cell>',
      ],
    ]);
    const found = await read(bytes, 'ods');
    expect(said(found)).toBe('');
    expect(found.cell?.shifts[0]?.startMin).toBe(390);
  });
});

describe('numbers', () => {
  test.each(['xlsx', 'ods'] as const)('numbers as texts, with commas, and shares: %s', async (kind) => {
    const book = bookOf({
      routes: [...routes.slice(0, 2), ['cap', 2, 'mill', '60,5', ' 5 ', 0.1 + 0.2], routes[3]!],
      parts: [
        ['part', 'yield_pct'],
        ['cap', { value: 0.97, format: { digits: 0, percent: true } }],
      ],
    });
    const found = await readBook(book, kind);
    expect(said(found)).toBe('');
    expect(found.cell?.routes[0]?.steps[1]).toMatchObject({ cycleS: 60.5, loadS: 5, unloadS: 0.3 });
    expect(found.cell?.parts[0]?.yieldPct).toBe(97);
    expect(notes(found)).toEqual(['routes!D3: 60,5 = 60.5', 'parts!B2: 97% = 97']);
  });
  test('1,234 as a text has two meanings', async () => {
    const rows = [...routes.slice(0, 2), ['cap', 2, 'mill', '1,234', 5, 4], routes[3]!];
    expect(said(await readBook(bookOf({ routes: rows }), 'xlsx'))).toContain('if it parts the thousands');
  });
});

describe('sheets', () => {
  test('names in any case, with blanks; other sheets are left alone and named', async () => {
    const { stations, routes: _, ...rest } = soundSheets;
    const book: Workbook = {
      title: '',
      sheets: Object.entries({ ' Stations ': stations!, ROUTES: routes, ...rest, 'Last year': [['x']] }).map(
        ([name, rows]) => ({ name, rows }),
      ),
    };
    const found = await readBook(book, 'ods');
    expect(said(found)).toBe('');
    expect(notes(found)).toEqual(['cell.ods: sheet Last year = no table of a cell; it is left alone']);
  });
  test('a misspelt name is a warning', async () => {
    expect(said(await readBook(bookOf({ shfits: [['x']] }), 'xlsx'))).toBe(`cell.xlsx  warning TAB02
  The sheet \`shfits\` is not a table of a cell and is not read.
  Fix: Did you mean \`shifts\`?

1 warning in 1 file.
`);
  });
  test('two sheets of one name', async () => {
    expect(said(await readBook(bookOf({ 'Routes.csv': routes }), 'xlsx'))).toBe(`cell.xlsx  error BOK05
  The sheets \`routes\` and \`Routes.csv\` are named as one table.
  Fix: Rename the one that is not to be read.

1 error in 1 file. No results.
`);
  });
  test('none that is a table', async () => {
    expect(
      said(await readBook({ title: '', sheets: [{ name: 'Sheet1', rows: [['a']] }] }, 'xlsx')),
    ).toBe(`cell.xlsx  error BOK08
  The workbook holds no sheet that is named as a table.
  Fix: Name the sheets as the tables: stations, routes and robot are needed; \`roundsman init my-cell.xlsx\` writes an example.

1 error in 1 file. No results.
`);
  });
  test('one that is needed is lacking', async () => {
    expect(said(await readBook(bookOf({ robot: null }), 'xlsx'))).toContain(
      'The table is needed and is not there',
    );
  });
  test('hidden sheets and rows count, and are told', async () => {
    const bytes = await patchedBook('xlsx', bookOf(), [
      ['xl/workbook.xml', 'name="routes"', 'name="routes" state="hidden"'],
      [SHEET2, '<row r="3"', '<row r="3" hidden="1"'],
    ]);
    expect(said(await read(bytes))).toBe(`cell.xlsx, routes  warning BOK06
  The sheet is hidden and is read all the same.
  Fix: Show it, or rename it to leave it out.

cell.xlsx, routes  warning BOK06
  The hidden row 3 is read like the others.
  Fix: Show them, or take out those that do not count.

2 warnings in 1 file.
`);
  });
  test('macros and links to other workbooks are neither run nor fetched', async () => {
    const bytes = await patchedBook('xlsx', bookOf(), [
      ['xl/vbaProject.bin', null, 'x'],
      ['xl/externalLinks/externalLink1.xml', null, '<externalLink/>'],
    ]);
    const found = await read(bytes);
    expect(said(found)).toBe('');
    expect(notes(found)).toEqual([
      'cell.xlsx: macros = nothing; no macro of the file is run',
      'cell.xlsx: links to other workbooks = the values that are stored in this file; nothing is fetched',
    ]);
  });
});

describe('merged cells', () => {
  const bare = [routes[0]!, routes[1]!, [null, ...routes[2]!.slice(1)], [null, ...routes[3]!.slice(1)]];
  const merged = (ref: string) =>
    patchedBook('xlsx', bookOf({ routes: bare }), [
      [SHEET2, '</sheetData>', `</sheetData><mergeCells count="1"><mergeCell ref="${ref}"/></mergeCells>`],
    ]);
  test('a name over several rows is the same in each', async () => {
    const found = await read(await merged('A2:A4'));
    expect(said(found)).toBe('');
    expect(found.cell?.routes).toHaveLength(1);
    expect(found.readAs).toMatchObject([{ found: 'cap', taken: 'the same in each row down to A4' }]);
  });
  test('a number over several rows stands in the first', async () => {
    const rows = [routes[0]!, routes[1]!, routes[2]!, ['cap', 3, 'out', null, 3]];
    const bytes = await patchedBook('xlsx', bookOf({ routes: rows }), [
      [SHEET2, '</sheetData>', '</sheetData><mergeCells count="1"><mergeCell ref="D3:D4"/></mergeCells>'],
    ]);
    expect(said(await read(bytes))).toBe(`cell.xlsx, routes!D3, column cycle_s  warning BOK04
  The cells down to D4 are merged, so that only the first has the value and the others are read as empty.
  Fix: Split the merged cells and write a value in each row that has one.

1 warning in 1 file.
`);
  });
});

test('complaints speak of sheets and rows', async () => {
  const rows = [...routes.slice(0, 2), ['cap', 2, 'mil', 60, 5, 4], routes[3]!];
  expect(
    said(await readBook(bookOf({ routes: rows }), 'ods')),
  ).toContain(`cell.ods, routes!C3, column stations  error VAL09
  Found \`mil\`, expected a station of the sheet \`stations\`.`);
});
