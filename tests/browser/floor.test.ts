// The floor: places in the tables, the smallest circle, the robot at a moment of its cycle.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { distanceM, leastCircle } from '../../src/browser/floor/least-circle.js';
import { placedStations, snapped, withPlace, withPlacesForAll } from '../../src/browser/floor/positions.js';
import { robotAt } from '../../src/browser/floor/robot-at.js';
import { toMetres, toPx, viewOf } from '../../src/browser/floor/view.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { readCell } from '../../src/tables/read-cell.js';

const tables = firstCell({ cyclesS: [100, 80], loadS: 5, unloadS: 4 });
const metre = fc.double({ min: -20, max: 20, noNaN: true });
const spots = fc.array(fc.record({ xM: metre, yM: metre }), { minLength: 1, maxLength: 8 });

test('hand-worked circles: two points across, the corners of a 3-4-5 triangle', () => {
  expect(
    leastCircle([
      { xM: 0, yM: 0 },
      { xM: 2, yM: 0 },
    ]),
  ).toEqual({ xM: 1, yM: 0, radiusM: 1 });
  const corner = leastCircle([
    { xM: 0, yM: 0 },
    { xM: 3, yM: 0 },
    { xM: 0, yM: 4 },
  ])!;
  expect(corner.radiusM).toBeCloseTo(2.5, 12);
});

test('the circle holds every point, and two points on it are as far apart as half a turn needs', () => {
  fc.assert(
    fc.property(spots, (all) => {
      const circle = leastCircle(all)!;
      for (const spot of all) expect(distanceM(circle, spot)).toBeLessThanOrEqual(circle.radiusM + 1e-6);
      // No circle can be smaller than half the longest distance, nor larger than that over the square root of 3 (Jung 1901).
      const longest = Math.max(0, ...all.flatMap((a) => all.map((b) => distanceM(a, b))));
      expect(circle.radiusM).toBeGreaterThanOrEqual(longest / 2 - 1e-6);
      expect(circle.radiusM).toBeLessThanOrEqual(longest / Math.sqrt(3) + 1e-6);
    }),
  );
});

test('pixels and metres go over into one another', () => {
  fc.assert(
    fc.property(spots, fc.double({ min: 0.25, max: 4, noNaN: true }), (all, zoom) => {
      const view = viewOf(all, 600, 400, zoom);
      for (const spot of all) {
        const { x, y } = toPx(view, spot);
        const back = toMetres(view, x, y);
        expect(back.xM).toBeCloseTo(spot.xM, 6);
        expect(back.yM).toBeCloseTo(spot.yM, 6);
      }
    }),
  );
});

test('a place is written into its line, to the millimetre; with semicolons as a decimal comma', () => {
  const line = placedStations(tables)[1]!.line;
  const moved = withPlace(tables, line, { xM: 1.23456, yM: -0 });
  expect(placedStations(moved)[1]!.at).toEqual({ xM: 1.235, yM: 0 });
  const comma = { 'stations.csv': 'station;kind;x_m;y_m\nrack;infeed;1,5;2\nmill;machine;;\n' };
  expect(withPlace(comma, 2, { xM: 0.25, yM: 1 })['stations.csv']).toContain('rack;infeed;0,25;1\n');
  expect(placedStations(withPlacesForAll(comma, 2)).map(({ at }) => at)).toEqual([
    { xM: 1.5, yM: 2 },
    { xM: 0, yM: 2 },
  ]);
});

test('snapping goes to the nearest step, and stays where it is off', () => {
  expect(snapped({ xM: 0.26, yM: -0.24 }, 0.25)).toEqual({ xM: 0.25, yM: -0.25 });
  expect(snapped({ xM: 0.26, yM: 0.24 }, 0)).toEqual({ xM: 0.26, yM: 0.24 });
});

test('at each action of the cycle the robot is at its station, and half way between at half the time of the way', () => {
  const schedule = bestSchedule(readCell(tables)) as ScheduleFound;
  for (const { startS, endS, station, action } of schedule.events) {
    const moment = robotAt(schedule, ((startS + endS) / 2) % schedule.periodS);
    expect([moment.to, moment.share]).toEqual([station, 1]);
    expect(moment.words).toContain(`${action}s`);
  }
  const [first, second] = schedule.order;
  const goS = schedule.events[0]!.endS + first!.toNextS / 2;
  const going = robotAt(schedule, goS % schedule.periodS);
  expect([going.from, going.to]).toEqual([first!.station, second!.station]);
  expect(going.share).toBeCloseTo(0.5, 9);
});
