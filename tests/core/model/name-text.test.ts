/** Names in sentences. */
import { expect, test } from 'vitest';
import { amountOf, nameText } from '../../../src/core/model/name-text.js';

test.each([
  ['cap', 'cap', '4 cap'],
  ['m4', 'm4', '4 m4'],
  ['3', '"3"', '4 × "3"'],
  ['-3', '"-3"', '4 × "-3"'],
  ['4711-A', '"4711-A"', '4 × "4711-A"'],
  ['-x', '-x', '4 -x'],
])('a name that begins like a number is set apart: %s', (name, alone, counted) => {
  expect(nameText(name)).toBe(alone);
  expect(amountOf(4, name)).toBe(counted);
});
