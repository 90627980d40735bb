/** Real schedules of mixed cells, run from empty: every rule kept from the first event on, and the period reached. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { orderPlan } from '../../../src/core/shifts/order-plan.js';
import { type RunConditions, type RunEvent, runOrder } from '../../../src/core/shifts/run-order.js';
import { partsInside } from '../../../src/core/shifts/run-state.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { alwaysOpenWeek, WEEK_S, weekCalendar } from '../../../src/core/shifts/week-calendar.js';
import { workClock } from '../../../src/core/shifts/work-clock.js';
import { cases } from '../../support/size.js';
import { cellOf, shift, station, step } from './small-cells.js';

const seconds = (max: number) => fc.integer({ min: 0, max });

const cellArb = fc
  .record({
    hands: fc.constantFrom<1 | 2>(1, 2),
    cycles: fc.array(seconds(150), { minLength: 1, maxLength: 3 }),
    parallel: fc.boolean(),
    batch: fc.constantFrom(1, 1, 2),
    bench: fc.boolean(),
    held: fc.boolean(),
    feedS: fc.constantFrom(0, 0, 45),
    readyS: seconds(9),
    loadS: seconds(15),
    unloadS: seconds(15),
    indexS: seconds(4),
    at: fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 7, maxLength: 7 }),
  })
  .map(mixedCell);

interface Mixed {
  readonly hands: 1 | 2;
  readonly cycles: number[];
  readonly parallel: boolean;
  readonly batch: number;
  readonly bench: boolean;
  readonly held: boolean;
  readonly feedS: number;
  readonly readyS: number;
  readonly loadS: number;
  readonly unloadS: number;
  readonly indexS: number;
  readonly at: number[];
}

function mixedCell(m: Mixed): Cell {
  const machines = m.cycles.map((_, i) => `m${i + 1}`);
  const work = { loadS: m.loadS, unloadS: m.unloadS };
  const steps = [step(1, ['in'], { cycleS: m.feedS, unloadS: 2 })];
  if (m.parallel) steps.push(step(2, machines, { ...work, cycleS: m.cycles[0] }));
  else
    machines.forEach((name, i) => {
      steps.push(step(2 + i, [name], { ...work, cycleS: m.cycles[i], partsPerCycle: i === 0 ? m.batch : 1 }));
    });
  if (m.held) steps.push(step(10, ['brush'], { cycleS: 12, loadS: 1, unloadS: 1 }));
  if (m.bench) steps.push(step(11, ['bench'], { cycleS: 30, loadS: 3, unloadS: 3 }));
  steps.push(step(12, ['out'], { loadS: 2 }));
  const stations = [
    station('in', 'infeed'),
    station('out', 'outfeed'),
    ...machines.map((n, i) =>
      station(n, 'machine', { readyS: m.readyS, capacityParts: i === 0 && !m.parallel ? m.batch : 1 }),
    ),
    ...(m.held ? [station('brush', 'held')] : []),
    ...(m.bench ? [station('bench', 'bench', { capacityParts: 2 })] : []),
  ];
  const travel = stations.flatMap((a, i) =>
    stations.flatMap((b, j) => {
      const emptyS = 2 + Math.abs(m.at[i] - m.at[j]);
      return i === j ? [] : [{ from: a.name, to: b.name, emptyS, loadedS: emptyS + 1 }];
    }),
  );
  return cellOf({
    stations,
    routes: [{ part: 'a', steps }],
    travel,
    robot: { ...cellOf({}).robot, hands: m.hands, indexS: m.indexS },
    parts: [{ part: 'a', contribution: null, perShift: null, ratio: null, yieldPct: 100 }],
    shifts: [shift({})],
  });
}

function scheduleOf(cell: Cell): ScheduleFound | null {
  const found = bestSchedule(cell, { nodeLimit: 1500, improvements: false });
  return 'order' in found ? found : null;
}

const ALWAYS = workClock(alwaysOpenWeek(), { attendedSpeedPct: 100, operator: 'always' });
const conditionsOf = (cell: Cell, more: Partial<RunConditions> = {}): RunConditions => ({
  clock: ALWAYS,
  stops: [],
  racks: cell.stations.map(() => Number.POSITIVE_INFINITY),
  atEnd: 'parts stay',
  ...more,
});

/** Capacities, hands and process times, from the trace alone; parts of a station leave first in, first out. */
function checkRules(cell: Cell, schedule: ScheduleFound, events: readonly RunEvent[]): void {
  const inside = new Map<string, number[]>();
  let held = 0;
  for (const e of events) {
    const { action, station: name, step: number } = schedule.order[e.index];
    const { kind, capacityParts, closeS, readyS } = cell.stations.find((s) => s.name === name)!;
    const at = cell.routes[0].steps.find((s) => s.step === number)!;
    const content = inside.get(name) ?? [];
    if (action === 'pick') {
      held++;
      if (kind === 'infeed') continue;
      // With a batch the first parts wait for its last; their own place is a lower bound of it.
      const placedS = content.shift();
      expect(placedS).toBeDefined();
      expect(e.startS).toBeGreaterThanOrEqual(placedS! + closeS + at.cycleS + readyS - 1e-6);
    } else if (action === 'place') {
      held--;
      if (kind === 'outfeed') continue;
      content.push(e.endS);
      expect(content.length).toBeLessThanOrEqual(capacityParts!);
      inside.set(name, content);
    }
    expect(held).toBeGreaterThanOrEqual(0);
    expect(held).toBeLessThanOrEqual(cell.robot.hands);
  }
}

describe('schedules of mixed cells', () => {
  it('run from empty within every capacity, and settle to their period', () => {
    let ran = 0;
    fc.assert(
      fc.property(cellArb, (cell) => {
        const schedule = scheduleOf(cell);
        if (schedule === null) return;
        ran++;
        const events: RunEvent[] = [];
        const plan = orderPlan(cell, schedule.order);
        runOrder(plan, conditionsOf(cell, { onEvent: (e) => events.push(e) }), 200 * schedule.periodS);
        checkRules(cell, schedule, events);
        const firsts = events.filter((e) => e.index === 0);
        const periodS = (firsts.at(-1)!.startS - firsts.at(-61)!.startS) / 60;
        expect(periodS).toBeCloseTo(schedule.periodS, 5);
      }),
      { numRuns: cases(40) },
    );
    expect(ran).toBeGreaterThan(cases(40) / 2);
  });

  it('keep count over a week of shifts, in both ways of ending a span', () => {
    const clock = workClock(weekCalendar([shift({})], 'p'), { attendedSpeedPct: 100, operator: 'attended' });
    fc.assert(
      fc.property(cellArb, fc.constantFrom('parts stay' as const, 'run out' as const), (cell, atEnd) => {
        const schedule = scheduleOf(cell);
        if (schedule === null) return;
        const plan = orderPlan(cell, schedule.order);
        const { tally, state } = runOrder(plan, conditionsOf(cell, { clock, atEnd }), WEEK_S);
        expect(tally.taken[0]).toBe(tally.out[0] + partsInside(state));
        if (atEnd === 'run out') expect(partsInside(state)).toBe(0);
        expect(tally.out[0]).toBeGreaterThan(0.9 * 40 * schedule.partsPerH.total);
      }),
      { numRuns: cases(25) },
    );
  });

  it('keep count part by part where two parts share the robot', () => {
    const work = { loadS: 6, unloadS: 5 };
    const cell = cellOf({
      stations: [
        station('in', 'infeed', { capacityParts: 60 }),
        station('out', 'outfeed'),
        station('m1', 'machine'),
        station('m2', 'machine'),
      ],
      routes: [
        { part: 'a', steps: [step(1, ['in']), step(2, ['m1'], { ...work, cycleS: 200 }), step(3, ['out'])] },
        { part: 'b', steps: [step(1, ['in']), step(2, ['m2'], { ...work, cycleS: 70 }), step(3, ['out'])] },
      ],
      robot: { ...cellOf({}).robot, travelS: 4 },
      parts: ['a', 'b'].map((part) => ({ part, contribution: 2, perShift: null, ratio: null, yieldPct: 95 })),
      shifts: [shift({}), shift({ shift: 'night', startMin: 840, endMin: 1800, attended: false })],
    });
    const schedule = scheduleOf(cell)!;
    const y = shiftYield(cell, schedule, 'p');
    expect(y.partsPerWeek.a + y.partsPerWeek.b).toBeCloseTo(y.partsPerWeek.total, 9);
    // Both parts keep the proportion in which a period makes them.
    const { a, b } = schedule.partsPerPeriod;
    expect(y.partsPerWeek.b / y.partsPerWeek.a).toBeCloseTo(b / a, 1);
    // At night 60 parts and those in the machines, then the cell waits for the morning.
    expect(y.byShift[1].partsPerShift).toBeGreaterThan(0.95 * 55);
    expect(y.byShift[1].partsPerShift).toBeLessThan(0.95 * 65);
    const lost = y.losses.reduce((sum, l) => sum + l.partsPerWeek, 0);
    expect(y.ceilingPerWeek.total - lost).toBeCloseTo(y.partsPerWeek.total, 6);
  });

  it('yield no more than a little above the ceiling', () => {
    fc.assert(
      fc.property(cellArb, (cell) => {
        const schedule = scheduleOf(cell);
        if (schedule === null) return;
        const y = shiftYield(cell, schedule, 'p');
        // Machines that end in closed time give each span at most what they hold.
        const most = cell.stations.reduce((sum, s) => sum + (s.capacityParts ?? 0), 0) + 4;
        expect(y.partsPerWeek.total).toBeLessThanOrEqual(y.ceilingPerWeek.total + 5 * most);
      }),
      { numRuns: cases(25) },
    );
  });
});
