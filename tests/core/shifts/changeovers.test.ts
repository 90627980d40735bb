/** Changeovers placed in the week: when and by whom, that none is lost, and what they cost, against a plain replay. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WEEK_S } from '../../../src/core/calendar/week-calendar.js';
import type { Cell, Changeover, Shift } from '../../../src/core/model/cell.js';
import { changeoverCostNotes } from '../../../src/core/shifts/changeover-notes.js';
import { type ChangeoverWork, changeoverWork } from '../../../src/core/shifts/changeover-work.js';
import {
  type ChangeoverYear,
  changeoverYear,
  type PlacedChangeover,
} from '../../../src/core/shifts/changeover-year.js';
import { patternFloor } from '../../../src/core/shifts/pattern-floor.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { steadyWeek, weekRunner } from '../../../src/core/shifts/steady-week.js';
import { changeoverSummary } from '../../../src/core/shifts/week-changeovers.js';
import { cases } from '../../support/size.js';
import { costRows, signalRows } from '../cost/support/cost-cell.js';
import { identicalCell, lineCell, type SmallCell, shift } from './small-cells.js';

const row = (station: string, perYear: number, more: Partial<Changeover> = {}): Changeover => ({
  station,
  perYear,
  minutesOther: 40,
  internalPct: 100,
  people: 1,
  ...more,
});
const cells = (machines: number, more: Partial<Cell>): SmallCell =>
  identicalCell({ machines, cycleS: 100, loadS: 12, unloadS: 10, travelS: 4 }, more);
const BREAKS = [
  { startMin: 540, endMin: 555 },
  { startMin: 690, endMin: 720 },
];

/** Weeks in which the run settles before the first changeover falls due. */
const WEEKS_BEFORE = 2;

interface Placing {
  readonly year: ChangeoverYear | null;
  /** Due times on the clock of the year, by row of the work. */
  readonly dueS: readonly (readonly number[])[];
  readonly work: readonly ChangeoverWork[];
}

function place({ cell, schedule }: SmallCell): Placing {
  const { work, changeovers, ...floor } = patternFloor(cell, schedule, 'p', { program: 'strict' });
  const runner = weekRunner({ cell, ...floor, operators: 1, seed: 0, changeovers: null });
  const year = changeovers === null ? null : changeoverYear(work, changeovers, runner, steadyWeek(runner));
  return { year, dueS: changeovers?.rows.map((r) => r.dueS) ?? [], work };
}

function placedInTurn({ year }: Placing): (PlacedChangeover & { readonly week: number })[] {
  return year!.byWeek.flatMap((placed, week) => placed.map((p) => ({ ...p, week })));
}

/** Minutes of the week in which people are there, breaks out; and in which they attend, breaks in. */
function minutesOf(shifts: readonly Shift[]): { people: number[]; attended: boolean[] } {
  const people = new Array<number>(10_080).fill(0);
  const attended = new Array<boolean>(10_080).fill(false);
  const days = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
  for (const s of shifts)
    for (const day of s.days)
      for (let m = s.startMin; m < s.endMin; m++) {
        const at = (days.indexOf(day) * 1440 + m) % 10_080;
        if (!s.attended) continue;
        attended[at] = true;
        if (!s.breaks.some((b) => b.startMin <= m && m < b.endMin)) people[at] = s.operators;
      }
  return { people, attended };
}

const minuteAt = (timeS: number): number => Math.floor((((timeS % WEEK_S) + WEEK_S) % WEEK_S) / 60);

const patternArb = fc
  .record({
    hours: fc.integer({ min: 2, max: 9 }),
    night: fc.integer({ min: 0, max: 12 }),
    breaks: fc.boolean(),
    operators: fc.integer({ min: 1, max: 3 }),
    weekend: fc.boolean(),
  })
  .map(({ hours, night, breaks, operators, weekend }): Shift[] => {
    const endMin = 480 + 60 * hours;
    const days: Shift['days'] = weekend ? ['Mon', 'Wed', 'Sat', 'Sun'] : ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'];
    const pauses = breaks ? [{ startMin: 530, endMin: 550 }] : [];
    const day = shift({ startMin: 480, endMin, breaks: pauses, operators, days });
    const late = shift({
      shift: 'night',
      startMin: endMin,
      endMin: endMin + 60 * night,
      attended: false,
      days,
    });
    return night > 0 ? [day, late] : [day];
  });

const rowArb = fc.record({
  perYear: fc.integer({ min: 1, max: 90 }),
  minutesOther: fc.integer({ min: 1, max: 150 }),
  internalPct: fc.constantFrom(100, 100, 60, 0),
  people: fc.integer({ min: 1, max: 2 }),
});

const placingArb = fc
  .record({
    shifts: patternArb,
    rows: fc.array(rowArb, { minLength: 1, maxLength: 4 }),
    rack: fc.constantFrom(null, 60),
    every: fc.constantFrom(null, 70),
  })
  .map(({ shifts, rows, rack, every }) => {
    const stop = { station: 'm1', name: 'tool', everyParts: every, everyH: null, minutes: 5, operator: true };
    const small = cells(rows.length, {
      shifts,
      stops: every === null ? [] : [stop],
      changeovers: rows.map((r, i) => row(`m${i + 1}`, r.perYear, r)),
    });
    const stations = small.cell.stations.map((s) => (s.name === 'in' ? { ...s, capacityParts: rack } : s));
    return { ...small, cell: { ...small.cell, stations } };
  });

describe('changeovers of any pattern', () => {
  it('none is lost: over the year their minutes are per_year times the minutes', () => {
    fc.assert(
      fc.property(placingArb, (small) => {
        const { year } = place(small);
        const asked = small.cell.changeovers.reduce((sum, c) => sum + c.perYear * c.minutesOther, 0);
        const placed = year!.byWeek.flat().reduce((sum, p) => sum + p.work.workMin, 0) * (52 / year!.weeks);
        const done = year!.done.reduce((a, b) => a + b, 0) === year!.due.reduce((a, b) => a + b, 0);
        if (done) expect(placed).toBeCloseTo(asked, 6);
        else expect(placed).toBeLessThan(asked);
      }),
      { numRuns: cases(30) },
    );
  });

  it('each begins with somebody there, takes its minutes of people, and ends before they leave where it can', () => {
    fc.assert(
      fc.property(placingArb, (small) => {
        const { people, attended } = minutesOf(small.cell.shifts);
        const longest = longestStretch(people, attended);
        const placing = place(small);
        const begun = placing.work.map(() => 0);
        for (const { work, week, startS, standsUntilS, endS } of placedInTurn(placing)) {
          const row = placing.work.indexOf(work);
          const dueS = placing.dueS[row]![begun[row]!++]!;
          expect(people[minuteAt(startS)]).toBeGreaterThan(0);
          expect(presentMinutes(people, startS, endS)).toBeCloseTo(work.workMin, 6);
          expect(presentMinutes(people, startS, standsUntilS)).toBeCloseTo(work.standMin, 6);
          // What is put off for a week may go on after the people have left and come back.
          if (work.workMin > longest || week * WEEK_S + startS > dueS + WEEK_S) continue;
          for (let t = startS; t < endS - 1e-6; t += 60) expect(attended[minuteAt(t)]).toBe(true);
        }
      }),
      { numRuns: cases(30) },
    );
  });

  it('no more overlap than there are people for', () => {
    fc.assert(
      fc.property(placingArb, (small) => {
        const { people } = minutesOf(small.cell.shifts);
        const all = place(small).year!.byWeek.flatMap((placed, week) =>
          placed.map((p) => ({
            from: p.startS + week * WEEK_S,
            to: p.endS + week * WEEK_S,
            n: p.work.people,
          })),
        );
        for (const one of all) {
          const at = all.filter((o) => o.from <= one.from && one.from < o.to);
          const busy = at.reduce((sum, o) => sum + o.n, 0);
          if (at.length > 1) expect(busy).toBeLessThanOrEqual(people[minuteAt(one.from)]!);
        }
      }),
      { numRuns: cases(30) },
    );
  });

  it('the waterfall adds up, and the loss is that of the weeks run', () => {
    fc.assert(
      fc.property(placingArb, ({ cell, schedule }) => {
        const y = shiftYield(cell, schedule, 'p', { program: 'strict' });
        const left = y.losses.reduce((level, l) => level - l.partsPerWeek, y.ceilingPerWeek.total!);
        expect(Math.abs(left - y.partsPerWeek.total!)).toBeLessThan(1e-6);
        expect(y.changeovers.length).toBeGreaterThan(0);
        expect(y.byShift.reduce((sum, s) => sum + s.partsPerShift, 0)).toBeGreaterThan(0);
      }),
      { numRuns: cases(20) },
    );
  });
});

function presentMinutes(people: readonly number[], fromS: number, toS: number): number {
  let sumS = 0;
  for (let t = fromS; t < toS - 1e-9; ) {
    const next = Math.min(toS, (Math.floor(t / 60 + 1e-9) + 1) * 60);
    if (people[minuteAt(t + 1e-6)]! > 0) sumS += next - t;
    t = next;
  }
  return sumS / 60;
}

/** Most minutes with people in one attended stretch. */
function longestStretch(people: readonly number[], attended: readonly boolean[]): number {
  let [most, here] = [0, 0];
  for (let m = 0; m < 2 * 10_080; m++) {
    here = attended[m % 10_080] ? here + (people[m % 10_080]! > 0 ? 1 : 0) : 0;
    most = Math.max(most, here);
  }
  return most;
}

describe('against a replay, second by second', () => {
  interface Case {
    readonly shifts: Shift[];
    readonly perYear: number;
    readonly minutes: number;
    readonly internalPct: number;
    readonly cycleS: number;
  }
  const cases: [string, Case][] = [
    [
      'one shift with breaks',
      { shifts: [shift({ breaks: BREAKS })], perYear: 52, minutes: 50, internalPct: 100, cycleS: 190 },
    ],
    [
      'a night without people, a long cycle',
      {
        shifts: [
          shift({ startMin: 480, endMin: 570 }),
          shift({ shift: 'night', startMin: 570, endMin: 1500, attended: false }),
        ],
        perYear: 104,
        minutes: 75,
        internalPct: 60,
        cycleS: 2900,
      },
    ],
    [
      'longer than the attended stretch',
      {
        shifts: [shift({ startMin: 480, endMin: 540 })],
        perYear: 8,
        minutes: 100,
        internalPct: 100,
        cycleS: 60,
      },
    ],
  ];

  it.each(cases)('%s: the same moments and the same parts', (_, c) => {
    const changeovers = [row('m1', c.perYear, { minutesOther: c.minutes, internalPct: c.internalPct })];
    const small = identicalCell(
      { machines: 1, cycleS: c.cycleS, loadS: 12, unloadS: 10, travelS: 4 },
      { shifts: c.shifts, changeovers },
    );
    const { year } = place(small);
    const weeksRun = WEEKS_BEFORE;
    const { people, attended } = minutesOf(c.shifts);
    const count = Math.round((c.perYear * year!.weeks) / 52);
    const operatorS = people.filter((n) => n > 0).length * 60;
    const dues = Array.from({ length: count }, (_, k) => {
      let left = 60 * Math.floor((((k + 0.5) / count) * year!.weeks * operatorS) / 60 + 1e-6);
      let t = weeksRun * WEEK_S;
      for (; left > 0 || people[minuteAt(t)] === 0; t += 60) if (people[minuteAt(t)]! > 0) left -= 60;
      return t;
    });
    const untilS = (weeksRun + year!.byWeek.length) * WEEK_S;
    const stand = (c.minutes * c.internalPct) / 100;
    const settings = {
      shifts: c.shifts,
      people,
      attended,
      cycleS: c.cycleS,
      workMin: c.minutes,
      standMin: stand,
    };
    const replayed = replay(settings, dues, untilS);
    const plain = replay(settings, [], untilS);
    const placed = year!.byWeek.flatMap((p, week) => p.map((o) => o.startS + (weeksRun + week) * WEEK_S));
    expect(placed).toHaveLength(count);
    // The replay lets people begin while the robot is away for the next part; here they begin when it comes.
    placed.forEach((startS, i) => {
      expect(Math.abs(startS - replayed.starts[i]!)).toBeLessThan(60);
    });
    const lost = plain.outs - replayed.outs;
    expect(Math.abs(year!.loss.good[0]! * year!.weeks - lost)).toBeLessThanOrEqual(2);
    expect(lost).toBeGreaterThan(0);
  });

  interface Settings {
    readonly shifts: readonly Shift[];
    readonly people: readonly number[];
    readonly attended: readonly boolean[];
    readonly cycleS: number;
    readonly workMin: number;
    readonly standMin: number;
  }

  /** One machine, one hand: fetch, fill, wait, empty; whole seconds; no code of the program. */
  function replay(s: Settings, dues: readonly number[], untilS: number): { starts: number[]; outs: number } {
    const openAt = new Uint8Array(10_080);
    for (const sh of s.shifts)
      for (const day of sh.days)
        for (let m = sh.startMin; m < sh.endMin; m++)
          openAt[(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'].indexOf(day) * 1440 + m) % 10_080] = 1;
    const open = (t: number): boolean => openAt[minuteAt(t)] === 1;
    const there = (t: number): boolean => s.people[minuteAt(t)]! > 0;
    // The hours change with the minute: what holds at a second holds to its end.
    const minuteAfter = (t: number): number => t + 60 - (t % 60);
    const pass = (fromS: number, workS: number, holds: (t: number) => boolean): number => {
      let [t, left] = [fromS, workS];
      while (left > 0) {
        if (!holds(t)) t = minuteAfter(t);
        else {
          left--;
          t++;
        }
      }
      return t;
    };
    const fitIn = (fromS: number, actS: number): number => {
      for (let t = fromS; ; ) {
        let k = 0;
        while (k < actS && open(t + k)) k++;
        if (k === actS && open(t)) return t;
        t = minuteAfter(t + k);
      }
    };
    const longest = longestStretch(s.people, s.attended);
    const crewFrom = (fromS: number): number => {
      for (let t = Math.ceil(fromS); ; t++) {
        while (!there(t)) t = minuteAfter(t);
        if (s.workMin > longest) return t;
        const end = pass(t, s.workMin * 60, there);
        let inside = true;
        for (let m = t; m < end; m += 60 - (m % 60)) if (!s.attended[minuteAt(m)]) inside = false;
        if (inside) return t;
        while (s.attended[minuteAt(t + 1)]) t++;
      }
    };
    const movedTo = new Map<number, number>();
    const starts: number[] = [];
    let [now, full, finishS, emptiedS, outs] = [0, false, 0, Number.NEGATIVE_INFINITY, 0];
    let isFirst = true;
    for (;;) {
      if (full) {
        if (!isFirst) now = pass(now, 0, open);
        const at = fitIn(Math.max(now, finishS), 10);
        if (at + 10 > untilS) break;
        now = at + 10;
        emptiedS = now;
        now = fitIn(pass(now, 4, open), 0);
        if (now > untilS) break;
        outs++;
        now = pass(now, 4, open);
      }
      now = fitIn(now, 0);
      now = pass(now, 4, open);
      let at = now;
      const due = dues[starts.length];
      if (due !== undefined) {
        if (!movedTo.has(due)) movedTo.set(due, crewFrom(due));
        const moved = movedTo.get(due)!;
        if (moved <= at + s.cycleS) {
          const from = Math.max(emptiedS, moved - s.cycleS);
          const start = crewFrom(from);
          if (start <= at + s.cycleS) {
            const standsUntil = pass(start, s.standMin * 60, there);
            const begin = fitIn(Math.max(at, standsUntil), 12);
            if (begin + 12 > untilS) break;
            starts.push(start);
            at = Math.max(at, standsUntil);
          }
        }
      }
      at = fitIn(at, 12);
      if (at + 12 > untilS) break;
      now = at + 12;
      finishS = now + s.cycleS;
      full = true;
      isFirst = false;
    }
    return { starts, outs };
  }
});

describe('what is said', () => {
  it('nobody ever attends: no changeover can be made, and none is counted', () => {
    const small = cells(2, {
      shifts: [shift({ attended: false })],
      changeovers: [row('m1', 20), row('m2', 4)],
    });
    const y = shiftYield(small.cell, small.schedule, 'p', { program: 'strict' });
    expect(y.notes[0]).toBe(
      'Changeovers need people, and this pattern has no attended hours: its 24 changeovers a year cannot be made, and these figures are without them.',
    );
    expect(y.losses.map((l) => l.cause)).not.toContain('changeovers');
    expect(y.changeovers).toEqual([]);
    expect(y.changeoverYear).toMatchObject({ perYear: 24, notDonePerYear: 24, weeks: null, shownWeek: null });
  });

  it('more than fit into the attended hours: those that are left are told', () => {
    const small = cells(1, {
      shifts: [shift({ days: ['Mon'], startMin: 360, endMin: 420 })],
      changeovers: [row('m1', 104, { minutesOther: 45 })],
    });
    const y = shiftYield(small.cell, small.schedule, 'p', { program: 'strict' });
    expect(y.notes[0]).toMatch(
      /^People find no time for \d+ of the 104 changeovers a year; these figures are without those\.$/,
    );
    // An hour a week holds 69 of 45 minutes in a year.
    expect(y.changeoverYear!.notDonePerYear).toBeGreaterThan(15);
    expect(y.changeoverYear!.notDonePerYear).toBeLessThan(45);
  });

  it('one that asks for more people than there are', () => {
    const small = cells(1, { shifts: [shift({})], changeovers: [row('m1', 10, { people: 2 })] });
    expect(shiftYield(small.cell, small.schedule, 'p', { program: 'strict' }).notes).toContain(
      'A changeover of m1 asks for 2 people and 1 at most is there; the minutes are taken as given.',
    );
  });

  it('what changeovers cost beside the time that they take, where that is far from it', () => {
    const small = cells(2, { shifts: [shift({})], changeovers: [row('m1', 52)] });
    const { year } = place(small);
    const work = changeoverWork(small.cell, new Set(['m1']), {});
    const said = (lost: number): string =>
      changeoverCostNotes(
        changeoverSummary(work, year),
        { ...year!, loss: { ...year!.loss, good: [lost] } },
        60,
      ).join(' ');
    // 40 minutes a week at 60 an hour.
    expect(said(40)).toBe('');
    expect(said(59)).toBe('');
    expect(said(100)).toMatch(
      /^Changeovers cost 100 good parts a week, while .* about 40 .*: they push planned stops and empty racks into unattended hours/,
    );
    expect(said(5)).toMatch(
      /^Changeovers cost 5 good parts a week, .*: the robot serves the other machines meanwhile/,
    );
    expect(shiftYield(small.cell, small.schedule, 'p', { program: 'strict' }).notes.join(' ')).not.toContain(
      'Changeovers cost',
    );
  });

  it('machines that the order does not visit, and none in a year, stop nothing', () => {
    const small = cells(1, { shifts: [shift({})], changeovers: [row('m1', 0), row('elsewhere', 9)] });
    const y = shiftYield(small.cell, small.schedule, 'p', { program: 'strict' });
    expect(y.changeoverYear).toBeNull();
    expect(y.losses.map((l) => l.cause)).not.toContain('changeovers');
  });

  it('the harness is moved where costs.csv says what that takes, in the minutes of the cost case', () => {
    const costs = costRows({
      harness_connectors: 2,
      harness_min_per_connector: 3,
      check_min_per_signal: 0.5,
      // One machine alone keeps its harness; here another cell borrows it in between.
      harness_elsewhere_per_year: 10,
    });
    const signals = signalRows('m1', 6, 4);
    const small = cells(1, { shifts: [shift({})], changeovers: [row('m1', 10)], costs, signals });
    const y = shiftYield(small.cell, small.schedule, 'p', { program: 'strict' });
    expect(y.changeovers[0]).toMatchObject({ way: 'harness', wayMin: 11, minutes: 51, standMin: 51 });
    expect(y.assumptions.join(' ')).toContain('At a changeover of m1 the harness is moved');
    const bare = shiftYield(small.cell, small.schedule, 'p', { program: 'strict', ways: {} });
    expect(bare.changeovers[0]).toMatchObject({ way: 'left out', wayMin: 0, minutes: 40 });
    const box = shiftYield(small.cell, small.schedule, 'p', {
      program: 'strict',
      ways: { m1: { way: 'box', minutes: 3 } },
    });
    expect(box.changeovers[0]).toMatchObject({ way: 'box', wayMin: 3, minutes: 43 });
    expect(box.partsPerWeek.total!).toBeGreaterThan(y.partsPerWeek.total!);
  });
});

describe('counts that are not whole', () => {
  it('the loss of a rate of 1.5 a year lies between those of 1 and 2', () => {
    const lossAt = (perYear: number): number => {
      const small = cells(1, { shifts: [shift({})], changeovers: [row('m1', perYear)] });
      const y = shiftYield(small.cell, small.schedule, 'p', { program: 'strict' });
      expect(y.changeoverYear!.standMinPerYear).toBeCloseTo(40 * perYear, 6);
      return y.losses.find((l) => l.cause === 'changeovers')!.partsPerWeek;
    };
    expect(lossAt(1.5)).toBeGreaterThan(lossAt(1));
    expect(lossAt(1.5)).toBeLessThan(lossAt(2));
    expect(lossAt(0.2)).toBeCloseTo(0.2 * lossAt(1), 1);
  });
});

describe('longest waits', () => {
  it('the cell runs empty before a changeover, so that no wait is overrun', () => {
    const small = lineCell(
      {
        cycleS: [42, 50, 40],
        maxWaitS: [30, 30, 30],
        pickS: [2, 2, 2, 2],
        placeS: [2, 2, 2, 2],
        wayS: (i, j) => 3 * Math.abs(i - j),
      },
      [0, 2, 1, 3],
      { shifts: [shift({ breaks: BREAKS })], changeovers: [row('m2', 52), row('m3', 26)] },
    );
    const { year } = place(small);
    expect(year!.byWeek.flat()).toHaveLength((78 * year!.weeks) / 52);
    const y = shiftYield(small.cell, small.schedule, 'p', { program: 'strict' });
    const lost = y.losses.find((l) => l.cause === 'changeovers')!.partsPerWeek;
    const perH = small.schedule.partsPerH.total!;
    // An hour a week stands, and with it the run-out and the start-up of the line.
    expect(lost).toBeGreaterThan(perH);
    expect(lost).toBeLessThan(1.5 * perH);
    expect(y.losses.map((l) => l.cause)).not.toContain('longest waits overrun');
  });
});
