/** When changeovers begin and end on a floor, by hand: two machines, one person from 0 to 100 of each 200 s. */
import { describe, expect, it } from 'vitest';
import { type ChangeoverRow, Changeovers } from '../../../src/core/floor/changeovers.js';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { crewClock } from '../../../src/core/floor/crew-clock.js';
import { EventClock } from '../../../src/core/floor/event-clock.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const NEVER = Number.POSITIVE_INFINITY;
const [LATHE, MILL] = [1, 2];
/** Timers of changeovers begin at 4. */
const FIRST = 4;

const row = (at: string, dueS: readonly number[], more: Partial<ChangeoverRow> = {}): ChangeoverRow => ({
  ...{ station: at, workS: 30, stopS: 20, people: 1, dueS },
  ...more,
});

function shop(rows: readonly ChangeoverRow[], operators = 1) {
  const cell = compileCell(
    cellOf({
      stations: [
        station('rack', 'infeed'),
        station('lathe', 'machine'),
        station('mill', 'machine'),
        station('good', 'outfeed'),
      ],
      routes: [
        {
          part: 'pin',
          steps: [
            step(1, ['rack']),
            step(2, ['lathe'], { cycleS: 9 }),
            step(3, ['mill'], { cycleS: 9 }),
            step(4, ['good']),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 1 },
    }),
  );
  const calendar = openCalendar([
    { startS: 0, endS: 100, attended: true, operators, weekS: 200 },
    { startS: 100, endS: 200, attended: false },
  ]);
  const clock = new EventClock(8);
  const full = new Set<number>();
  const told: (readonly [number, boolean])[] = [];
  const changeovers = new Changeovers(cell, rows, crewClock(calendar), clock, FIRST, {
    isEmpty: (s) => !full.has(s),
    stop: (s, stopped) => told.push([s, stopped]),
  });
  const timers = () => [...clock.times.subarray(FIRST, FIRST + rows.length)];
  return { changeovers, full, told, timers };
}

describe('a changeover', () => {
  it('begins when it is due and somebody is there, stops the machine, and lets it run again', () => {
    const { changeovers, told, timers } = shop([row('mill', [50, 150])]);
    expect([changeovers.any, timers(), changeovers.nextS()]).toEqual([true, [50], 50]);
    changeovers.onTimer(0, 50);
    expect([told, timers(), changeovers.nextS()]).toEqual([[[MILL, true]], [70], -NEVER]);
    expect(changeovers.done).toEqual([{ row: 0, people: 1, startS: 50, runsAgainS: 70, endS: 80 }]);
    changeovers.onTimer(0, 70);
    // The next falls due at 150, while nobody is there: on the next day.
    expect([told[1], timers(), changeovers.nextS()]).toEqual([[MILL, false], [200], 200]);
    changeovers.onTimer(0, 200);
    changeovers.onTimer(0, 220);
    expect([timers(), changeovers.nextS(), changeovers.done.length]).toEqual([[NEVER], NEVER, 2]);
  });

  it('is done before people leave, or the next day', () => {
    expect(shop([row('mill', [70])]).timers()).toEqual([70]);
    expect(shop([row('mill', [71])]).timers()).toEqual([200]);
  });

  it('waits until the machine is empty', () => {
    const { changeovers, full, told, timers } = shop([row('mill', [50])]);
    full.add(MILL);
    changeovers.onTimer(0, 50);
    expect([told, timers(), changeovers.nextS()]).toEqual([[], [NEVER], 50]);
    changeovers.emptied(LATHE, 55);
    changeovers.emptied(MILL, 56);
    expect(told).toEqual([]);
    full.delete(MILL);
    changeovers.emptied(LATHE, 58);
    expect(told).toEqual([]);
    changeovers.emptied(MILL, 60);
    expect([told, timers()]).toEqual([[[MILL, true]], [80]]);
  });

  it('that comes too late for the day is begun on the next', () => {
    const { changeovers, full, told, timers } = shop([row('mill', [50])]);
    full.add(MILL);
    changeovers.onTimer(0, 50);
    full.delete(MILL);
    changeovers.emptied(MILL, 80);
    expect([told, timers(), changeovers.nextS()]).toEqual([[], [200], 200]);
    changeovers.onTimer(0, 200);
    expect(changeovers.done[0]).toMatchObject({ startS: 200, runsAgainS: 220, endS: 230 });
  });

  it('waits for the person at another one', () => {
    const rows = [row('lathe', [10]), row('mill', [15])];
    const { changeovers, timers } = shop(rows);
    expect(timers()).toEqual([10, 15]);
    changeovers.onTimer(0, 10);
    // At work to 40, though the lathe runs again from 30 on.
    expect([timers(), changeovers.nextS()]).toEqual([[30, 40], -NEVER]);
    const two = shop(rows, 2);
    two.changeovers.onTimer(0, 10);
    expect(two.timers()).toEqual([30, 15]);
    const both = shop([row('lathe', [10]), row('mill', [15], { people: 2 })], 2);
    both.changeovers.onTimer(0, 10);
    expect(both.timers()).toEqual([30, 40]);
    expect(both.changeovers.done[0]!.people).toBe(1);
  });

  it('of two at one machine the second waits for the first', () => {
    const { changeovers, timers, told } = shop([
      row('mill', [10]),
      row('mill', [12], { workS: 5, stopS: 5 }),
    ]);
    changeovers.onTimer(0, 10);
    expect(timers()).toEqual([30, 40]);
    changeovers.onTimer(0, 30);
    changeovers.onTimer(1, 40);
    expect(told).toEqual([
      [MILL, true],
      [MILL, false],
      [MILL, true],
    ]);
  });
});

describe('a machine before its changeover', () => {
  it('takes a part that is done before it can begin', () => {
    const { changeovers, timers } = shop([row('mill', [50])]);
    expect([changeovers.holdsBack(MILL, 20, 49), changeovers.holdsBack(LATHE, 20, 90), timers()]).toEqual([
      false,
      false,
      [50],
    ]);
    expect(changeovers.holdsBack(MILL, 20, 50)).toBe(true);
    // Held back it stands empty, so the work may begin at once.
    expect(timers()).toEqual([20]);
    expect(changeovers.holdsBack(MILL, 21, 30)).toBe(true);
  });

  it('takes one while people are busy elsewhere, and finds out anew when they will be free', () => {
    const { changeovers, timers } = shop([
      row('lathe', [10], { workS: 60 }),
      row('mill', [15], { workS: 50 }),
    ]);
    changeovers.onTimer(0, 10);
    // The person is at the lathe to 70; 50 s more are not left on that day.
    expect(timers()).toEqual([30, 200]);
    expect([changeovers.holdsBack(MILL, 20, 199), changeovers.holdsBack(LATHE, 20, 21)]).toEqual([
      false,
      true,
    ]);
    // A part that would be in work at 200 is held back; the earliest start from now on is then still 200.
    expect([changeovers.holdsBack(MILL, 20, 200), timers()]).toEqual([true, [30, 200]]);
  });

  it('takes parts while it would wait for people anyway', () => {
    const { changeovers, timers } = shop([row('mill', [90])]);
    // Due at 90, begun at 200; seen from 120 on, the next start is 200 as well.
    expect([timers(), changeovers.holdsBack(MILL, 120, 199), changeovers.holdsBack(MILL, 120, 201)]).toEqual([
      [200],
      false,
      true,
    ]);
  });
});

it('moments are told apart by the state of each row and by how many are done', () => {
  const { changeovers, full } = shop([row('mill', [50]), row('lathe', [60])]);
  const values = () => {
    const found: number[] = [];
    changeovers.signature((v) => found.push(v));
    return found;
  };
  expect(values()).toEqual([0, 0, 0]);
  full.add(MILL);
  changeovers.onTimer(0, 50);
  expect(values()).toEqual([1, 0, 0]);
  full.delete(MILL);
  changeovers.emptied(MILL, 55);
  expect(values()).toEqual([2, 0, 1]);
  changeovers.onTimer(0, 75);
  expect(values()).toEqual([0, 0, 1]);
  expect(shop([]).changeovers.any).toBe(false);
  expect(shop([]).changeovers.nextS()).toBe(NEVER);
});
