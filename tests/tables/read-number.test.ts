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

const refusal = (text: string, style = point) => {
  const reading = readNumber(text, style, 'seconds of 0 or more');
  if (reading.ok) throw new Error(`${text} is read as ${reading.value}`);
  return reading.fault;
};

test.each([
  ['0x1F', 'Write the number in decimal digits.'],
  ['-0xff', 'Write the number in decimal digits.'],
  ['+0X10', 'Write the number in decimal digits.'],
  ['a0x10', null],
  ['−5', 'Write the minus sign as a plain `-`.'],
  ['–5', 'Write the minus sign as a plain `-`.'],
  ['x−5', null],
  ['−', null],
  ['1,500', 'Write `1.500` if the comma is a decimal one, `1500` if it parts the thousands.'],
  ['-12,345', 'Write `-12.345` if the comma is a decimal one, `-12345` if it parts the thousands.'],
  ['1 000', 'Leave out the thousands separators: `1000`.'],
  ['-1 000', 'Leave out the thousands separators: `-1000`.'],
  ["1'234.5", 'Leave out the thousands separators: `1234.5`.'],
  ['1.234.567', 'Leave out the thousands separators: `1234567`.'],
  ['1,234,567', 'Leave out the thousands separators: `1234567`.'],
  ['1.234,56', 'Leave out the thousands separators: `1234.56`.'],
  ['1,234.567', 'Leave out the thousands separators: `1234.567`.'],
  ['12 345,678', 'Leave out the thousands separators: `12345.678`.'],
  ['1 2345', null],
  ['12 s', 'Write the number alone, `12`, without a unit.'],
  ['4.5kg', 'Write the number alone, `4.5`, without a unit.'],
  ['-3 m/s²', 'Write the number alone, `-3`, without a unit.'],
  ['1,5 s', 'Write the number alone, `1,5`, without a unit.'],
  ['0x1g', 'Write the number alone, `0`, without a unit.'],
  ['s 12', null],
  ['€4.20', 'Write the amount alone, `4.20`; the currency is named once, in costs.csv.'],
  ['EUR 5', 'Write the amount alone, `5`; the currency is named once, in costs.csv.'],
  ['five', null],
])('%s is refused with the likely cause', (text, help) => {
  const said = `found \`${text}\`, expected seconds of 0 or more`;
  expect(refusal(text)).toEqual({ code: 'VAL02', text: said, help });
});

test('no text of more than 60 characters is a number', () => {
  const [longest, longer] = ['1'.repeat(60), '1'.repeat(61)];
  expect(refusal(longer)).toMatchObject({ code: 'VAL02', help: null });
  expect(refusal(longest)).toEqual({
    code: 'VAL14',
    text: `found \`${longest}\`, expected seconds of 0 or more; a number here is 0 or between 1e-9 and 1000000000000 in size`,
    help: 'Look for a slipped exponent or a wrong unit.',
  });
});

test('the smallest number, and nothing with an exponent', () => {
  expect(readNumber('1e-9', point, 'a number')).toEqual({ ok: true, value: 1e-9 });
  expect(refusal('0.99e-9').code).toBe('VAL14');
  expect(readNumber('0e15', point, 'a number')).toEqual({ ok: true, value: 0 });
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
