// What the chart is drawn from: the robot's time without gaps, the stations' states, both against the schedule's sums.
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../src/core/model/cell.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { activityChart } from '../../src/render/activity-chart.js';
import { movesOfRound } from '../../src/render/robot-round.js';
import { robotStretches } from '../../src/render/robot-stretches.js';
import { stateAt, stationStretches } from '../../src/render/station-stretches.js';
import { emptyCell, station, step } from '../support/line-cell.js';

const robot = { ...emptyCell.robot, travelS: 2 };

/** Two machines in a row, by hand: 10 s and 30 s of cycle, 1 s to pick, 2 s to place. */
function pair(more: Partial<Cell> = {}, hands: 1 | 2 = 1): ScheduleFound {
  const steps = [
    step(1, 'in', { unloadS: 1 }),
    step(2, 'a', { cycleS: 10, loadS: 2, unloadS: 1 }),
    step(3, 'b', { cycleS: 30, loadS: 2, unloadS: 1 }),
    step(4, 'out', { loadS: 2 }),
  ];
  const stations = [
    station('in', 'infeed'),
    station('a', 'machine'),
    station('b', 'machine'),
    station('out', 'outfeed'),
  ];
  const cell: Cell = {
    ...emptyCell,
    robot: { ...robot, hands },
    stations,
    travel: [],
    routes: [{ part: 'p', steps }],
    ...more,
  };
  const outcome = bestSchedule(cell);
  if (!('order' in outcome)) throw new Error('no schedule');
  return outcome;
}

describe.each([
  ['single gripper', pair()],
  ['two hands', pair({}, 2)],
  [
    'batches of two',
    pair({
      routes: [
        {
          part: 'p',
          steps: [
            step(1, 'in', { unloadS: 1 }),
            step(2, 'a', { cycleS: 60, loadS: 2, unloadS: 1, partsPerCycle: 2 }),
            step(3, 'out', { loadS: 2 }),
          ],
        },
      ],
      stations: [
        station('in', 'infeed'),
        station('a', 'machine', { capacityParts: 2 }),
        station('out', 'outfeed'),
      ],
    }),
  ],
])('%s', (_, schedule) => {
  const stretches = robotStretches(schedule);

  test("the robot's stretches follow one another and fill the period", () => {
    stretches.forEach((s, i) => {
      if (i > 0) expect(s.startS).toBeCloseTo(stretches[i - 1].endS, 6);
    });
    expect(stretches[0].startS).toBeCloseTo(0, 9);
    expect(stretches[stretches.length - 1].endS).toBeCloseTo(schedule.periodS, 6);
  });

  test('its waits sum to the waiting of the schedule', () => {
    const waits = stretches.filter((s) => s.what === 'wait').reduce((sum, s) => sum + s.endS - s.startS, 0);
    expect(waits).toBeCloseTo(schedule.robot.waitS, 6);
    expect(movesOfRound(schedule).reduce((sum, m) => sum + m.waitS, 0)).toBeCloseTo(schedule.robot.waitS, 6);
  });

  test("a station's waiting and work sum to the schedule's, sampled finely", () => {
    for (const share of schedule.stations.filter((s) => s.kind === 'machine')) {
      const bars = stationStretches(schedule, share.station);
      const samples = 20_000;
      const seconds = { working: 0, waiting: 0, robot: 0, filling: 0 };
      for (let i = 0; i < samples; i++) {
        const state = stateAt(bars, ((i + 0.5) / samples) * schedule.periodS, schedule.periodS);
        if (state) seconds[state] += schedule.periodS / samples;
      }
      const isBatch = schedule.stations.length === 1 && schedule.partsPerPeriod.p === 2;
      const parts = isBatch ? 2 : 1;
      expect(Math.abs(parts * seconds.working - share.processingS)).toBeLessThan(0.05);
      if (!isBatch) expect(Math.abs(seconds.waiting - share.waitRobotS)).toBeLessThan(0.05);
      if (isBatch) expect(seconds.filling).toBeGreaterThan(1);
    }
  });

  test('every act has its line in the chart, in order', () => {
    const chart = activityChart(schedule, { colour: false, columns: 80, ascii: true });
    const numbers = [...chart.matchAll(/^ *[\d.,]+ {2} *(\d+) (pick|place|hold) /gm)].map((match) =>
      Number(match[1]),
    );
    expect(numbers).toEqual(schedule.order.map((_event, i) => i + 1));
  });
});

test('two machines by hand: the longer one sets the pace and its bar is full but for the swap', () => {
  const schedule = pair();
  // b: pick 1 + way 2 + place at out 2 + way 2 to a + pick 1 + way 2 + place at b 2 + cycle 30.
  expect(schedule.periodS).toBeCloseTo(42, 9);
  const bars = stationStretches(schedule, 'b');
  const work = bars.filter((s) => s.state === 'working');
  expect(work).toHaveLength(1);
  expect(work[0].endS - work[0].startS).toBeCloseTo(30, 9);
});

test('many stations go into several charts side by side in reach', () => {
  const names = Array.from({ length: 14 }, (_, i) => `machine_with_a_long_name_${i + 1}`);
  const steps = [step(1, 'in'), ...names.map((name, i) => step(i + 2, name, { cycleS: 5 })), step(16, 'out')];
  const stations = [
    station('in', 'infeed'),
    ...names.map((name) => station(name, 'machine')),
    station('out', 'outfeed'),
  ];
  const cell: Cell = { ...emptyCell, robot, stations, travel: [], routes: [{ part: 'p', steps }] };
  const outcome = bestSchedule(cell, { nodeLimit: 2000, improvements: false });
  if (!('order' in outcome)) throw new Error('no schedule');
  const chart = activityChart(outcome, { colour: false, columns: 80, ascii: false });
  expect(chart.match(/^time s/gm)).toHaveLength(2);
  // Names are cut in the middle, never replaced, and told apart within a chart.
  for (const heading of chart.match(/^time s.*$/gm)!) expect(new Set(heading.match(/ma~\d/g)).size).toBe(7);
  expect(Math.max(...chart.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
});
