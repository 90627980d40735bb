// The first cell of the three questions: whole, without a complaint, and with the times that were answered.
import { expect, test } from 'vitest';
import { cyclesOf, firstCell, secondsOf } from '../../src/browser/start/first-cell.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';

test.each([[[240]], [[240, 240, 240]], [[240, 180, 300]], [[60, 60, 90, 120]]])(
  'cycles of %j s',
  (cyclesS) => {
    const { cell, complaints } = inspectTables(firstCell({ cyclesS, loadS: 12, unloadS: 10.5 }));
    expect(complaints).toEqual([]);
    expect(cell!.stations.filter(({ kind }) => kind === 'machine')).toHaveLength(cyclesS.length);
    const times = cell!.routes.map(({ steps }) => steps[1]!);
    expect(new Set(times.map(({ cycleS }) => cycleS))).toEqual(new Set(cyclesS));
    for (const { loadS, unloadS } of times) expect([loadS, unloadS]).toEqual([12, 10.5]);
    expect(times.flatMap(({ stations }) => stations)).toHaveLength(cyclesS.length);
  },
);

test('answers that are none are said to be none', () => {
  expect(cyclesOf(3, '240')).toEqual([240, 240, 240]);
  expect(cyclesOf(2, '240 90,5')).toEqual([240, 90.5]);
  expect(cyclesOf(3, '240 180')).toBe('Give one machine cycle for all, or 3 of them; found 2.');
  expect(cyclesOf(0, '240')).toBe('Give a whole number of machines from 1 to 20.');
  expect(cyclesOf(2, 'fast')).toContain('in seconds');
  expect(secondsOf('12,5')).toBe(12.5);
  expect(secondsOf('-1')).toBeNull();
});
