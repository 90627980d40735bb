// One feeder that needs time between two parts serves all parts of the cell, one after another, under every program.
import { describe, expect, it } from 'vitest';
import { isCallRule, PROGRAMS } from '../../../src/core/floor/robot.js';
import type { Cell, Shift } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import { simulatedFloor } from '../../../src/core/simulate/simulated-floor.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const DAY: Shift = {
  pattern: 'day',
  shift: 'early',
  days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
  startMin: 360,
  endMin: 840,
  breaks: [],
  attended: true,
  operators: 1,
  labourPerH: 0,
};

const CELL: Cell = cellOf({
  stations: [
    station('feeder', 'infeed', { readyS: 60 }),
    station('lathe_1', 'machine'),
    station('lathe_2', 'machine'),
    station('pallet', 'outfeed'),
  ],
  routes: ['pin', 'cap'].map((part, i) => ({
    part,
    steps: [
      step(1, ['feeder'], { unloadS: 5 }),
      step(2, [`lathe_${i + 1}`], { cycleS: 20, loadS: 5, unloadS: 5 }),
      step(3, ['pallet'], { loadS: 5 }),
    ],
  })),
  robot: { ...ROBOT, travelS: 2 },
  shifts: [DAY],
});
/** A pick takes 5 s, then the feeder 60 s: one part in 65 s at the most. */
const MOST_PER_SHIFT = (8 * 3600) / 65;
/** A robot that answers calls begins its way of 2 s only when the feeder is ready. */
const BY_CALLS = (8 * 3600) / 67;

describe('a feeder with a pace and two parts', () => {
  const schedule = bestSchedule(CELL, { improvements: false }) as ScheduleFound;

  it.each(PROGRAMS)(
    'gives one part in 65 s under %s, in a simulation and in a week of shifts',
    async (program) => {
      const floor = simulatedFloor(CELL, schedule, null, { program });
      const { partsPerShift } = await simulateCell(CELL, { ...floor, replications: 1, losses: false });
      const week = shiftYield(CELL, schedule, 'day', { program, losses: false });
      for (const made of [partsPerShift.total!.mean, week.partsPerShift.total!]) {
        expect(made).toBeLessThanOrEqual(MOST_PER_SHIFT + 0.5);
        expect(made).toBeGreaterThan((isCallRule(program) ? BY_CALLS : MOST_PER_SHIFT) - 1.5);
      }
    },
  );
});
