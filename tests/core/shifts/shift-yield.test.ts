/** Parts a week and a shift: hand-worked weeks, the waterfall, and what more hours and larger racks must do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { zonedWeek } from '../../../src/core/calendar/zoned-week.js';
import { type Cell, DAYS, type Shift } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { bestPattern, shiftPatterns } from '../../../src/core/shifts/shift-patterns.js';
import { type ShiftYield, shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { cases } from '../../support/size.js';
import { identicalCell, lineCell, type SmallCell, shift, twoOutfeeds } from './small-cells.js';

/** Four machines, 152 s a round, 4 parts a round: 94.7 parts an hour. */
const four = (more: Partial<Cell> = {}): SmallCell =>
  identicalCell({ machines: 4, cycleS: 100, loadS: 12, unloadS: 10, travelS: 4 }, more);

const DAY = shift({
  breaks: [
    { startMin: 540, endMin: 560 },
    { startMin: 690, endMin: 720 },
  ],
});
const NIGHT = shift({ shift: 'night', startMin: 840, endMin: 1800, attended: false });

const yieldOf = (small: SmallCell, pattern = 'p'): ShiftYield =>
  shiftYield(small.cell, small.schedule, pattern, { program: 'strict' });
const lossOf = (y: ShiftYield, cause: string): number =>
  y.losses.find((l) => l.cause === cause)!.partsPerWeek;
const withStations = (cell: Cell, name: string, more: object): Cell => ({
  ...cell,
  stations: cell.stations.map((s) => (s.name === name ? { ...s, ...more } : s)),
});

function expectExact(y: ShiftYield): void {
  const left = y.losses.reduce((level, l) => level - l.partsPerWeek, y.ceilingPerWeek.total);
  expect(Math.abs(left - y.partsPerWeek.total)).toBeLessThan(1e-6);
}

describe('a plain week', () => {
  const y = yieldOf(four({ shifts: [DAY] }));

  it('loses only what the shift ends cost', () => {
    expect(y.hoursPerWeek).toBe(40);
    expect(y.ceilingPerWeek.total).toBeCloseTo((40 * 3600 * 4) / 152, 6);
    expect(y.losses).toHaveLength(1);
    expect(['shift ends and restarts', 'gain: cycles that end between shifts']).toContain(y.losses[0]!.cause);
    expect(Math.abs(y.losses[0]!.partsPerWeek)).toBeLessThan(5 * 4);
    expectExact(y);
  });

  it('a program that answers calls is told apart from the sequence whose steady rate is the maximum', () => {
    const { cell, schedule } = four({ shifts: [DAY] });
    const [first] = shiftYield(cell, schedule, 'p', { program: 'nearest' }).losses;
    expect(first!.cause).toMatch(/^(gain: )?program `nearest` in place of the sequence/);
  });

  it('a stop that has the robot take a better way is a gain, in name', () => {
    const cell = twoOutfeeds(60, { shifts: [shift({})] });
    const found = bestSchedule(cell, { improvements: false });
    if (!('order' in found)) throw new Error(found.status);
    const y = shiftYield(cell, found, 'p', { program: 'first' });
    expect(y.losses.map((l) => l.cause)).toEqual([
      'program `first` in place of the sequence, shift ends and restarts',
      'gain: planned stops',
    ]);
    // Ten parts by `far` at 107 s, then 8 minutes with picks 95, 184, 273, 362 and 451 s on: five by `near` at 89 s.
    const partsIn = (parts: number, periodS: number) => (40 * 3600 * parts) / periodS;
    const gained = partsIn(15, 10 * 107 + 5 * 89) - partsIn(1, 107);
    expect(Math.abs(-y.losses[1]!.partsPerWeek - gained)).toBeLessThan(2);
    expectExact(y);
  });

  it('what is made beyond the demand of a week earns nothing', () => {
    const parts = (perWeek: number | null) => [
      { part: 'a', contribution: 2, perShift: null, perWeek, ratio: null, yieldPct: 100 },
    ];
    const margin = (perWeek: number | null): number =>
      yieldOf(four({ shifts: [DAY], parts: parts(perWeek) })).contributionPerWeek!;
    const made = y.partsPerWeek.total;
    expect(margin(null) - margin(500)).toBeCloseTo(2 * (made - 500), 6);
    expect(margin(5000)).toBe(margin(null));
    expect(yieldOf(four({ shifts: [DAY], parts: parts(500) })).assumptions.join()).toContain(
      'beyond that amount',
    );
  });

  it('counts shifts, labour and the robot', () => {
    expect(y.partsPerShift.total).toBeCloseTo(y.partsPerWeek.total / 5, 9);
    expect(y.byShift).toMatchObject([
      { shift: 'day', partsPerShift: expect.closeTo(y.partsPerShift.total, 6) },
    ]);
    expect(y.labourCostPerWeek).toBe(5 * 7.5 * 30);
    expect(y.labourCostPerPart).toBeCloseTo(1125 / y.partsPerWeek.total, 9);
    expect(y.robotUtilizationPct).toBeGreaterThan(99);
    expect(y.robotUtilizationPct).toBeLessThanOrEqual(100);
    expect(y.contributionPerWeek).toBeNull();
  });

  it('says what it took for granted', () => {
    expect(y.assumptions.join(' ')).toContain('29 CFR 785.18');
    expect(y.assumptions.join(' ')).not.toContain('Random stops');
  });
});

describe('one cause at a time', () => {
  it('a rack of 100 parts runs out in the unattended night', () => {
    const { cell, schedule } = four({ shifts: [shift({}), NIGHT] });
    const small = { cell: withStations(cell, 'in', { capacityParts: 100 }), schedule };
    const y = yieldOf(small);
    // Five nights of 16 h at 94.7 an hour, of which 100 parts can be fetched: a machine-full of four may come on top.
    const atNight = (16 * 3600 * 4) / 152 - 100;
    expect(lossOf(y, 'racks empty or full')).toBeGreaterThan(5 * (atNight - 8));
    expect(lossOf(y, 'racks empty or full')).toBeLessThan(5 * (atNight + 8));
    // 100 parts after 14:00 last 25 rounds of 152 s: until a little after 15:03.
    expect(y.notes[0]).toMatch(
      /^The rack at in ran empty Mon 15:0[2-5], no operator there: stopped until Tue 06:00 \(5 times in the week, 7\d\.\d open hours total\)\.$/,
    );
    expectExact(y);
  });

  it('a full outfeed stops the cell as an empty infeed does', () => {
    const { cell, schedule } = four({ shifts: [shift({}), NIGHT] });
    const y = yieldOf({ cell: withStations(cell, 'out', { capacityParts: 100 }), schedule });
    expect(y.notes[0]).toContain('The rack at out was full Mon 15:0');
    expect(lossOf(y, 'racks empty or full')).toBeGreaterThan(5 * 1300);
  });

  it('a break alone runs a small rack dry', () => {
    const { cell, schedule } = four({ shifts: [DAY] });
    const y = yieldOf({ cell: withStations(cell, 'in', { capacityParts: 20 }), schedule });
    expect(lossOf(y, 'racks empty or full')).toBe(0);
    // 20 parts last 760 s of the breaks of 1200 s and 1800 s.
    const perDay = ((1200 - 760 + 1800 - 760) * 4) / 152;
    expect(lossOf(y, 'operator in a break') / 5).toBeGreaterThan(perDay - 6);
    expect(lossOf(y, 'operator in a break') / 5).toBeLessThan(perDay + 6);
    expectExact(y);
  });

  it('an automatic stop of 10 minutes every 40 parts of one machine', () => {
    const stop = { station: 'm1', name: 'clean', everyParts: 40, everyH: null, minutes: 10, operator: false };
    const y = yieldOf(four({ shifts: [shift({})], stops: [stop] }));
    // The robot is the bottleneck, so the order loses the stop less the slack of the machine.
    const stopsPerWeek = y.partsPerWeek.total / 4 / 40;
    const lost = (stopsPerWeek * 600 * 4) / 152;
    expect(lossOf(y, 'planned stops')).toBeGreaterThan(lost * 0.8);
    expect(lossOf(y, 'planned stops')).toBeLessThan(lost * 1.02);
  });

  it('a stop that needs an operator holds the whole night', () => {
    const stop = { station: 'm1', name: 'tool', everyParts: 100, everyH: null, minutes: 10, operator: true };
    const y = yieldOf(four({ shifts: [shift({}), NIGHT], stops: [stop] }));
    expect(lossOf(y, 'no operator in unattended hours')).toBeGreaterThan(5 * 900);
    expect(y.notes[0]).toMatch(/^The stop "tool" at m1 came due .*, no operator there: stopped until /);
    expectExact(y);
  });

  it('a stop that waits because the operator is at another one says so', () => {
    const stop = { name: 'tool', everyParts: 100, everyH: null, minutes: 10, operator: true };
    const y = yieldOf(
      four({ shifts: [shift({})], stops: ['m1', 'm2'].map((station) => ({ ...stop, station })) }),
    );
    const waits = y.notes.filter((note) => note.includes('stopped until'));
    expect(waits.length).toBeGreaterThan(0);
    for (const note of waits) expect(note).toContain('no operator free: stopped until');
  });

  it('an hourly stop comes once in its hours', () => {
    const stop = { station: 'out', name: 'gauge', everyParts: null, everyH: 2, minutes: 6, operator: false };
    const y = yieldOf(four({ shifts: [shift({})], stops: [stop] }));
    const stops = 40 / 2.1;
    expect(lossOf(y, 'planned stops')).toBeGreaterThan(0.7 * stops * (360 / 38));
    expect(lossOf(y, 'planned stops')).toBeLessThan(1.05 * stops * (360 / 38));
  });

  it('half speed in attended hours stretches the travel', () => {
    const small = four({ shifts: [shift({})] });
    const y = yieldOf({
      ...small,
      cell: { ...small.cell, robot: { ...small.cell.robot, attendedSpeedPct: 50 } },
    });
    // 38 s a part become 54 s.
    expect(y.partsPerWeek.total).toBeGreaterThan((40 * 3600) / 54 - 20);
    expect(y.partsPerWeek.total).toBeLessThan((40 * 3600) / 54 + 20);
    expect(lossOf(y, 'reduced speed in attended hours')).toBeCloseTo((40 * 3600) / 38 - (40 * 3600) / 54, -2);
  });

  it('changeovers and scrap take their share', () => {
    const small = four({
      shifts: [shift({})],
      changeovers: [{ station: 'm1', perYear: 104, minutesOther: 30, internalPct: 50, people: 1 }],
      parts: [{ part: 'a', contribution: 2, perShift: 1000, ratio: null, yieldPct: 95 }],
    });
    const y = yieldOf(small);
    const before = y.ceilingPerWeek.total - lossOf(y, 'shift ends and restarts');
    // Half an hour a week stands; the machine would have waited a part of a round for the robot anyway.
    const loss = lossOf(y, 'changeovers');
    expect(Math.abs(loss - (before * 30) / 2400)).toBeLessThan(4);
    expect(y.partsPerWeek.a).toBeCloseTo((before - loss) * 0.95, 6);
    expect(y.contributionPerWeek).toBeCloseTo(2 * y.partsPerWeek.a - 5 * 8 * 30, 6);
    expect(y.notes.join(' ')).toContain('against a demand of 1000');
    const longer = shiftYield(small.cell, small.schedule, 'p', {
      program: 'strict',
      changeoverMinutesByStation: { m1: 60 },
    });
    expect(Math.abs(lossOf(longer, 'changeovers') - 2 * loss)).toBeLessThan(4);
    expectExact(y);
  });

  it('run out: each span starts and ends empty', () => {
    const small = four({ shifts: [shift({})] });
    const stay = yieldOf(small);
    const out = shiftYield(small.cell, small.schedule, 'p', { program: 'strict', atEnd: 'run out' });
    expect(out.partsInside).toBe(0);
    expect(out.partsPerWeek.total).toBeLessThan(stay.partsPerWeek.total);
    expect(out.partsPerWeek.total).toBeGreaterThan(stay.partsPerWeek.total - 5 * 12);
    expect(out.losses[0].cause).toBe('run-out and start-up of each working span');
  });

  it('a pattern with no attended hours runs its rack out for good, and says so', () => {
    const { cell, schedule } = four({ shifts: [shift({ attended: false })] });
    const y = yieldOf({ cell: withStations(cell, 'in', { capacityParts: 50 }), schedule });
    expect(y.partsPerWeek.total).toBe(0);
    expect(y.labourCostPerPart).toBeNull();
    expect(y.notes[0]).toContain('no operator ever comes in this pattern');
    expectExact(y);
  });

  it('an act longer than every span stops the cell, and says so', () => {
    const small = identicalCell(
      { machines: 1, cycleS: 100, loadS: 4000, unloadS: 10, travelS: 4 },
      { shifts: [shift({ startMin: 0, endMin: 60 })] },
    );
    const y = yieldOf(small);
    expect(y.partsPerWeek.total).toBe(0);
    expect(y.notes.join(' ')).toContain('takes longer than the longest working span');
  });
});

describe('longest waits', () => {
  const line = (longestWaitS: number, shifts: Shift[], attendedSpeedPct = 100): SmallCell => {
    const small = lineCell(
      {
        cycleS: [42, 50, 40],
        maxWaitS: [longestWaitS, longestWaitS, longestWaitS],
        pickS: [2, 2, 2, 2],
        placeS: [2, 2, 2, 2],
        wayS: (i, j) => 3 * Math.abs(i - j),
      },
      [0, 2, 1, 3],
      { shifts },
    );
    return { ...small, cell: { ...small.cell, robot: { ...small.cell.robot, attendedSpeedPct } } };
  };

  it('the cell runs out before it closes, unless told to stay', () => {
    const small = line(30, [shift({})]);
    const y = yieldOf(small);
    expect(y.losses.map((l) => l.cause)).toEqual(['run-out and start-up of each working span']);
    expect(y.partsInside).toBe(0);
    const stay = shiftYield(small.cell, small.schedule, 'p', { program: 'strict', atEnd: 'parts stay' });
    expect(lossOf(stay, 'longest waits overrun')).toBeGreaterThanOrEqual(5);
    expectExact(stay);
  });

  it('where the reduced speed breaks the waits, the parts are lost and the report says so', () => {
    const y = yieldOf(line(9, [shift({})], 20));
    expect(lossOf(y, 'longest waits overrun')).toBeGreaterThan(100);
    expect(y.notes.join(' ')).toContain(
      'At the reduced speed of attended hours no timetable keeps all longest waits',
    );
    expectExact(y);
  });

  it('a span too short for a part to get through makes none, and says so', () => {
    const y = yieldOf(line(30, [shift({ startMin: 0, endMin: 2 })]));
    expect(y.partsPerWeek.total).toBe(0);
    expect(y.notes.join(' ')).toContain('longer than the longest working span, so it is never begun');
  });
});

describe('a week in which the clocks change', () => {
  it.each([
    ['2026-03-23', 167],
    ['2026-06-08', 168],
    ['2026-10-19', 169],
  ])('%s, day and night: %d hours are run, none is a pause', (date, hours) => {
    const turns: Shift[] = ['early', 'late', 'night'].map((name, i) =>
      shift({ shift: name, days: DAYS, startMin: 360 + 480 * i, endMin: 840 + 480 * i }),
    );
    const y = yieldOf(four({ shifts: [...zonedWeek(turns, date, 'Europe/Berlin').shifts] }));
    expect(y.hoursPerWeek).toBe(hours);
    expect(y.byShift.map((s) => s.shift)).toEqual(['early', 'late', 'night']);
    const parts = y.byShift.reduce((sum, s) => sum + 7 * s.partsPerShift, 0);
    expect(parts).toBeCloseTo(y.partsPerWeek.total!, 6);
    expect(y.ceilingPerWeek.total).toBeCloseTo((hours * 3600 * 4) / 152, 6);
    expect(Math.abs(y.partsPerWeek.total! - y.ceilingPerWeek.total!)).toBeLessThan(1);
    expect(y.robotUtilizationPct).toBeCloseTo(100, 1);
  });
});

describe('patterns side by side', () => {
  it('no shifts: figures per hour only, with a warning', () => {
    const small = four();
    const all = shiftPatterns(small.cell, small.schedule, { program: 'strict' });
    expect(all.patterns).toEqual([]);
    const none = { byParts: null, byLabourCostPerPart: null, byContribution: null, byDemand: null };
    expect(all.best).toEqual(none);
    expect(all.partsPerH.total).toBeCloseTo(94.74, 2);
    expect(all.warnings[0]).toContain('No shifts are given');
    expect(() => yieldOf(small, 'ghost')).toThrow('no shift of the pattern ghost');
  });

  it('the best by parts need not be the best by cost', () => {
    const parts = [{ part: 'a', contribution: 0.5, perShift: null, ratio: null, yieldPct: 100 }];
    const costly = shift({ pattern: 'two', shift: 'late', startMin: 840, endMin: 1320, labourPerH: 60 });
    const shifts: Shift[] = [shift({ pattern: 'one' }), shift({ pattern: 'two' }), costly];
    const small = four({ parts, shifts });
    const all = shiftPatterns(small.cell, small.schedule, { program: 'strict' });
    expect(all.patterns.map((p) => p.pattern)).toEqual(['one', 'two']);
    expect(all.best).toEqual({
      byParts: 'two',
      byLabourCostPerPart: 'one',
      byContribution: 'one',
      byDemand: null,
    });
    expect(bestPattern([])).toEqual({
      byParts: null,
      byLabourCostPerPart: null,
      byContribution: null,
      byDemand: null,
    });
  });

  it('by demand: the cheapest pattern that meets it, else the one that meets most of the part that has least', () => {
    // The cheapest a part is the one with the most parts, which nobody asks for.
    const of = (pattern: string, demandMetPct: number | null, labourCostPerWeek: number) =>
      ({
        pattern,
        demandMetPct,
        labourCostPerWeek,
        labourCostPerPart: labourCostPerWeek / (demandMetPct ?? 1) ** 2,
        partsPerWeek: {},
        contributionPerWeek: null,
      }) as ShiftYield;
    const best = (...patterns: ShiftYield[]) => bestPattern(patterns).byDemand;
    expect(best(of('a', 180, 3), of('b', 104, 2), of('c', 99.9, 1))).toBe('b');
    expect(best(of('a', 70, 3), of('b', 80, 2), of('c', 60, 0))).toBe('b');
    expect(best(of('a', null, 3), of('b', null, 2))).toBeNull();
  });

  it('the share of demand is good parts over per_shift times the shifts', () => {
    const wanted = (perShift: number | null) =>
      four({
        parts: [{ part: 'a', contribution: null, perShift, ratio: null, yieldPct: 100 }],
        shifts: [shift({ pattern: 'one' })],
      });
    const made = yieldOf(wanted(null), 'one');
    expect(made.demandMetPct).toBeNull();
    const perShift = made.partsPerShift.a!;
    expect(yieldOf(wanted(perShift), 'one').demandMetPct).toBe(100);
    expect(yieldOf(wanted(perShift * 2), 'one').demandMetPct).toBeCloseTo(50, 9);
    expect(yieldOf(wanted(perShift / 4), 'one').demandMetPct).toBeCloseTo(400, 9);
  });
});

const weekArb = fc.record({
  machines: fc.integer({ min: 1, max: 4 }),
  cycleS: fc.integer({ min: 20, max: 900 }),
  rack: fc.option(fc.integer({ min: 1, max: 200 }), { nil: null }),
  every: fc.option(fc.integer({ min: 5, max: 400 }), { nil: null }),
  operator: fc.boolean(),
  speed: fc.constantFrom(100, 40),
  yieldPct: fc.constantFrom(100, 93),
  hours: fc.integer({ min: 1, max: 10 }),
  night: fc.integer({ min: 0, max: 8 }),
  breakMin: fc.constantFrom(0, 15, 30),
});
type Week = typeof weekArb extends fc.Arbitrary<infer T> ? T : never;

function smallWeek(w: Week): SmallCell {
  const startMin = 360;
  const endMin = startMin + 60 * w.hours;
  const breaks = w.breakMin > 0 ? [{ startMin: 380, endMin: 380 + w.breakMin }] : [];
  const shifts = [shift({ startMin, endMin, breaks })];
  if (w.night > 0)
    shifts.push(shift({ shift: 'night', startMin: endMin, endMin: endMin + 60 * w.night, attended: false }));
  const stop = {
    station: 'm1',
    name: 'tool',
    everyParts: w.every,
    everyH: null,
    minutes: 5,
    operator: w.operator,
  };
  const small = identicalCell(
    { machines: w.machines, cycleS: w.cycleS, loadS: 12, unloadS: 10, travelS: 4 },
    {
      shifts,
      stops: w.every === null ? [] : [stop],
      parts: [{ part: 'a', contribution: null, perShift: null, ratio: null, yieldPct: w.yieldPct }],
    },
  );
  const robot = { ...small.cell.robot, attendedSpeedPct: w.speed };
  return { ...small, cell: { ...withStations(small.cell, 'in', { capacityParts: w.rack }), robot } };
}

/** The mean of eight weeks carries at most a round of parts over, an eighth a week. */
const GRAIN = (w: Week): number => w.machines + 1;

describe('any week', () => {
  it('the waterfall adds up exactly from the ceiling to the good parts', () => {
    fc.assert(
      fc.property(weekArb, (w) => expectExact(yieldOf(smallWeek(w)))),
      { numRuns: cases(40) },
    );
  });

  it('without its losses told, the week is the same', () => {
    fc.assert(
      fc.property(weekArb, (w) => {
        const { cell, schedule } = smallWeek(w);
        const plain = shiftYield(cell, schedule, 'p', { program: 'strict', losses: false });
        expect(plain).toEqual({ ...yieldOf(smallWeek(w)), losses: [], nights: [] });
      }),
      { numRuns: cases(20) },
    );
  });

  it('more open hours never bring fewer parts', () => {
    fc.assert(
      fc.property(weekArb, fc.integer({ min: 1, max: 4 }), fc.boolean(), (w, more, atNight) => {
        const longer = atNight ? { ...w, night: w.night + more } : { ...w, hours: w.hours + more };
        const few = yieldOf(smallWeek(w)).partsPerWeek.total;
        const many = yieldOf(smallWeek(longer)).partsPerWeek.total;
        expect(many).toBeGreaterThanOrEqual(few - GRAIN(w));
      }),
      { numRuns: cases(40) },
    );
  });

  it('twice the rack never brings fewer parts', () => {
    fc.assert(
      fc.property(weekArb, (w) => {
        const rack = w.rack ?? 20;
        const few = yieldOf(smallWeek({ ...w, rack })).partsPerWeek.total;
        const many = yieldOf(smallWeek({ ...w, rack: 2 * rack })).partsPerWeek.total;
        expect(many).toBeGreaterThanOrEqual(few - GRAIN(w));
      }),
      { numRuns: cases(40) },
    );
  });
});
