/** Running the cell empty before it closes, where an order ties the parts of all rounds together. */
import { expect, it } from 'vitest';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { identicalCell, shift } from './small-cells.js';

const TIED =
  'The cell cannot be run empty in this sequence, since batches tie the parts of all robot cycles together; parts stay inside.';

it('cannot be done, and that is said; other orders are run empty', () => {
  const { cell, schedule } = identicalCell(
    { machines: 2, cycleS: 100, loadS: 12, unloadS: 10, travelS: 4 },
    { shifts: [shift({})] },
  );
  // Both picks wait for both places, one of them for the batch of a round before.
  const places = [3, 7];
  const order = schedule.order.map((event, i) =>
    event.waitsFor.length === 0
      ? event
      : {
          ...event,
          waitsFor: places.map((placeIndex, k) => ({
            ...event.waitsFor[0]!,
            placeIndex,
            lag: i < 4 || k === 0 ? 1 : 2,
          })),
        },
  );
  const tied = shiftYield(cell, { ...schedule, order }, 'p', { program: 'order', atEnd: 'run out' });
  expect(tied.notes).toContain(TIED);
  expect(tied.losses[0]!.cause).not.toContain('run-out');
  expect(tied.partsPerWeek.total!).toBeGreaterThan(0);
  const free = shiftYield(cell, schedule, 'p', { program: 'strict', atEnd: 'run out' });
  expect(free.notes).not.toContain(TIED);
  expect(free.losses[0]!.cause).toBe('run-out and start-up of each working span');
  expect(free.partsInside).toBe(0);
});
