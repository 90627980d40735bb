// The program that a command takes when it is told none: no other one makes clearly more in the same week without chance.
import { expect, it } from 'vitest';
import { weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { openSpans } from '../../../src/core/floor/open-spans.js';
import { PROGRAMS } from '../../../src/core/floor/robot.js';
import type { Cell, Shift } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { chosenProgram } from '../../../src/core/shifts/best-program.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { quickTables } from '../../support/quick-shop.js';
import { serialShop } from '../../support/random-shops.js';
import { atSize } from '../../support/size.js';

const day: Shift = {
  ...{ pattern: 'p', shift: 'day', startMin: 360, endMin: 840, breaks: [] },
  ...{ days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], attended: true, operators: 1, labourPerH: 0 },
};

// With these seeds the sequence of a dual gripper brings parts to a machine that is emptied only on the way there.
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
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('periodS' in schedule)) throw new Error(schedule.reason);
  const made = (program: (typeof PROGRAMS)[number]): number =>
    shiftYield(cell, schedule, 'p', { program, losses: false }).partsPerWeek.total!;
  const most = Math.max(...PROGRAMS.map(made));
  expect(made(chosenProgram(cell, schedule, 'p', 'best'))).toBeGreaterThanOrEqual(most * (1 - 1.1e-3));
});

it('no three weeks decide where programs are close and tool changes fall due every few days', () => {
  // Of three weeks the strict sequence makes the most, of nine the one that passes over.
  const cell = readCell(quickTables('as in the starter'));
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('periodS' in schedule)) throw new Error(schedule.reason);
  const made = (program: (typeof PROGRAMS)[number]): number =>
    shiftYield(cell, schedule, 'day and evening', { program, losses: false }).partsPerWeek.total!;
  const most = Math.max(...PROGRAMS.map(made));
  const chosen = chosenProgram(cell, schedule, 'day and evening', 'best');
  expect(made(chosen)).toBeGreaterThanOrEqual(most * (1 - 1.1e-3));
});

it.each(atSize([2], [14, 2]))(
  'seed %i: where nothing stops, passing over makes what the strict sequence makes',
  (seed) => {
    const cell: Cell = { ...serialShop(seed, { machines: 2, hands: 2 }).cell, shifts: [day] };
    const schedule = bestSchedule(cell, { improvements: false });
    if (!('periodS' in schedule)) throw new Error(schedule.reason);
    expect(chosenProgram(cell, schedule, 'p', 'best')).toBe('order');
    const [passing, strict] = (['order', 'strict'] as const).map(
      (program) => shiftYield(cell, schedule, 'p', { program, losses: false }).partsPerWeek.total!,
    );
    expect(Math.abs(passing! - strict!)).toBeLessThan(1e-3 * strict!);
  },
);

it('strict where it is ahead with stops that need nobody, and not where random stops make it wait', () => {
  const { cell: plain } = serialShop(1, { machines: 2, hands: 2 });
  const stop = { name: 'clean', everyH: null, operator: false };
  const stops = [
    { ...stop, station: 'm1', everyParts: 7, minutes: 3 },
    { ...stop, station: 'm2', everyParts: 11, minutes: 2 },
  ];
  const cell: Cell = { ...plain, stops, shifts: [day] };
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('periodS' in schedule)) throw new Error(schedule.reason);
  expect(chosenProgram(cell, schedule, 'p', 'best')).toBe('strict');
  const stopping: Cell = {
    ...cell,
    stations: cell.stations.map((s) => (s.kind === 'machine' ? { ...s, mtbfH: 0.2, mttrMin: 10 } : s)),
  };
  const chosen = chosenProgram(stopping, schedule, 'p', 'best');
  const floor = { openSpans: openSpans(weekCalendar(cell.shifts, 'p'), cell.shifts), order: schedule };
  const shared = { ...floor, replications: 4, losses: false };
  return Promise.all(
    [chosen, 'strict' as const, 'order' as const].map((program) =>
      simulateCell(stopping, { ...shared, program }),
    ),
  ).then((runs) => {
    const [best, ...others] = runs.map((run) => run.partsPerShift.total!.mean);
    for (const other of others) expect(best).toBeGreaterThan(other! * 0.97);
  });
});
