// Cells as they are written: numbers with the decimal mark of the form, texts in quotation marks only where a reader would
// part them, an apostrophe before what a spreadsheet would run (OWASP, "CSV Injection").
import { describe, expect, it } from 'vitest';
import { CSV_FORMS } from '../../src/core/model/csv-form.js';
import { quotedCell, tableText } from '../../src/tables/table-text.js';

describe('rows of a table', () => {
  it('are lines that end, with commas and decimal points unless another form is asked for', () => {
    const rows = [
      ['part', 'load_s'],
      ['a;b', '1.5'],
    ];
    expect(tableText(rows)).toBe('part,load_s\na;b,1.5\n');
    expect(tableText(rows, CSV_FORMS['semicolon-comma'])).toBe('part;load_s\n"a;b";1,5\n');
    expect(tableText([])).toBe('');
  });

  it.each([
    ['12.25', '12,25'],
    ['-2.5', '-2,5'],
    ['.5', ',5'],
    ['+1.5', '+1,5'],
    ['1.5e12', '1,5e12'],
    ['1.5E-3', '1,5E-3'],
    ['1.5e+3', '1,5e+3'],
  ])('have %s as %s where the decimal mark is a comma', (cell, written) => {
    expect(tableText([[cell]], CSV_FORMS['semicolon-comma'])).toBe(`${written}\n`);
  });

  it.each(['v1.5', '1.5x', '1.2.3', 'x.5', '1.', '1.x', '1.5e', '1.5ex', 'a.b', '15'])(
    'leave %s as it is',
    (cell) => {
      expect(tableText([[cell]], CSV_FORMS['semicolon-comma'])).toBe(`${cell}\n`);
    },
  );
});

describe('a cell', () => {
  it.each(['-', '-5', '+12', '-1.25', '-1e5', '-1e+50', '-1.5e-12', '+50%', '-0.5%'])(
    '%s runs as nothing',
    (cell) => {
      expect(quotedCell(cell, ';')).toBe(cell);
    },
  );

  it('with a decimal comma is a number too', () => {
    expect(quotedCell('-1,25', ';')).toBe('-1,25');
    expect(quotedCell('-1,25', ',')).toBe('"-1,25"');
  });

  it.each(['=1', '@a', '--', '-x5', '-5x', '=-5', '-5=1', '-1x5', '-1.x', '-1ex', '-1e5x', '-1e', '+5%%'])(
    '%s is kept from running',
    (cell) => {
      expect(quotedCell(cell, ',')).toBe(`'${cell}`);
    },
  );

  it.each([
    ['plain text', 'plain text'],
    ['a,b', '"a,b"'],
    ['a;b', 'a;b'],
    ['say "go"', '"say ""go"""'],
    ['one\ntwo', '"one\ntwo"'],
    ['#a', '"#a"'],
  ])('%j is written %j', (cell, written) => {
    expect(quotedCell(cell, ',')).toBe(written);
  });
});
