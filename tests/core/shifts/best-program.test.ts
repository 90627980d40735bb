// The program that a command takes when it is told none: no other one makes clearly more in the same week without chance.
import { expect, it } from 'vitest';
import { PROGRAMS } from '../../../src/core/floor/robot.js';
import type { Cell, Shift } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { chosenProgram } from '../../../src/core/shifts/best-program.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { serialShop } from '../../support/random-shops.js';
import { atSize } from '../../support/size.js';

const day: Shift = {
  ...{ pattern: 'p', shift: 'day', startMin: 360, endMin: 840, breaks: [] },
  ...{ days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], attended: true, operators: 1, labourPerH: 0 },
};

// With these seeds and two grippers, passing over what waits settles far below the sequence itself.
it.each(
  atSize(
    [[14, 2]] as const,
    [
      [14, 2],
      [2, 2],
      [16, 2],
      [3, 1],
      [4, 1],
      [5, 2],
    ] as const,
  ),
)('seed %i, %i hands: none makes clearly more', (seed, hands) => {
  const cell: Cell = { ...serialShop(seed, { machines: 2, hands }).cell, shifts: [day] };
  const schedule = bestSchedule(cell);
  if (!('periodS' in schedule)) throw new Error(schedule.reason);
  const made = (program: (typeof PROGRAMS)[number]): number =>
    shiftYield(cell, schedule, 'p', { program, losses: false }).partsPerWeek.total!;
  const most = Math.max(...PROGRAMS.map(made));
  expect(made(chosenProgram(cell, schedule, 'p', 'best'))).toBeGreaterThanOrEqual(most * (1 - 0.022));
});
