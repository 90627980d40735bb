// A comparison of cells with long names stays short and within the terminal, and names every bottleneck.
import { expect, test } from 'vitest';
import { compareCells } from '../../src/core/compare/compare-cells.js';
import type { Cell, Shift } from '../../src/core/model/cell.js';
import { renderComparison } from '../../src/render/comparison.js';
import { plainStyle } from '../../src/render/text-style.js';
import { unlikeCell } from '../support/unlike-cells.js';

const FOUR = ['machine_1', 'machine_2', 'machine_3', 'machine_4'];

const shift = (pattern: string, endMin: number): Shift => ({
  ...{ pattern, shift: pattern, days: ['Mon', 'Tue'] as const, startMin: 360, endMin, breaks: [] },
  ...{ attended: true, operators: 1, labourPerH: 0 },
});

/** Four machines alike, so that all of them are the bottleneck. */
function fourMachines(): Cell {
  const travel = FOUR.concat('in', 'out').map((_, a, all) => all.map((__, b) => (a === b ? 0 : 2)));
  const each = (s: number): number[] => [0, ...FOUR.map(() => s)];
  const spec = { travel, fetchS: 3, putS: 3, loadS: each(4), unloadS: each(4), cycleS: each(400) };
  const named = JSON.stringify(unlikeCell(spec)).replace(/"m(\d)"/g, '"machine_$1"');
  const shifts = [shift('one shift', 840), shift('two shifts', 1320), shift('day and night', 1740)];
  return { ...(JSON.parse(named) as Cell), shifts };
}

test('three cells with names of 40 letters in at most 25 lines of 80 characters', async () => {
  const cell = fourMachines();
  const names = ['a', 'b', 'c'].map((end) => `milling_cell_of_the_long_hall_in_the_n_${end}`);
  const result = await compareCells(
    names.map((name) => ({ name, cell, dispatch: 'order' })),
    { replications: 2, hours: 8, seed: 1 },
  );
  expect(
    result.cells.map(({ schedule }) => 'order' in schedule && schedule.bottleneck.stations.length),
  ).toEqual([4, 4, 4]);
  const lines = renderComparison(result, [], '', plainStyle).trimEnd().split('\n');
  // Five more: the count of what differs, an assumption, and where there is more.
  expect(lines.length, lines.join('\n')).toBeLessThanOrEqual(20);
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  for (const name of FOUR) expect(lines.join('\n').split(name).length - 1).toBe(3);
});
