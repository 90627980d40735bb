// A table in another form of CSV is the same table.
import { expect, test } from 'vitest';
import { CSV_FORMS } from '../../src/core/model/csv-form.js';
import { inCsvForm } from '../../src/tables/in-csv-form.js';

const plain = '# a, b; c 1.5\npart,name,load_s\ncap,"a, b",2.5\n"\'=x",,3\n';
const semicolons = "# a, b; c 1.5\npart;name;load_s\ncap;a, b;2,5\n'=x;;3\n";

test('there and back', () => {
  expect(inCsvForm(plain, CSV_FORMS['semicolon-comma'])).toBe(semicolons);
  expect(inCsvForm(semicolons, CSV_FORMS['comma-point']).replace("'=x", '"\'=x"')).toBe(plain);
  expect(inCsvForm(semicolons, CSV_FORMS['semicolon-point'])).toBe(semicolons.replace('2,5', '2.5'));
});

test('a comma between commas stands for itself, and an empty line stays one', () => {
  expect(inCsvForm('a,b\n\n"1,5",x\n', CSV_FORMS['comma-point'])).toBe('a,b\n\n"1,5",x\n');
});

test('rows become as long as the header', () => {
  expect(inCsvForm('a,b,c\n1\n', CSV_FORMS['comma-point'])).toBe('a,b,c\n1,,\n');
});
