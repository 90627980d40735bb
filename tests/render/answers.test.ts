// `check` and `points` as text.
import { expect, test } from 'vitest';
import { points } from '../../src/core/io/points.js';
import { checkedCellText } from '../../src/render/cell.js';
import { renderPoints } from '../../src/render/points.js';
import { plainStyle } from '../../src/render/text-style.js';
import { readCell } from '../../src/tables/read-cell.js';
import { soundTables } from '../tables/sound-tables.js';

const cell = readCell(soundTables);

test('check tells what the cell is', () => {
  expect(
    checkedCellText(cell, ['stations.csv', 'routes.csv'], plainStyle),
  ).toBe(`The tables are sound: stations.csv and routes.csv.
One robot with a single gripper; 1 infeed (rack), 2 machines (mill_1, mill_2), 1
bench (gauge), 1 held station (brush) and 1 outfeed (done).
Parts: cap (3 steps between infeed and outfeed).
Shift patterns: two.
Changeovers of 1 machine and 4 cost items are given.
`);
});

test('points without the data sheet of a box say what cannot be said', () => {
  const text = renderPoints(points(cell), plainStyle);
  expect(text).toContain('How many boxes are needed cannot be said without the data sheet of the box.');
  // 24 V, 8 mA, 12 m there and back: one input, no output, no box counted.
  expect(text).toMatch(/^mill_1 +1 +0 +- +0\.01 +0\.03$/m);
});

test('points of no signal at all', () => {
  expect(renderPoints(points({ ...cell, signals: [] }), plainStyle)).toBe(
    'There are no points to count: signals.csv names no signal.\n',
  );
});
