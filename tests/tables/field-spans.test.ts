// Where the cells of a record stand in its text, counted by hand: the characters of each text are numbered from 0.
import { expect, test } from 'vitest';
import { scanRecord, spanText } from '../../src/tables/field-spans.js';

const plain = (start: number, end: number) => ({ start, end, isQuoted: false });
const quoted = (start: number, end: number) => ({ start, end, isQuoted: true });

test.each([
  ['cap,1', [plain(0, 3), plain(4, 5)]],
  ['', [plain(0, 0)]],
  ['cap,', [plain(0, 3), plain(4, 4)]],
  ['  cap , a b', [plain(2, 5), plain(8, 11)]],
  [' ,\t', [plain(1, 1), plain(3, 3)]],
  // Marks count only where a cell begins with one.
  ['a "b",c', [plain(0, 5), plain(6, 7)]],
  ['"a,b",c', [quoted(1, 4), plain(6, 7)]],
  ['c, "a" ', [plain(0, 1), quoted(4, 5)]],
  ['\t"a"\t,\u00a0"b"\u00a0', [quoted(2, 3), quoted(8, 9)]],
  ['"",""""', [quoted(1, 1), quoted(4, 6)]],
  ['"a""b","c"', [quoted(1, 5), quoted(8, 9)]],
])('%j is whole', (text, spans) => {
  expect(scanRecord(text, ',')).toEqual({ spans, state: 'whole', faultAt: -1 });
});

test('the sign between the cells is the one that is given', () => {
  const spans = [plain(0, 3), quoted(5, 8), plain(10, 11)];
  expect(scanRecord('1,5;"a;b";c', ';')).toEqual({ spans, state: 'whole', faultAt: -1 });
});

test.each([
  ['"a', [], 0],
  ['"a""', [], 0],
  ['b, "a', [plain(0, 1)], 3],
  ['"b","', [quoted(1, 2)], 4],
])('%j is open from its last cell on', (text, spans, faultAt) => {
  expect(scanRecord(text, ',')).toEqual({ spans, state: 'open', faultAt });
});

test.each([
  ['"a"b', [quoted(1, 2)], 3],
  ['c,"a" ;,d', [plain(0, 1), quoted(3, 4)], 6],
])('%j has text after a closing mark', (text, spans, faultAt) => {
  expect(scanRecord(text, ',')).toEqual({ spans, state: 'fault', faultAt });
});

test('a value has its quotation marks once, and only those that were doubled inside others', () => {
  const text = 'a ""b"", "c ""d""", ""';
  expect(scanRecord(text, ',').spans.map((span) => spanText(text, span))).toEqual(['a ""b""', 'c "d"', '']);
});
