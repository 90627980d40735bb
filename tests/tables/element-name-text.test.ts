/** Why the name of a timed element gives no row, in words. */
import { expect, test } from 'vitest';
import { elementNameText } from '../../src/tables/element-name-text.js';
import { readCell } from '../../src/tables/read-cell.js';
import { soundTables } from './sound-tables.js';

const CELL = readCell(soundTables);

test.each([
  [
    'form',
    'deburr',
    'the name gives no row for a table: expected a station and cycle, load, unload, ready, close, repair or response, such as `mill_1 cycle`, or `travel` and two stations.',
  ],
  [
    'station',
    'mil_1',
    'there is no station `mil_1` in stations.csv, so it gives no row. Did you mean `mill_1`?',
  ],
  ['part', 'cup', 'there is no part `cup` in routes.csv, so it gives no row. Did you mean `cap`?'],
  ['part', 'bushing', 'there is no part `bushing` in routes.csv, so it gives no row. Known parts: cap.'],
] as const)('%s %s', (what, name, text) => {
  expect(elementNameText({ what, name }, CELL)).toBe(text);
});

test('without a cell no name is offered', () => {
  expect(elementNameText({ what: 'station', name: 'mill' }, null)).toBe(
    'there is no station `mill` in stations.csv, so it gives no row.',
  );
  expect(elementNameText({ what: 'part', name: 'cap' }, null)).toBe(
    'there is no part `cap` in routes.csv, so it gives no row.',
  );
});
