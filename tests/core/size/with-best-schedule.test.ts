/** Sizing with the real search for the best order. */
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { sizeCell } from '../../../src/core/size/size-cell.js';
import { cellOf, station, step } from '../shifts/small-cells.js';

const solve = (cell: Cell) => bestSchedule(cell, { nodeLimit: 20_000, improvements: false });

describe('identical machines', () => {
  it('reach the synchronous round', () => {
    const figures = {
      cycleS: 240,
      loadS: 12,
      unloadS: 10,
      travelS: 4,
      contributionPerPart: 1,
      machineCostPerH: 9,
    };
    const r = sizeCell({ identical: figures, maxMachines: 4, sensitivity: false }, solve);
    expect(r.rows).toHaveLength(4);
    for (const row of r.rows) expect(row.partsPerH).toBeCloseTo((3600 * row.machines) / 274, 4);
    expect(r.recommended!.machines).toBe(4);
  });

  it('Tompkins et al.: 13.75 a part with four machines, 16.20 with five', () => {
    const figures = {
      cycleS: 1200,
      loadS: 60,
      unloadS: 60,
      travelS: 60,
      robotCostPerH: 12,
      machineCostPerH: 30,
    };
    const r = sizeCell({ identical: figures, maxMachines: 5, sensitivity: false }, solve);
    expect(r.rows[3].costPerPart).toBeCloseTo(13.75, 4);
    expect(r.rows[4].costPerPart).toBeCloseTo(16.2, 4);
    expect(r.recommended!.machines).toBe(4);
  });

  it('two hands tend more machines', () => {
    const figures = { cycleS: 100, loadS: 10, unloadS: 10, travelS: 5, hands: 2 as const, indexS: 2 };
    const two = sizeCell({ identical: figures, maxMachines: 3, sensitivity: false }, solve);
    const one = sizeCell({ identical: { ...figures, hands: 1 }, maxMachines: 3, sensitivity: false }, solve);
    two.rows.forEach((row, i) => {
      expect(row.partsPerH).toBeGreaterThan(one.rows[i].partsPerH);
    });
  });
});

it('a serial route grows by copies of its bottleneck', () => {
  const cell = cellOf({
    stations: [
      station('in', 'infeed'),
      station('out', 'outfeed'),
      station('lathe', 'machine'),
      station('mill', 'machine'),
    ],
    routes: [
      {
        part: 'a',
        steps: [
          step(1, ['in']),
          step(2, ['lathe'], { cycleS: 60, loadS: 5, unloadS: 5 }),
          step(3, ['mill'], { cycleS: 180, loadS: 5, unloadS: 5 }),
          step(4, ['out']),
        ],
      },
    ],
    robot: { ...cellOf({}).robot, travelS: 3 },
    parts: [{ part: 'a', contribution: null, perShift: null, ratio: null, yieldPct: 100 }],
  });
  const r = sizeCell({ cell, maxMachines: 3, sensitivity: false }, solve);
  expect(r.way).toBe('by copies');
  expect(r.rows.map((x) => x.machineNames.join('+'))).toEqual(['lathe+mill', 'lathe+mill+mill#2']);
  expect(r.rows[1].partsPerH).toBeGreaterThan(1.6 * r.rows[0].partsPerH);
  expect(r.closedForm).toBeNull();
  expect(r.assumptions.join(' ')).toContain('The closed forms do not apply');
});
