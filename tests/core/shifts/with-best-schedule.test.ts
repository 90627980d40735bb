/** Real schedules of mixed cells, run from empty: every rule kept from the first event on, and the period reached. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alwaysOpenWeek, WEEK_S, weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { type FloorJob, floorSetup } from '../../../src/core/floor/floor-job.js';
import { FloorRun } from '../../../src/core/floor/floor-run.js';
import { openSpans } from '../../../src/core/floor/open-spans.js';
import { WorkClock } from '../../../src/core/floor/work-clock.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { orderPlan as recursionPlan } from '../../support/recursion/order-plan.js';
import { type RunConditions, runOrder } from '../../support/recursion/run-order.js';
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

const ALWAYS = new WorkClock(alwaysOpenWeek(), { attendedSpeedPct: 100, operator: 'always' });
const conditionsOf = (cell: Cell, more: Partial<RunConditions> = {}): RunConditions => ({
  clock: ALWAYS,
  stops: [],
  racks: cell.stations.map(() => Number.POSITIVE_INFINITY),
  atEnd: 'parts stay',
  ...more,
});

/** A run of the strict sequence without chance and without racks that end. */
function runOf(cell: Cell, schedule: ScheduleFound, more: Partial<FloorJob> = {}): FloorRun {
  const { compiled, setup } = floorSetup({
    ...{ cell, program: 'strict', order: schedule, openSpans: null, operators: 1, seed: 0 },
    ...{ changeovers: null, runsOut: false },
    ...more,
  });
  return new FloorRun(compiled, { ...setup, chance: false }, 0);
}

const WEEK = openSpans(weekCalendar([shift({})], 'p'), [shift({})]);

describe('schedules of mixed cells', () => {
  it('settle to their period, and make as many as a recursion that knows no floor', () => {
    let ran = 0;
    fc.assert(
      fc.property(cellArb, fc.constantFrom('strict' as const, 'order' as const), (cell, program) => {
        const schedule = scheduleOf(cell);
        if (schedule === null) return;
        ran++;
        const run = runOf(cell, schedule, { program });
        const spanS = 200 * schedule.periodS;
        run.to(spanS);
        const made = run.floor.good[0]!;
        run.to(2 * spanS);
        const perPeriod = schedule.partsPerPeriod.a!;
        expect(Math.abs(run.floor.good[0]! - made - 200 * perPeriod)).toBeLessThanOrEqual(perPeriod + 1);
        const plan = recursionPlan(cell, schedule.order);
        const { tally } = runOrder(plan, conditionsOf(cell), spanS);
        expect(Math.abs(tally.out[0]! - made)).toBeLessThanOrEqual(Math.max(2, 0.003 * made));
      }),
      { numRuns: cases(40) },
    );
    expect(ran).toBeGreaterThan(cases(40) / 2);
  });

  it('keep count over a week of shifts, in both ways of ending a span, as the recursion does', () => {
    const clock = new WorkClock(weekCalendar([shift({})], 'p'), {
      attendedSpeedPct: 100,
      operator: 'attended',
    });
    fc.assert(
      fc.property(cellArb, fc.constantFrom('parts stay' as const, 'run out' as const), (cell, atEnd) => {
        const schedule = scheduleOf(cell);
        if (schedule === null) return;
        const run = runOf(cell, schedule, { openSpans: WEEK, runsOut: atEnd === 'run out' });
        run.to(WEEK_S);
        expect(run.floor.started[0]).toBe(run.floor.good[0]! + run.partsInside());
        if (atEnd === 'run out') expect(run.partsInside()).toBe(0);
        expect(run.floor.good[0]).toBeGreaterThan(0.9 * 40 * schedule.partsPerH.total);
        const { tally } = runOrder(
          recursionPlan(cell, schedule.order),
          conditionsOf(cell, { clock, atEnd }),
          WEEK_S,
        );
        expect(Math.abs(tally.out[0]! - run.floor.good[0]!)).toBeLessThanOrEqual(
          Math.max(6, 0.003 * tally.out[0]!),
        );
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
    const y = shiftYield(cell, schedule, 'p', { program: 'strict' });
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
        const y = shiftYield(cell, schedule, 'p', { program: 'strict' });
        // Machines that end in closed time give each span at most what they hold.
        const most = cell.stations.reduce((sum, s) => sum + (s.capacityParts ?? 0), 0) + 4;
        expect(y.partsPerWeek.total).toBeLessThanOrEqual(y.ceilingPerWeek.total + 5 * most);
      }),
      { numRuns: cases(25) },
    );
  });
});
