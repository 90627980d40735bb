// A clock put ahead in the middle of work is found wherever it happens, and never in a log whose clock goes right.
import { beforeAll, describe, expect, test } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { logOf, type ReadLog, readLog, simulatedLog } from '../../support/simulated-log.js';
import { atSize } from '../../support/size.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

/** Two machines for one part each, which fail at times. */
const cell: Cell = cellOf({
  stations: [
    station('rack', 'infeed'),
    { ...station('lathe', 'machine'), readyS: 3, mtbfH: 2, mttrMin: 6 },
    { ...station('mill', 'machine'), readyS: 2, mtbfH: 3, mttrMin: 20 },
    station('done', 'outfeed'),
  ],
  routes: [
    {
      part: 'hub',
      steps: [
        step(1, ['rack'], { unloadS: 5 }),
        step(2, ['lathe'], { cycleS: 95, loadS: 9, unloadS: 7 }),
        step(3, ['done'], { loadS: 4 }),
      ],
    },
    {
      part: 'cap',
      steps: [
        step(1, ['rack'], { unloadS: 5 }),
        step(2, ['mill'], { cycleS: 140, loadS: 8, unloadS: 6 }),
        step(3, ['done'], { loadS: 4 }),
      ],
    },
  ],
  robot: { ...ROBOT, travelS: 4 },
  variation: [
    { station: 'lathe', element: 'cycle', distribution: 'gamma', parameters: [95, 20] },
    { station: '*', element: 'response', distribution: 'exponential', parameters: [6] },
  ],
});

const rows = simulatedLog(cell, { hours: 60, program: 'first', seed: 5 }).trimEnd().split('\n').slice(1);
const HEADER = 'time,station,signal,part';
const timeOf = (row: string): number => Number(row.split(',')[0]);
const moved = (row: string, byS: number): string =>
  [(timeOf(row) + byS).toFixed(3), ...row.split(',').slice(1)].join(',');

test('a log whose clock goes right has none, though its machines fail and its robot waits', () => {
  const { result } = readLog(logOf(rows, HEADER), cell);
  expect(result.stations.map((s) => s.times.stop?.n ?? 0).reduce((a, b) => a + b)).toBeGreaterThan(20);
  expect(result.gaps).toEqual([]);
});

/** Rows before which the robot is on its way and no machine is stopped, so that nothing but the clock can be silent. */
function onTheWay(): number[] {
  let stops = 0;
  return rows.flatMap((row, at) => {
    const signal = row.split(',')[2];
    if (signal === 'stop') stops++;
    if (signal === 'run') stops--;
    return at > 2000 && stops === 0 && signal === 'arrive' ? [at] : [];
  });
}

describe.each([1200, 2400])('put ahead by %i s', (aheadS) => {
  let told: readonly { at: number; result: ReadLog['result'] }[] = [];

  beforeAll(() => {
    // Between the places there are as many rows as a reader would need to get over the one before.
    const places = onTheWay().filter(
      (at, k) => k % 29 === 0 && at < atSize(8000, 16_000, Number.POSITIVE_INFINITY),
    );
    told = places.map((at) => {
      const after = rows.slice(at, at + atSize(2000, 4000, rows.length)).map((row) => moved(row, aheadS));
      return { at, result: readLog(logOf([...rows.slice(0, at), ...after], HEADER), cell).result };
    });
  });

  test('it is reported at its line', () => {
    expect(told.length).toBeGreaterThan(atSize(4, 8, 20));
    for (const { at, result } of told) {
      expect(result.gaps).toMatchObject([{ kind: 'clock ahead', line: at + 2 }]);
      expect(result.warnings.join(' ')).toContain(`At line ${at + 2} the log jumps ahead`);
    }
  });

  test('and no time across it is used', () => {
    for (const { result } of told)
      for (const { times } of result.stations) expect(times.cycle?.max ?? 0).toBeLessThan(400);
  });
});
