/** Running the cell empty before it closes, where an order ties the parts of all rounds together. */
import { expect, it } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { cellOf, identicalCell, shift, station, step } from './small-cells.js';

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

it('each shift then begins with an empty cell, and makes as many parts as the first', () => {
  // One hand goes round in 31.5 s, an oven of three places works for 37 s and a part may wait 3 s there: two are inside, but
  // for the first round after the cell was empty.
  const [minutes, roundS] = [480, 31.5];
  const way = (from: string, to: string, s: number) => [
    { from, to, emptyS: s, loadedS: s },
    { from: to, to: from, emptyS: s, loadedS: s },
  ];
  const cell = cellOf({
    stations: [
      station('in', 'infeed'),
      station('oven', 'bench', { capacityParts: 3 }),
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'p',
        steps: [
          step(1, ['in'], { unloadS: 2 }),
          step(2, ['oven'], { cycleS: 37, loadS: 1, unloadS: 1, maxWaitS: 3 }),
          step(3, ['out'], { loadS: 3 }),
        ],
      },
    ],
    travel: [...way('in', 'oven', 8), ...way('oven', 'out', 7), ...way('out', 'in', 4)],
    shifts: [shift({ startMin: 360, endMin: 360 + minutes })],
  });
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) throw new Error(schedule.status);
  expect(schedule.periodS).toBe(roundS);
  for (const program of ['strict', 'order'] as const) {
    const week = shiftYield(cell, schedule, 'p', { program, atEnd: 'run out' });
    const most = Math.floor((minutes * 60) / roundS);
    // One round is lost while the oven fills, one or two at the end while it empties.
    for (const { p10, p50 } of week.byShift) {
      expect(p10).toBe(p50);
      expect(p50, program).toBeGreaterThanOrEqual(most - 3);
      expect(p50, program).toBeLessThan(most);
    }
    expect(week.partsInside).toBe(0);
  }
});
