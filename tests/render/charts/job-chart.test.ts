// The job plan drawn: work where its stretch lies, as long as it takes, set-ups before it, due times over it.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { JobPlan, PlannedJob, PlannedRun, PlannedSetup } from '../../../src/core/jobs/job-plan.js';
import type { WeekSlot } from '../../../src/core/jobs/week-slots.js';
import { DAYS } from '../../../src/core/model/cell.js';
import { jobChart } from '../../../src/render/charts/job-chart.js';
import { drawing, drawn, expectSound, marks, numberOf } from './drawings.js';

const H = 3600;

/** Open from hour to hour of a day, 0 being Monday. */
const stretch = (day: number, from: number, to: number): WeekSlot => ({
  shift: 'early',
  day: DAYS[day]!,
  startS: (24 * day + from) * H,
  endS: (24 * day + to) * H,
  openH: to - from,
  attendedH: to - from,
  presentH: to - from,
  operatorH: to - from,
  presence: [],
  people: 1,
});

const job = (name: string, dueMin: number, lateParts: number): PlannedJob => ({
  ...{
    job: name,
    part: 'cap',
    quantity: 10,
    dueMin,
    notBeforeMin: 0,
    made: [],
    inTime: 10 - lateParts,
    lateParts,
  },
  ...{ notMade: 0, inTimeAlone: null, reason: lateParts > 0 ? 'mill is full' : null },
});

const setup = (stretchNo: number, station: string, to: string, minutes: number): PlannedSetup => ({
  ...{
    stretch: stretchNo,
    station,
    from: null,
    to,
    minutes,
    standsMin: minutes,
    startS: 0,
    endS: 0,
    people: 1,
    way: 'left out',
  },
});

const run = (stretchNo: number, station: string, part: string, machineH: number): PlannedRun => ({
  ...{ stretch: stretchNo, station, part, parts: 10, machineH },
});

const planOf = (more: Partial<JobPlan>): JobPlan => ({
  ...{ pattern: 'day', status: 'in time', stretches: [], jobs: [], setups: [], runs: [], resources: [] },
  ...{ lateParts: 0, notMade: 0, setupMin: 0, goals: [], proven: true, boundBy: 'set-ups', timeUp: false },
  labourPerWeek: 0,
  ...more,
});

const plan = planOf({
  stretches: [stretch(0, 6, 14), stretch(1, 6, 14)],
  jobs: [job('7', 24 * 60, 0), job('8', 24 * 60, 0), job('9', 2 * 24 * 60, 3)],
  setups: [setup(0, 'mill', 'cap', 60), setup(1, 'mill', 'ring', 120)],
  runs: [
    run(0, 'mill', 'cap', 5),
    run(1, 'mill', 'cap', 1),
    run(1, 'mill', 'ring', 3),
    run(1, 'lathe', 'cap', 8),
  ],
  resources: [
    { resource: 'mill', usedH: 12, availableH: 16, usedPct: 75 },
    { resource: 'lathe', usedH: 8, availableH: 16, usedPct: 50 },
    { resource: 'robot', usedH: 15, availableH: 16, usedPct: 94 },
  ],
  lateParts: 3,
});

describe('a plan of two machines', () => {
  const chart = jobChart(plan, ['mill', 'lathe', 'idle']);
  const svg = drawing(chart);
  /** Pixels of an hour, from two day lines; hour 0 is Monday midnight. */
  const [first, second] = marks(svg, 'grid').map((line) => numberOf(line, 'x1'));
  const at = (hour: number): number => first! + ((second! - first!) * hour) / 24;

  test('each run and each set-up is a bar from its hour to its hour, one after the other within a stretch', () => {
    const work = marks(svg, 'work').slice(1); // the first is the key's
    const spans = work.map((b) => [numberOf(b, 'x'), numberOf(b, 'x') + numberOf(b, 'width')]);
    const hours: [number, number][] = [
      [7, 12],
      [30, 31],
      [33, 36],
      [30, 38],
    ];
    expect(work).toHaveLength(hours.length);
    for (const [k, [from, to]] of hours.entries()) {
      expect(spans[k]![0]).toBeCloseTo(at(from), 0);
      expect(spans[k]![1]).toBeCloseTo(at(to), 0);
    }
    const setups = marks(svg, 'box-stop').slice(1);
    expect(setups.map((b) => numberOf(b, 'x'))).toEqual([
      expect.closeTo(at(6), 0),
      expect.closeTo(at(31), 0),
    ]);
    expect(numberOf(setups[1]!, 'width')).toBeCloseTo(at(2) - at(0), 0);
  });

  test('a mark for each due time, hollow where parts are late, and what is due in words', () => {
    expect(marks(svg, 'due')).toHaveLength(2);
    expect(marks(svg, 'due').map(({ attributes }) => attributes.class)).toEqual(['full due', 'loss due']);
    expect(svg).toContain('due by the end of Mon: 7, 8');
    expect(svg).toContain('due by the end of Tue: 9: 3 parts late');
  });

  test('machines without work are left out; the finding names the fullest machine, not the robot', () => {
    expect(svg).not.toContain('idle');
    expect(drawn(chart).title).toBe(
      'day leaves 3 parts late with 2 changeovers; mill is used 75% of the open hours',
    );
  });

  test('the table has one row for each part after another', () => {
    expect(drawn(chart).data!.rows).toEqual([
      ['mill', 'cap', '60', '20', '6.0', 'Mon early, 06:00 to 14:00', 'Tue early, 06:00 to 14:00'],
      ['mill', 'ring', '120', '10', '3.0', 'Tue early, 06:00 to 14:00', 'Tue early, 06:00 to 14:00'],
      ['lathe', 'cap', '0', '10', '8.0', 'Tue early, 06:00 to 14:00', 'Tue early, 06:00 to 14:00'],
    ]);
  });
});

test('a plan in which nothing is made is a sentence', () => {
  expect(jobChart(planOf({ stretches: [stretch(0, 6, 14)] }), ['mill'])).toMatchObject({
    kind: 'paragraph',
    text: expect.stringContaining('nothing to draw'),
  });
});

test('whatever the plan, the chart stays in its frame and no name is markup', () => {
  const name = fc.constantFrom(
    'a',
    '<script>alert(1)</script>',
    '"><img onload=x>',
    'w'.repeat(64),
    'e\u202Ename🤖',
  );
  const stretchNo = fc.integer({ min: 0, max: 3 });
  const hours = fc.constantFrom(0, 0.01, 3, 8, 1e6);
  const station = fc.constantFrom('m1', '<b>m2</b>');
  const setups = fc.array(fc.tuple(stretchNo, station, name, hours), { maxLength: 6 });
  const runs = fc.array(fc.tuple(stretchNo, station, name, hours), { maxLength: 8 });
  const jobs = fc.array(fc.tuple(name, fc.integer({ min: 1, max: 10_080 }), fc.nat(9)), { maxLength: 6 });
  const stretches = [stretch(0, 0, 1), stretch(2, 6, 14), stretch(6, 20, 24), stretch(6, 20, 34)];
  fc.assert(
    fc.property(setups, runs, jobs, name, (s, r, j, pattern) => {
      const chart = jobChart(
        planOf({
          ...{ pattern, stretches },
          setups: s.map(([t, m, to, h]) => setup(t, m, to, 60 * h)),
          runs: r.map(([t, m, part, h]) => run(t, m, part, h)),
          jobs: j.map(([called, dueMin, late]) => job(called, dueMin, late)),
          resources: ['m1', '<b>m2</b>'].map((resource) => ({
            resource,
            usedH: 1,
            availableH: 0,
            usedPct: 0,
          })),
        }),
        ['m1', '<b>m2</b>'],
      );
      expectSound(chart);
    }),
    { numRuns: 60, seed: 20 },
  );
});
