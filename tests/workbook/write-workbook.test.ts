// A workbook written is read back with its values, formulas' results, kinds and places; the same data give the same bytes.
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { openFormula } from '../../src/workbook/ods-writer.js';
import { readGrids } from '../../src/workbook/read-grids.js';
import type { Workbook } from '../../src/workbook/workbook.js';
import { workbookBytes } from '../../src/workbook/write-workbook.js';
import { numberFormatCode } from '../../src/workbook/xlsx.js';

const book: Workbook = {
  title: 'Cost <case> & more',
  names: { price: 'inputs!$B$2' },
  sheets: [
    {
      name: 'inputs',
      frozenRows: 1,
      widths: [20, 12],
      rows: [
        [
          { value: 'item', look: 'heading' },
          { value: 'value', look: 'heading', note: 'a <note>\nof two lines' },
        ],
        ['box "price"  & more', { value: 900.5, format: { digits: 2, unit: 'EUR' }, look: 'input' }],
        ['=1+1', { value: 0.125, format: { digits: 1, percent: true } }],
        [null, { value: 1801, formula: 'SUM(price,B2)', format: { digits: 0 } }],
        [true, { value: 'yes', formula: 'IF(B2>1,"yes, it is","no")' }],
      ],
      choices: [{ column: 0, fromRow: 1, toRow: 9, words: ['box_price', 'box "amps"'] }],
    },
    {
      name: 'two words',
      rows: [['long'], [{ value: 1801, formula: "inputs!B4+'two words'!A3" }], [0]],
      choices: [
        { column: 0, fromRow: 1, toRow: 3, words: Array.from({ length: 60 }, (_, i) => `a long item ${i}`) },
      ],
    },
  ],
};

describe.each(['xlsx', 'ods'] as const)('%s', (kind) => {
  test('gives back what was written', async () => {
    const read = await readGrids(await workbookBytes(book, kind), kind, () => true);
    expect(read.names.slice(0, 2)).toEqual(['inputs', 'two words']);
    const rows = [...read.grids[0]!.rows].map(([r, row]) => [r, [...row]]);
    expect(rows).toEqual([
      [
        0,
        [
          [0, { kind: 'text', text: 'item' }],
          [1, { kind: 'text', text: 'value' }],
        ],
      ],
      [
        1,
        [
          [0, { kind: 'text', text: 'box "price"  & more' }],
          [1, { kind: 'number', value: 900.5, isPercent: false }],
        ],
      ],
      [
        2,
        [
          [0, { kind: 'text', text: '=1+1' }],
          [1, { kind: 'number', value: 0.125, isPercent: true }],
        ],
      ],
      [3, [[1, { kind: 'number', value: 1801, isPercent: false }]]],
      [
        4,
        [
          [0, { kind: 'boolean', value: true }],
          [1, { kind: 'text', text: 'yes' }],
        ],
      ],
    ]);
  });

  test('gives the same bytes at any time', async () => {
    const first = await workbookBytes(book, kind);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(Buffer.from(await workbookBytes(book, kind)).equals(Buffer.from(first))).toBe(true);
  });

  test('refuses a figure that is not finite', async () => {
    const sheets = [{ name: 'a', rows: [[{ value: Number.NaN }]] }];
    await expect(workbookBytes({ title: '', sheets }, kind)).rejects.toThrow(RangeError);
  });
});

test('.xlsx keeps long choices on a sheet of their own', async () => {
  const parts = unzipSync(await workbookBytes(book, 'xlsx'));
  expect(strFromU8(parts['xl/workbook.xml']!)).toContain('name="lists"');
  expect(strFromU8(parts['xl/worksheets/sheet2.xml']!)).toContain('<formula1>lists!$A$1:$A$60</formula1>');
});

test('.ods holds notes, choices, frozen rows and names', async () => {
  const parts = unzipSync(await workbookBytes(book, 'ods'));
  const content = strFromU8(parts['content.xml']!);
  expect(content).toContain(
    '<office:annotation><text:p>a &lt;note&gt;</text:p><text:p>of two lines</text:p></office:annotation>',
  );
  expect(content).toContain(
    'of:cell-content-is-in-list(&quot;box_price&quot;;&quot;box &quot;&quot;amps&quot;&quot;&quot;)',
  );
  expect(content).toContain('table:cell-range-address="$inputs.$B$2"');
  expect(strFromU8(parts['settings.xml']!)).toContain('"VerticalSplitPosition" config:type="int">1<');
});

test.each([
  ['SUM(B2:B9,inputs!$C$3)', 'of:=SUM([.B2:.B9];[$inputs.$C$3])'],
  ["'two words'!A3*LOG10(2)", "of:=[$'two words'.A3]*LOG10(2)"],
  ['IF(A1>0,"a, B2","")', 'of:=IF([.A1]>0;"a, B2";"")'],
  ['price*2', 'of:=price*2'],
])('the formula %s in .ods', (formula, expected) => {
  expect(openFormula(formula)).toBe(expected);
});

test('number formats', () => {
  expect(numberFormatCode({ digits: 2, unit: 'EUR' })).toBe('#,##0.00 "EUR"');
  expect(numberFormatCode({ digits: 0 })).toBe('#,##0');
  expect(numberFormatCode({ digits: 1, percent: true })).toBe('#,##0.0%');
});

test('a row of wrapped text in .xlsx is as high as its lines', async () => {
  const text = 'ten signs '.repeat(5);
  const rows = [['short'], [{ value: text, look: 'wrapped' as const }]];
  const bytes = await workbookBytes({ title: '', sheets: [{ name: 'a', widths: [20], rows }] }, 'xlsx');
  const xml = strFromU8(unzipSync(bytes)['xl/worksheets/sheet1.xml']!);
  expect(xml).toMatch(/<row r="1">/);
  expect(xml).toMatch(/<row r="2"[^>]* ht="45"/);
});
