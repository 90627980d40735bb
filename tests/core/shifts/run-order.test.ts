/** The forward run of an order: its period, its start from empty, and that jumping changes nothing. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orderPlan } from '../../../src/core/shifts/order-plan.js';
import { type RunConditions, type RunEvent, runOrder } from '../../../src/core/shifts/run-order.js';
import { partsInside } from '../../../src/core/shifts/run-state.js';
import { alwaysOpenWeek, WEEK_S, weekCalendar } from '../../../src/core/shifts/week-calendar.js';
import { workClock } from '../../../src/core/shifts/work-clock.js';
import { cases } from '../../support/size.js';
import { identicalCell, type Line, lineCell, NoPeriod, type SmallCell, shift } from './small-cells.js';

const ALWAYS = workClock(alwaysOpenWeek(), { attendedSpeedPct: 100, operator: 'always' });

function conditions({ cell }: SmallCell, more: Partial<RunConditions> = {}): RunConditions {
  return {
    clock: ALWAYS,
    stops: [],
    racks: cell.stations.map(() => Number.POSITIVE_INFINITY),
    atEnd: 'parts stay',
    ...more,
  };
}

function trace(small: SmallCell, untilS: number, more: Partial<RunConditions> = {}): RunEvent[] {
  const events: RunEvent[] = [];
  runOrder(
    orderPlan(small.cell, small.schedule.order),
    conditions(small, { ...more, onEvent: (e) => events.push(e) }),
    untilS,
  );
  return events;
}

/** Mean period over the last periods of a long run. */
function settledPeriodS(events: readonly RunEvent[]): number {
  const firsts = events.filter((e) => e.index === 0);
  const last = firsts.at(-1)!;
  const before = firsts.at(-61)!;
  return (last.startS - before.startS) / (last.period - before.period);
}

interface PublishedCell {
  id: string;
  positions: number[];
  secondsPerUnit: number;
  pickS: number[];
  placeS: number[];
  processS: number[];
  longestStayS: (number | null)[];
  periodS: number | null;
}

const file = new URL('../../reference/recomputed/random-line-cells.json', import.meta.url);
/** Those small enough to try every order, with and without longest waits. */
const published = (JSON.parse(readFileSync(file, 'utf8')).cells as PublishedCell[]).filter(
  (c) => c.periodS !== null && c.processS.length <= 5,
);

/** null where the order contradicts the longest waits. */
function feasibleLine(line: Line, moves: readonly number[]): SmallCell | null {
  try {
    return lineCell(line, moves);
  } catch (error) {
    if (error instanceof NoPeriod) return null;
    throw error;
  }
}

function permutations(n: number): number[][] {
  if (n === 0) return [[]];
  return permutations(n - 1).flatMap((p) =>
    Array.from({ length: n }, (_, i) => [...p.slice(0, i), n - 1, ...p.slice(i)]),
  );
}

describe('line cells, best order found by trying all', () => {
  it.each(published.map((c) => [c.id, c] as const))('%s runs at its known period', (_, c) => {
    const line: Line = {
      cycleS: c.processS,
      maxWaitS: c.longestStayS.map((most, i) => (most === null ? null : most - c.processS[i])),
      pickS: c.pickS,
      placeS: c.placeS,
      wayS: (i, j) => Math.abs(c.positions[i] - c.positions[j]) * c.secondsPerUnit,
    };
    const rest = permutations(c.processS.length).map((p) => [0, ...p.map((x) => x + 1)]);
    let best: SmallCell | null = null;
    for (const moves of rest) {
      const small = feasibleLine(line, moves);
      if (small && (best === null || small.schedule.periodS < best.schedule.periodS)) best = small;
    }
    expect(best!.schedule.periodS).toBeCloseTo(c.periodS!, 6);
    expect(settledPeriodS(trace(best!, 200 * c.periodS!))).toBeCloseTo(c.periodS!, 6);
    const run = runOrder(orderPlan(best!.cell, best!.schedule.order), conditions(best!), 200 * c.periodS!);
    expect(run.tally.overrun[0]).toBe(0);
  });
});

const lineArb = fc.integer({ min: 1, max: 5 }).chain((m) =>
  fc.record({
    cycles: fc.array(fc.integer({ min: 0, max: 200 }), { minLength: m, maxLength: m }),
    times: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 2 * m + 2, maxLength: 2 * m + 2 }),
    at: fc.array(fc.integer({ min: 0, max: 30 }), { minLength: m + 2, maxLength: m + 2 }),
    moves: fc.shuffledSubarray(
      Array.from({ length: m }, (_, i) => i + 1),
      { minLength: m, maxLength: m },
    ),
  }),
);

function randomLine(r: { cycles: number[]; times: number[]; at: number[]; moves: number[] }): SmallCell {
  const m = r.cycles.length;
  const line: Line = {
    cycleS: r.cycles,
    pickS: r.times.slice(0, m + 1),
    placeS: r.times.slice(m + 1),
    wayS: (i, j) => (i === j ? 0 : 1 + Math.abs(r.at[i] - r.at[j])),
  };
  return lineCell(line, [0, ...r.moves]);
}

describe('any order of a line', () => {
  it('settles to the period of the maximum cycle ratio', () => {
    fc.assert(
      fc.property(lineArb, (r) => {
        const small = randomLine(r);
        const { periodS } = small.schedule;
        const events = trace(small, 300 * periodS);
        // The eigen-period may span several periods: 60 is a multiple of 1 to 6.
        expect(settledPeriodS(events)).toBeCloseTo(periodS, 6);
      }),
      { numRuns: cases(60) },
    );
  });

  it('keeps every rule while it starts from empty', () => {
    fc.assert(
      fc.property(lineArb, (r) => checkTrace(randomLine(r), trace(randomLine(r), 4000))),
      { numRuns: cases(60) },
    );
  });

  it('counts the same with and without jumping, in any week', () => {
    const calendar = weekCalendar([shift({ breaks: [{ startMin: 500, endMin: 515 }] })], 'p');
    const clock = workClock(calendar, { attendedSpeedPct: 50, operator: 'attended' });
    fc.assert(
      fc.property(
        lineArb,
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 3, max: 90 }),
        fc.constantFrom('parts stay' as const, 'run out' as const),
        fc.boolean(),
        (r, rackParts, every, atEnd, plain) => {
          const small = randomLine(r);
          const plan = orderPlan(small.cell, small.schedule.order);
          const stop = {
            station: 'm1',
            name: 'tool',
            everyParts: every,
            everyH: null,
            minutes: 7,
            operator: true,
          };
          const hourly = {
            station: 'out',
            name: 'clean',
            everyParts: null,
            everyH: 3,
            minutes: 4,
            operator: false,
          };
          const more = {
            clock,
            atEnd,
            stops: plain ? [] : [stop, hourly],
            racks: small.cell.stations.map((s) =>
              s.kind === 'infeed' && !plain ? rackParts : Number.POSITIVE_INFINITY,
            ),
          };
          const jumped = runOrder(plan, conditions(small, more), 2 * WEEK_S);
          const full = runOrder(plan, conditions(small, { ...more, onEvent: () => {} }), 2 * WEEK_S);
          expect([...jumped.tally.out]).toEqual([...full.tally.out]);
          expect([...jumped.tally.taken]).toEqual([...full.tally.taken]);
          expect(jumped.tally.busyS).toBeCloseTo(full.tally.busyS, 3);
          expect(jumped.state.nowS).toBeCloseTo(full.state.nowS, 4);
        },
      ),
      { numRuns: cases(25) },
    );
  });

  it('takes in what it puts out and what is still inside', () => {
    fc.assert(
      fc.property(lineArb, fc.integer({ min: 0, max: 20_000 }), (r, untilS) => {
        const small = randomLine(r);
        const plan = orderPlan(small.cell, small.schedule.order);
        const { tally, state } = runOrder(plan, conditions(small), untilS);
        expect(tally.taken[0]).toBe(tally.out[0] + partsInside(state));
      }),
    );
  });

  it('gives the same in one run and in two', () => {
    fc.assert(
      fc.property(lineArb, fc.integer({ min: 0, max: 10_000 }), (r, cut) => {
        const small = randomLine(r);
        const plan = orderPlan(small.cell, small.schedule.order);
        const whole = runOrder(plan, conditions(small), 20_000);
        const first = runOrder(plan, conditions(small), cut);
        const second = runOrder(plan, conditions(small), 20_000, 0, first.state);
        expect(first.tally.out[0] + second.tally.out[0]).toBe(whole.tally.out[0]);
        expect(second.state.nowS).toBeCloseTo(whole.state.nowS, 6);
      }),
    );
  });
});

/** Robot and process rules, checked from the trace alone. */
function checkTrace({ cell, schedule }: SmallCell, events: readonly RunEvent[]): void {
  const inside = new Map<string, { part: number; readyS: number } | null>();
  const way = (a: string, b: string) => cell.travel.find((t) => t.from === a && t.to === b)?.emptyS ?? 0;
  const cycle = (name: string) => cell.routes[0].steps.find((s) => s.stations[0] === name)?.cycleS ?? 0;
  let held: number | null = null;
  let parts = 0;
  let out = 0;
  let before: { name: string; endS: number } | null = null;
  for (const e of events) {
    const { action, station: name, robotS } = schedule.order[e.index];
    if (before) expect(e.startS).toBeGreaterThanOrEqual(before.endS + way(before.name, name) - 1e-6);
    expect(e.endS).toBeCloseTo(e.startS + robotS, 6);
    if (action === 'pick') {
      expect(held).toBeNull();
      if (name === 'in') held = parts++;
      else {
        const there = inside.get(name);
        expect(there).toBeTruthy();
        expect(e.startS).toBeGreaterThanOrEqual(there!.readyS - 1e-6);
        held = there!.part;
        inside.set(name, null);
      }
    } else {
      expect(held).not.toBeNull();
      if (name === 'out') expect(held).toBe(out++);
      else {
        expect(inside.get(name) ?? null).toBeNull();
        inside.set(name, { part: held!, readyS: e.endS + cycle(name) });
      }
      held = null;
    }
    before = { name, endS: e.endS };
  }
}

describe('longest waits', () => {
  const line: Line = {
    cycleS: [42, 50, 40],
    maxWaitS: [6, 9, 12],
    pickS: [2, 2, 2, 2],
    placeS: [2, 2, 2, 2],
    wayS: (i, j) => 3 * Math.abs(i - j),
  };

  it('are kept from the first part on', () => {
    const small = lineCell(line, [0, 2, 1, 3]);
    const plan = orderPlan(small.cell, small.schedule.order);
    const run = runOrder(plan, conditions(small), 40 * 3600);
    expect(run.tally.overrun[0]).toBe(0);
    expect(run.tally.out[0] / 40).toBeCloseTo(small.schedule.partsPerH.total, 0);
  });

  it('count the same with and without jumping', () => {
    const small = lineCell(line, [0, 2, 1, 3]);
    const plan = orderPlan(small.cell, small.schedule.order);
    const clock = workClock(weekCalendar([shift({})], 'p'), { attendedSpeedPct: 90, operator: 'attended' });
    for (const atEnd of ['parts stay', 'run out'] as const) {
      const jumped = runOrder(plan, conditions(small, { clock, atEnd }), 2 * WEEK_S);
      const full = runOrder(plan, conditions(small, { clock, atEnd, onEvent: () => {} }), 2 * WEEK_S);
      expect([...jumped.tally.out, ...jumped.tally.overrun]).toEqual([
        ...full.tally.out,
        ...full.tally.overrun,
      ]);
      expect(jumped.state.nowS).toBeCloseTo(full.state.nowS, 4);
    }
  });

  it('are overrun where the cell closes on parts, and not where it runs out before', () => {
    const small = lineCell(line, [0, 2, 1, 3]);
    const plan = orderPlan(small.cell, small.schedule.order);
    const clock = workClock(weekCalendar([shift({})], 'p'), { attendedSpeedPct: 100, operator: 'attended' });
    const stay = runOrder(plan, conditions(small, { clock }), WEEK_S);
    const empty = runOrder(plan, conditions(small, { clock, atEnd: 'run out' }), WEEK_S);
    expect(stay.tally.overrun[0]).toBeGreaterThanOrEqual(4);
    expect(empty.tally.overrun[0]).toBe(0);
    expect(partsInside(empty.state)).toBe(0);
    expect(empty.tally.out[0]).toBe(empty.tally.taken[0]);
    expect(empty.tally.out[0]).toBeGreaterThan(0.98 * 40 * small.schedule.partsPerH.total);
  });
});

describe('a week of shifts, event by event', () => {
  const rows = [
    shift({ breaks: [{ startMin: 500, endMin: 530 }] }),
    shift({ shift: 'night', startMin: 900, endMin: 1500, attended: false }),
  ];
  const calendar = weekCalendar(rows, 'p');
  const clock = workClock(calendar, { attendedSpeedPct: 50, operator: 'attended' });
  const segment = (t: number) =>
    calendar.segments.find((s) => s.startS <= t % WEEK_S && t % WEEK_S < s.endS)!;
  const machineStop = {
    station: 'm1',
    name: 'tool',
    everyParts: 30,
    everyH: null,
    minutes: 7,
    operator: true,
  };

  it('no act is cut by closing, racks give what they hold, and the operator stop waits for the operator', () => {
    fc.assert(
      fc.property(lineArb, fc.integer({ min: 1, max: 60 }), (r, rackParts) => {
        const small = randomLine(r);
        const racks = small.cell.stations.map((s) =>
          s.kind === 'infeed' ? rackParts : Number.POSITIVE_INFINITY,
        );
        const events = trace(small, WEEK_S, { clock, racks, stops: [machineStop] });
        let alone = 0;
        let picksAtM1 = 0;
        let beforeS = 0;
        for (const e of events) {
          const from = segment(e.startS);
          expect(from.open).toBe(true);
          const opens = calendar.segments.filter((s) => s.open && s.startS < e.endS && s.endS > e.startS);
          const covered = opens.reduce(
            (sum, s) => sum + Math.min(s.endS, e.endS) - Math.max(s.startS, e.startS),
            0,
          );
          expect(covered).toBeCloseTo(e.endS - e.startS, 6);
          const { action, station: name } = small.schedule.order[e.index];
          if (name === 'in') {
            // Somebody was there since the last pick: the rack is full again.
            if (from.operator || clock.operatorEnd(beforeS, 0) <= e.startS) alone = 0;
            if (!from.operator) alone++;
            expect(alone).toBeLessThanOrEqual(rackParts);
            beforeS = e.endS;
          }
          if (name === 'm1' && action === 'pick' && ++picksAtM1 % 30 === 0) {
            // Seven minutes of operator time lie between the fill of the machine and this pick.
            const filledS = events.filter((x) => x.endS <= e.startS && placesAtM1(small, x)).at(-1)!.endS;
            expect(clock.operatorEnd(filledS, 420)).toBeLessThanOrEqual(e.startS + 1e-6);
          }
        }
      }),
      { numRuns: cases(12) },
    );
  });

  it('more open hours never bring fewer parts, to the last part', () => {
    fc.assert(
      fc.property(
        lineArb,
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 6 }),
        (r, rackParts, hours) => {
          const small = randomLine(r);
          const plan = orderPlan(small.cell, small.schedule.order);
          const racks = small.cell.stations.map((s) =>
            s.kind === 'infeed' ? rackParts : Number.POSITIVE_INFINITY,
          );
          const out = (week: typeof rows) => {
            const c = workClock(weekCalendar(week, 'p'), { attendedSpeedPct: 100, operator: 'attended' });
            const more = { clock: c, racks, stops: [machineStop] };
            return runOrder(plan, conditions(small, more), WEEK_S).tally.out[0];
          };
          const [day, night] = rows;
          const longNight = { ...night, endMin: night.endMin + 60 * hours };
          const earlyDay = { ...day, startMin: day.startMin - 30 * hours };
          expect(out([day, longNight])).toBeGreaterThanOrEqual(out(rows));
          expect(out([earlyDay, night])).toBeGreaterThanOrEqual(out(rows));
        },
      ),
      { numRuns: cases(40) },
    );
  });
});

const placesAtM1 = ({ schedule }: SmallCell, e: RunEvent): boolean =>
  schedule.order[e.index].station === 'm1' && schedule.order[e.index].action === 'place';

describe('work over a week', () => {
  it('identical machines in turn keep the synchronous round', () => {
    const small = identicalCell({ machines: 4, cycleS: 240, loadS: 12, unloadS: 10, travelS: 4 });
    expect(small.schedule.periodS).toBeCloseTo(Math.max(240 + 22 + 12, 4 * (22 + 16)), 9);
    const run = runOrder(orderPlan(small.cell, small.schedule.order), conditions(small), WEEK_S);
    expect(Math.abs(run.tally.out[0] - (WEEK_S / small.schedule.periodS) * 4)).toBeLessThan(8);
  });

  it('an order that names a station that is not there is refused', () => {
    const { cell, schedule } = identicalCell({ machines: 1, cycleS: 9, loadS: 1, unloadS: 1, travelS: 1 });
    const stations = cell.stations.filter((s) => s.name !== 'm1');
    expect(() => orderPlan({ ...cell, stations }, schedule.order)).toThrow('m1, which is not a station');
    expect(() => orderPlan(cell, [])).toThrow('no events');
    const still = identicalCell({ machines: 1, cycleS: 0, loadS: 0, unloadS: 0, travelS: 0 });
    expect(() => orderPlan(still.cell, still.schedule.order)).toThrow('takes no time at all');
  });
});
