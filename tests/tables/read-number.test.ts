/** Numbers as people write them in cells: what is read, what is refused. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readNumber } from '../../src/tables/read-number.js';

const point = { decimalComma: false };
const comma = { decimalComma: true };

test.each([
  ['12', 12],
  ['+12', 12],
  ['-4', -4],
  ['.5', 0.5],
  ['5.', 5],
  ['007', 7],
  ['1e3', 1000],
  ['1.5E-2', 0.015],
  ['0', 0],
  ['0.000', 0],
  ['1e12', 1e12],
])('%s is %d', (text, value) => {
  expect(readNumber(text, point, 'a number')).toEqual({ ok: true, value });
  expect(readNumber(text, comma, 'a number')).toEqual({ ok: true, value });
});

test('minus nothing is nothing', () => {
  expect(readNumber('-0', point, 'a number')).toEqual({ ok: true, value: 0 });
});

test.each([
  ['1,5', 1.5],
  [',5', 0.5],
  ['1,500', 1.5],
  ['-2,25e1', -22.5],
])('with a decimal comma %s is %d', (text, value) => {
  expect(readNumber(text, comma, 'a number')).toEqual({ ok: true, value });
});

test.each([
  ['1,5', 1.5],
  [',5', 0.5],
  ['0,125', 0.125],
  ['1234,5', 1234.5],
])('elsewhere the comma of %s can only be a decimal one', (text, value) => {
  const taken = text.replace(',', '.');
  expect(readNumber(text, point, 'a number')).toEqual({ ok: true, value, taken });
});

test.each(['1,500', '12,345', '123,456'])('elsewhere the comma of %s is asked about', (text) => {
  expect(readNumber(text, point, 'a number')).toMatchObject({
    ok: false,
    fault: { code: 'VAL02', help: expect.stringContaining('if it parts the thousands') },
  });
});

test.each([
  '0x10',
  '0b1',
  '1_000',
  '1 000',
  "1'000",
  '1.000.000',
  'NaN',
  'Infinity',
  '1e',
  'e5',
  '--1',
  '1,2,3',
  '٣',
  '½',
  '12s',
  '1/2',
])('%s is no number', (text) => {
  for (const style of [point, comma])
    expect(readNumber(text, style, 'a number')).toMatchObject({ ok: false, fault: { code: 'VAL02' } });
});

test.each(['1e999', '1e13', '-2e12', '1e-10', '1e-400'])('%s is beyond what can be meant', (text) => {
  expect(readNumber(text, point, 'a number')).toMatchObject({ ok: false, fault: { code: 'VAL14' } });
});

test('every number within the limits comes back from its own spelling', () => {
  const within = fc
    .double({ min: -1e12, max: 1e12, noNaN: true })
    .filter((x) => x === 0 || Math.abs(x) >= 1e-9);
  fc.assert(
    fc.property(within, (x) => {
      const value = x === 0 ? 0 : x;
      expect(readNumber(String(x), point, 'a number')).toEqual({ ok: true, value });
      expect(readNumber(String(x).replace('.', ','), comma, 'a number')).toEqual({ ok: true, value });
    }),
  );
});
