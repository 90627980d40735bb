// What is written takes the form of the tables that were read, and is read back to the same cells.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CSV_FORMS } from '../../src/core/model/csv-form.js';
import { complaintList } from '../../src/tables/complaint-list.js';
import { csvFormOf } from '../../src/tables/csv-form-of.js';
import { readName } from '../../src/tables/name-column.js';
import { readNumber } from '../../src/tables/read-number.js';
import { splitRecords } from '../../src/tables/split-records.js';
import { tableText } from '../../src/tables/table-text.js';

const plain = 'station,x_m\nmill,1.5\n';

test.each([
  ['no table', [], 'comma-point'],
  ['commas', [plain], 'comma-point'],
  ['semicolons and decimal commas', ['# note; a,b\nstation;x_m\nmill;1,5\n'], 'semicolon-comma'],
  ['semicolons and points', ['station;x_m\r\nmill;1.5\r\n'], 'semicolon-point'],
  ['semicolons and whole numbers', ['station;x_m\nmill;1\n'], 'semicolon-comma'],
  ['points in one, commas in another', ['station;x_m\nmill;1.5\n', 'a;b\n1,5;2\n'], 'semicolon-comma'],
  ['most have semicolons', [plain, 'a;b\n1;2\n', 'a;b\n1,5;2\n'], 'semicolon-comma'],
  ['as many of each', [plain, 'a;b\n1;2\n'], 'comma-point'],
  ['tables without a row do not count', ['', '# a, b', ' \n', 'a;b\n1,5;2\n'], 'semicolon-comma'],
  ['blank lines and comments before the header', [' \n  # x, y\na;b\n1;2\n'], 'semicolon-comma'],
  ['a # in a header is no comment', ['a#;b\n', 'c;no. #\n', plain], 'semicolon-comma'],
  ['a time list is no number', ['station;a\nmill;2.3|2.4\n'], 'semicolon-comma'],
] as const)('%s', (_what, texts, form) => {
  expect(csvFormOf(texts)).toEqual(CSV_FORMS[form]);
});

test('names that would run, and numbers, come back as they were, in every form', () => {
  const sign = fc.constantFrom('=', '+', '-', '@', "'", '"', ',', ';', '.', ' ', '#', 'a', '1');
  const name = fc
    .string({ unit: sign, minLength: 1, maxLength: 6 })
    .map((text) => text.trim())
    .filter((text) => readName(text).ok && text !== '-' && !/^[+-]?[\d.,]+$/.test(text) && text !== '');
  const number = fc.integer({ min: -999_999, max: 999_999 }).map((n) => n / 1000);
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(CSV_FORMS)),
      fc.array(fc.tuple(name, number)),
      (form, rows) => {
        const text = tableText([['station', 'x_m'], ...rows.map(([n, x]) => [n, String(x)])], form);
        const base = {
          list: complaintList(),
          file: 't.csv',
          lines: text.split('\n'),
          delimiter: form.separator,
        };
        const read = splitRecords(base, 0).rows.slice(1);
        const style = { decimalComma: form.decimal === ',' };
        expect(read.map(({ cells: [n, x] }) => [n, readNumber(x!, style, 'a number')])).toEqual(
          rows.map(([n, x]) => [n, { ok: true, value: x }]),
        );
      },
    ),
  );
});
