/** Unattended hours by hand: one machine that makes a part every 600 s, a tool change of 10 min every 120 parts. */

import { describe, expect, it } from 'vitest';
import { weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { openSpans } from '../../../src/core/floor/open-spans.js';
import { handovers } from '../../../src/core/floor/unattended-hours.js';
import type { Cell, PlannedStop } from '../../../src/core/model/cell.js';
import type { NightChange } from '../../../src/core/shifts/nights.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { type WeekMade, weekRunner } from '../../../src/core/shifts/steady-week.js';
import { nightText, shortNightText } from '../../../src/render/nights.js';
import { numberText } from '../../../src/render/numbers.js';
import { identicalCell, type SmallCell, shift } from './small-cells.js';

const DAY = shift({});
const NIGHT = shift({ shift: 'night', startMin: 840, endMin: 1800, attended: false });

/** Unloading 8 s, loading 12 s, no ways: the n-th part is put out 600 n s after the start. */
const one = (stop: Partial<PlannedStop> | null, more: Partial<Cell> = {}): SmallCell =>
  identicalCell(
    { machines: 1, cycleS: 580, loadS: 12, unloadS: 8, travelS: 0 },
    { shifts: [DAY, NIGHT], stops: stop === null ? [] : [toolChange(stop)], ...more },
  );

const toolChange = (more: Partial<PlannedStop>): PlannedStop => ({
  ...{ station: 'm1', name: 'tool change', everyParts: 120, everyH: null, minutes: 10, operator: true },
  ...more,
});

function firstWeek({ cell, schedule }: SmallCell, program: 'order' | 'strict' | 'first'): WeekMade {
  const spans = openSpans(weekCalendar(cell.shifts, 'p'), cell.shifts);
  const job = { cell, program, order: schedule, openSpans: spans, runsOut: false };
  return weekRunner({ ...job, operators: 1, seed: 0, changeovers: null })
    .start([])
    .next();
}

describe.each(['order', 'strict', 'first'] as const)('under the program %s', (program) => {
  it('a stop that may not be done early waits for the morning', () => {
    // The 120th part is done 71,992 s after Monday 06:00: 119 are out, 48 of them by day.
    const [monday, night] = firstWeek(one({}), program).goodByShift;
    expect([monday, night]).toEqual([48, 71]);
  });

  it('a stop that may be done 73 parts early is done before people leave', () => {
    // The 47th part is done at 28,192 s; ten minutes later is the last moment before 28,800 s, when people leave. It
    // is out at 28,800 s, and 96 more by 06:00, none of them the 120th after the change.
    const [monday, night] = firstWeek(one({ earlyParts: 73 }), program).goodByShift;
    expect([monday, night]).toEqual([47, 96]);
  });

  it('one part fewer is not early enough', () => {
    const [monday, night] = firstWeek(one({ earlyParts: 72 }), program).goodByShift;
    expect([monday, night]).toEqual([48, 71]);
  });

  it('a stop that does not come due at night is left where it is', () => {
    // 120 parts are due; 48 + 96 = 144 would be made by 06:00, but of 200 none is due.
    const [monday, night] = firstWeek(one({ everyParts: 200, earlyParts: 199 }), program).goodByShift;
    expect([monday, night]).toEqual([48, 96]);
  });

  it('a part that needs people is taken in by day only; what is inside is finished', () => {
    // People leave at 14:05, when the 49th part is in the machine.
    const cell = one(null, {
      shifts: [
        shift({ endMin: 845 }),
        shift({ shift: 'night', startMin: 845, endMin: 1800, attended: false }),
      ],
      parts: [
        {
          ...{ part: 'part', contribution: null, perShift: null, ratio: null, yieldPct: 100 },
          unattended: false,
        },
      ],
    });
    const part = cell.cell.routes[0]!.part;
    const barred = { ...cell, cell: { ...cell.cell, parts: [{ ...cell.cell.parts[0]!, part }] } };
    const [monday, night, tuesday] = firstWeek(barred, program).goodByShift;
    expect(monday).toBe(48);
    expect(night).toBe(1);
    expect(tuesday).toBeGreaterThanOrEqual(47);
  });
});

describe('a night', () => {
  const { cell, schedule } = one({});
  const week = shiftYield(cell, schedule, 'p', { program: 'order' });
  const [night] = week.nights;

  it('has the parts of its shift, what ends it, and what would add parts', () => {
    expect(week.nights).toHaveLength(1);
    expect(night!.parts).toBeCloseTo(week.byShift.find((s) => s.shift === 'night')!.partsPerShift, 9);
    expect(night!.hours).toBe(16);
    expect(night!.endedBy).toEqual({ cause: 'waits for operator', station: 'm1', stop: 'tool change' });
    expect(night!.changes.length).toBeGreaterThan(0);
    expect(shortNightText('p', night!)).toMatch(
      /^p, night \(unattended\): [\d.]+ good parts each until "tool change" at m1 comes due /,
    );
    for (const { change, partsPerWeek } of night!.changes)
      expect(nightText(night!)).toContain(`${change} +${numberText(partsPerWeek, 1)}`);
  });

  it('adds to the contribution of the week what is sold of its parts', () => {
    const [route] = cell.routes;
    const asking = (perWeek: number | null): (typeof week)['nights'][number] => {
      const part = {
        part: route!.part,
        contribution: 3,
        perShift: null,
        perWeek,
        ratio: null,
        yieldPct: 100,
      };
      return shiftYield({ ...cell, parts: [part] }, schedule, 'p', { program: 'order' }).nights[0]!;
    };
    const made = week.partsPerWeek.total!;
    expect(asking(null).contribution).toBeCloseTo(3 * night!.parts, 6);
    expect(asking(made).contribution).toBeCloseTo(3 * night!.parts, 6);
    // Five nights a week: what is asked leaves four parts of each unsold.
    expect(asking(made - 20).contribution).toBeCloseTo(3 * (night!.parts - 4), 6);
    expect(asking(made - 5 * night!.parts).contribution).toBeCloseTo(0, 6);
  });

  it('a change brings what the cell makes with it', () => {
    const { change, partsPerWeek } = night!.changes[0]!;
    const stop = change.startsWith('one spare tool')
      ? { everyParts: 240, earlyParts: 0 }
      : { earlyParts: 119 };
    const changed = one(stop);
    const more = shiftYield(changed.cell, changed.schedule, 'p', { program: 'order' });
    expect(more.partsPerWeek.total! - week.partsPerWeek.total!).toBeCloseTo(partsPerWeek, 9);
  });

  it('runs through where nothing waits', () => {
    const free = one(null);
    const [through] = shiftYield(free.cell, free.schedule, 'p', { program: 'order' }).nights;
    expect(through!.endedBy).toBeNull();
    expect(nightText(through!)).toContain('runs through to the end');
    expect(through!.runsH).toBeGreaterThan(15.5);
  });
});

it('one more rack lasts twice as long, also where its refilling is a planned stop', () => {
  const { cell, schedule } = one(null);
  const infeed = cell.stations.find((s) => s.kind === 'infeed')!;
  const refilled: Cell = {
    ...cell,
    stations: cell.stations.map((s) => (s === infeed ? { ...s, capacityParts: 30 } : s)),
    stops: [toolChange({ station: infeed.name, name: 'refill', everyParts: 30, minutes: 2 })],
  };
  const [night] = shiftYield(refilled, schedule, 'p', { program: 'order' }).nights;
  expect(night!.endedBy).toMatchObject({ cause: 'rack empty', station: infeed.name });
  const [{ change, partsPerWeek }] = night!.changes as [NightChange];
  expect(change).toBe(`one more rack at ${infeed.name}`);
  // 30 parts more in each of five nights, give or take what the day leaves in the rack.
  expect(Math.abs(partsPerWeek - 150)).toBeLessThanOrEqual(5);
});

it('people who leave at 14:00 leave 16 h alone; a break is no leaving', () => {
  const at = (startH: number, endH: number, attended: boolean, operator: boolean, open = true) => ({
    ...{ startS: startH * 3600, endS: endH * 3600, open, attended, operator },
  });
  const week = [
    at(0, 6, false, false, false),
    at(6, 9, true, true),
    at(9, 10, true, false),
    at(10, 14, true, true),
    at(14, 22, false, false),
    at(22, 24, false, false, false),
  ];
  const found = handovers(week, 86_400);
  expect(found.map((h) => h.alone)).toEqual([false, false, false, false, true, false]);
  expect(found.slice(1, 4).map((h) => [h.leavesS / 3600, h.aloneS / 3600])).toEqual([
    [14, 8],
    [14, 8],
    [14, 8],
  ]);
});

it('a rack whose pallets are due by the clock is named by that, not called empty, and the clock is what would help', () => {
  const pallets = toolChange({ station: 'in', name: 'pallets', everyParts: null, everyH: 10, minutes: 6 });
  const { cell, schedule } = one(pallets);
  const stations = cell.stations.map((s) => (s.name === 'in' ? { ...s, capacityParts: 1000 } : s));
  const named = { ...cell, stations, stops: [pallets] };
  expect(stations.some((s) => s.capacityParts === 1000)).toBe(true);
  const { nights, standstills } = shiftYield(named, schedule, 'p', { program: 'order' });
  expect(nights[0]!.endedBy).toEqual({ cause: 'waits for operator', station: 'in', stop: 'pallets' });
  expect(nightText(nights[0]!)).toContain('"pallets" at in comes due');
  expect(nights[0]!.changes[0]!.change).toBe('"pallets" at in half as often');
  expect(standstills.every((s) => s.cause === 'waits for operator')).toBe(true);
});
