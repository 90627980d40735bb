/** Machines that a shop has already: never advised away, and what there is room for beside them. */
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { sizeCell } from '../../../src/core/size/size-cell.js';
import { sizeSearch } from '../../../src/core/size/size-search.js';
import { deepTest } from '../../support/size.js';
import { cellOf, station, step } from '../shifts/small-cells.js';

const sized = (cell: Cell, more: { maxMachines?: number } = {}) =>
  sizeCell({ cell, sensitivity: false, ...more }, sizeSearch(cell));

/** A lathe and a mill in a row, robot 37% busy: the worked case of README.md. */
const lathesAndMill = cellOf({
  stations: [
    station('rack', 'infeed'),
    station('lathe', 'machine', { readyS: 2, closeS: 2 }),
    station('mill', 'machine', { readyS: 3, closeS: 2 }),
    station('pallet', 'outfeed'),
  ],
  routes: [
    {
      part: 'flange',
      steps: [
        step(1, ['rack'], { unloadS: 5 }),
        step(2, ['lathe'], { cycleS: 95, loadS: 9, unloadS: 7 }),
        step(3, ['mill'], { cycleS: 140, loadS: 11, unloadS: 8 }),
        step(4, ['pallet'], { loadS: 5 }),
      ],
    },
  ],
  robot: { ...cellOf({}).robot, travelS: 4 },
});

describe('a line with a robot that is idle most of the time', () => {
  const { rows, recommended, owned } = sized(lathesAndMill);

  it('has room for one more of each machine, which doubles what it makes', () => {
    expect(owned).toBe(2);
    expect(rows[0]!.partsPerH).toBeCloseTo(3600 / 188, 9);
    // Two lines of 188 s each, served by one robot.
    expect(recommended!.machines).toBe(4);
    expect(rows.at(-1)!.partsPerH).toBeCloseTo((2 * 3600) / 188, 9);
    expect(recommended!.reason).toBe(
      'One robot serves both machines: 19.1 parts an hour, robot busy 37%. The limit is mill, not the robot. Room for one more like mill and one more like lathe: 38.3 parts an hour. More were not tried.',
    );
  });

  it('parts that wait for a full machine are not counted as waiting for the robot', () => {
    for (const row of rows) expect(row.waitBusyPct).toBeLessThanOrEqual(row.waitRobotPct + 1e-9);
    expect(rows[0]!.waitBusyPct).toBeCloseTo(0, 9);
  });
});

/** Independent machines, each with a part of its own. */
const ownParts = (cycles: readonly number[], handS: number, costPerH: number): Cell =>
  cellOf({
    stations: [
      station('in', 'infeed'),
      station('out', 'outfeed'),
      ...cycles.map((_, i) => station(`m${i + 1}`, 'machine', { costPerH })),
    ],
    routes: cycles.map((cycleS, i) => ({
      part: `p${i + 1}`,
      steps: [
        step(1, ['in']),
        step(2, [`m${i + 1}`], { cycleS, loadS: handS, unloadS: handS }),
        step(3, ['out']),
      ],
    })),
    robot: { ...cellOf({}).robot, travelS: 3 },
    parts: cycles.map((_, i) => ({
      part: `p${i + 1}`,
      contribution: 1,
      perShift: null,
      ratio: null,
      yieldPct: 100,
    })),
  });

deepTest('a machine that costs more an hour than it brings stays in the answer, since it is there', () => {
  const dear = ownParts([300, 320, 340], 5, 50);
  const { rows, recommended } = sized(dear);
  expect(rows.map((row) => row.machines).slice(0, 3)).toEqual([1, 2, 3]);
  expect(rows[0]!.contributionPerH).toBeGreaterThan(rows[2]!.contributionPerH!);
  expect(recommended!.machines).toBe(3);
  expect(recommended!.reason).toContain('One robot serves all 3 machines');
});

it('where the robot is the limit, that is said, and no machine more is advised', () => {
  const short = ownParts([20, 25, 30, 35], 15, 0);
  const { recommended } = sized(short);
  expect(recommended!.machines).toBe(4);
  expect(recommended!.reason).toContain('The robot is the limit.');
  expect(recommended!.reason).toContain('more than the highest acceptable 5%');
});

it('rows that make different parts are not compared by parts, nor by the cost of a part', () => {
  const cell = ownParts([200, 100], 5, 10);
  const unpriced = { ...cell, parts: cell.parts.map((part) => ({ ...part, contribution: null })) };
  const { rows, recommended } = sized(unpriced, { maxMachines: 2 });
  expect(rows.map((row) => row.marginalPartsPerH)).toEqual([null, null]);
  const free = sized({ ...unpriced }, { maxMachines: 3 });
  expect(recommended!.machines).toBe(2);
  expect(free.recommended!.measure).toBe('waiting for the robot');
});

it('machines added never give less: eight alike ones and a robot of two hands', () => {
  const names = Array.from({ length: 8 }, (_, i) => `m${i + 1}`);
  const cell = cellOf({
    stations: [
      station('in', 'infeed'),
      station('out', 'outfeed'),
      ...names.map((name) => station(name, 'machine', { readyS: 3, closeS: 2 })),
    ],
    routes: [
      {
        part: 'p',
        steps: [step(1, ['in']), step(2, names, { cycleS: 60, loadS: 25, unloadS: 20 }), step(3, ['out'])],
      },
    ],
    robot: { ...cellOf({}).robot, hands: 2, indexS: 1, travelS: 1 },
  });
  const { rows } = sized(cell);
  for (const [i, row] of rows.slice(1).entries())
    expect(row.partsPerH).toBeGreaterThanOrEqual(rows[i]!.partsPerH - 1e-9);
});
