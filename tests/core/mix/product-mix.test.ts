/** The product mix: by hand, against HiGHS, and against the rate bound where both say the same. */
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LinearProgram } from '../../../src/core/lp/solve-linear-program.js';
import { type MixInputs, mixProgram } from '../../../src/core/mix/mix-program.js';
import { type MixOptions, type ProductMix, productMix } from '../../../src/core/mix/product-mix.js';
import type { Cell, Part, Shift, Station, Step } from '../../../src/core/model/cell.js';
import { travelLookup } from '../../../src/core/model/travel.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../src/core/schedule/bound/rate-bound.js';
import { readCellFolder } from '../../../src/files/read-cell-folder.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import { root } from '../../cli/run-in.js';
import { highsSolve } from '../../support/highs-line.js';
import { cases } from '../../support/size.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const solve = await highsSolver();
const mixOf = (c: Cell, options: MixOptions = {}): ProductMix => productMix(c, solve, options);

const part = (name: string, more: Partial<Part> = {}): Part => ({
  part: name,
  contribution: null,
  perShift: null,
  ratio: null,
  yieldPct: 100,
  ...more,
});

/** Parts on machines by their cycle seconds, with the robot's times as given. */
function cell(
  cycles: Readonly<Record<string, Readonly<Record<string, number>>>>,
  more: Partial<Cell> = {},
  robotS = 0,
): Cell {
  const machines = [...new Set(Object.values(cycles).flatMap((of) => Object.keys(of)))];
  return cellOf({
    stations: [
      station('in', 'infeed'),
      ...machines.map((m) => station(m, 'machine')),
      station('out', 'outfeed'),
    ],
    // Machines of unlike speed are parts of their own in this table, so a part has one cycle for all of its machines.
    routes: Object.entries(cycles).map(([name, of]) => ({
      part: name,
      steps: [
        step(1, ['in'], { unloadS: robotS }),
        step(2, Object.keys(of), { cycleS: Object.values(of)[0]!, loadS: robotS, unloadS: robotS }),
        step(3, ['out'], { loadS: robotS }),
      ],
    })),
    ...more,
  });
}

const shift = (more: Partial<Shift> = {}): Shift => ({
  pattern: 'day',
  shift: 'early',
  days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
  startMin: 360,
  endMin: 840,
  breaks: [],
  attended: true,
  operators: 1,
  labourPerH: 30,
  ...more,
});

describe('by hand', () => {
  // One machine, 40 h: a takes 6 min and brings 3 (30 an hour), b takes 10 min and brings 6 (36 an hour).
  const two = (parts: Part[], more: Partial<Cell> = {}) =>
    cell({ a: { m: 360 }, b: { m: 600 } }, { parts, ...more });

  test('the hour goes to the part that brings more an hour, after the least of the other', () => {
    const c = two([part('a', { contribution: 3, perShift: 20 }), part('b', { contribution: 6 })], {
      shifts: [shift()],
    });
    const [plan] = mixOf(c).patterns;
    // 5 shifts of 20 a are 100 a in 10 h; 30 h are left for 180 b.
    expect(plan!.parts.map((p) => p.goodPerWeek)).toEqual([expect.closeTo(100, 6), expect.closeTo(180, 6)]);
    expect(plan!.valuePerWeek).toBeCloseTo(100 * 3 + 180 * 6, 6);
    expect(plan!.earnedPerWeek).toBeCloseTo(1380 - 40 * 30, 6);
    const m = plan!.resources.find((r) => r.resource === 'm')!;
    expect(m).toMatchObject({
      usedH: expect.closeTo(40, 6),
      availableH: 40,
      worthPerH: expect.closeTo(36, 5),
    });
    // At most 240 b can be made with no a: the demand can be met 4 times over.
    expect(plan).toMatchObject({ status: 'met', demandMetPct: expect.closeTo(400, 4) });
  });

  test('a robot that is slower while people are there makes what each kind of hours allows', () => {
    // Held 18 s between infeed and outfeed, 3 s a pick and a place, 5 s each of three ways: 39 s a part, slowly 54 s.
    const c = cellOf({
      stations: [station('in', 'infeed'), station('brush', 'held'), station('out', 'outfeed')],
      routes: [
        {
          part: 'a',
          steps: [
            step(1, ['in'], { unloadS: 3 }),
            step(2, ['brush'], { cycleS: 18 }),
            step(3, ['out'], { loadS: 3 }),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 5, attendedSpeedPct: 50 },
      parts: [part('a', { contribution: 1 })],
      shifts: [
        shift(),
        shift({ shift: 'night', startMin: 840, endMin: 1080, attended: false, operators: 0 }),
      ],
    });
    const [plan] = mixOf(c).patterns;
    expect(plan!.valuePerWeek).toBeCloseTo((40 * 3600) / 54 + (20 * 3600) / 39, 6);
    const robot = plan!.resources.find((r) => r.resource === 'robot')!;
    expect(robot).toMatchObject({ usedH: expect.closeTo(60, 6), availableH: 60 });
    // One hour more goes to full speed.
    expect(robot.worthPerH).toBeCloseTo(3600 / 39, 4);
  });

  test('a demand that cannot be met is met in the same share for each part', () => {
    const c = two([part('a', { perShift: 60 }), part('b', { perShift: 24 })], { shifts: [shift()] });
    const [plan] = mixOf(c).patterns;
    // 300 a in 30 h and 120 b in 20 h need 50 h of 40.
    expect(plan).toMatchObject({ status: 'short', demandMetPct: expect.closeTo(80, 6) });
    expect(plan!.parts.map((p) => p.goodPerWeek)).toEqual([expect.closeTo(240, 4), expect.closeTo(96, 4)]);
    expect(mixOf(c).recommendation).toContain('Only 80.0% of the demand can be met.');
  });

  test('what is made beyond the demand earns only where that is said', () => {
    const c = two(
      [part('a', { contribution: 3, perShift: 20 })].concat(part('b', { contribution: 6, perWeek: 60 })),
      {
        shifts: [shift()],
      },
    );
    const [sold, least] = (['all', 'least'] as const).map((demand) => mixOf(c, { demand }).patterns[0]!);
    // 100 a and 60 b take 10 h each; 20 h are left, in which 120 b more could be made.
    expect(sold!.valuePerWeek).toBeCloseTo(100 * 3 + 60 * 6, 6);
    expect(least!.valuePerWeek).toBeCloseTo(100 * 3 + 180 * 6, 6);
    expect(mixOf(c).patterns[0]).toEqual(sold);
    expect(mixOf(c).assumptions.join()).toContain('no more than it is sold');
  });

  test('a stop keeps from work the place of the part after which it is done, or the places of a whole fixture', () => {
    const made = (of: Partial<Step>, stopped: Partial<Station>, stops: Cell['stops'] = []) => {
      const c = two([part('a', { contribution: 1 }), part('b', { contribution: 0 })], {
        shifts: [shift()],
        stops,
      });
      const [plan] = mixOf({
        ...c,
        stations: c.stations.map((s) => (s.name === 'm' ? { ...s, capacityParts: 2, ...stopped } : s)),
        routes: c.routes.map((r) => ({
          ...r,
          steps: r.steps.map((s) => (s.step === 2 ? { ...s, ...of } : s)),
        })),
      }).patterns;
      return plan!.parts[0]!.goodPerWeek;
    };
    const gauge = { station: 'm', name: 'gauge', everyParts: 2, everyH: null, minutes: 6, operator: false };
    // Two places for 40 h; a takes 6 min of one, and 6 min of one after every second part.
    expect(made({}, {}, [gauge])).toBeCloseTo((80 * 60) / (6 + 3), 6);
    // Half an hour to clear a stop after each hour of work.
    expect(made({}, { mtbfH: 1, mttrMin: 30 })).toBeCloseTo((80 * 60) / (6 + 3), 6);
    // Two at a time: 6 min of work and 6 min of gauging for each pair.
    expect(made({ partsPerCycle: 2 }, {}, [gauge])).toBeCloseTo((2 * 40 * 60) / 12, 6);
    expect(made({ partsPerCycle: 2 }, { mtbfH: 1, mttrMin: 30 })).toBeCloseTo((2 * 40 * 60) / 9, 6);
  });

  test('a part that starts only with people there has their hours, and what is inside when they leave', () => {
    const night = shift({ shift: 'night', startMin: 840, endMin: 1320, attended: false, operators: 0 });
    const parts = (unattended: boolean) => [part('a', { contribution: 3, unattended })];
    const made = (unattended: boolean): number =>
      mixOf(cell({ a: { m: 360 } }, { shifts: [shift(), night], parts: parts(unattended) })).patterns[0]!
        .parts[0]!.goodPerWeek;
    // 80 h of 10 parts each, of which 40 h with people, who leave a part inside on each of 5 days.
    expect(made(true)).toBeCloseTo(800, 4);
    expect(made(false)).toBeCloseTo(405, 4);
  });

  test('with the demand as the most that can be sold, hours are left and nothing is scarce', () => {
    const c = two(
      [part('a', { contribution: 3, perShift: 20 }), part('b', { contribution: 6, perShift: 6 })],
      { shifts: [shift()] },
    );
    const [plan] = mixOf(c, { demand: 'most' }).patterns;
    expect(plan!.parts.map((p) => p.goodPerWeek)).toEqual([expect.closeTo(100, 6), expect.closeTo(30, 6)]);
    expect(plan!.resources.every((r) => r.worthPerH === 0)).toBe(true);
    expect(mixOf(c, { demand: 'most' }).recommendation).toContain('No bottleneck');
  });

  test('scrap takes machine hours and brings nothing', () => {
    const c = two([part('a', { contribution: 3 }), part('b', { contribution: 6, yieldPct: 50 })], {
      shifts: [shift()],
    });
    // b brings 18 an hour now, so a is made.
    expect(mixOf(c).patterns[0]!.parts.map((p) => p.goodPerWeek)).toEqual([expect.closeTo(400, 6), 0]);
  });

  test('a ratio is kept', () => {
    const c = two([part('a', { ratio: 2 }), part('b', { ratio: 1 })], { shifts: [shift()] });
    // A set of 2 a and 1 b takes 22 min: 40 h make 109.09 sets.
    const parts = mixOf(c).patterns[0]!.parts.map((p) => p.goodPerWeek);
    expect(parts).toEqual([expect.closeTo(2 * (2400 / 22), 6), expect.closeTo(2400 / 22, 6)]);
  });

  test('people can be what is scarce: stops that need one, in attended hours without breaks', () => {
    const stops = [{ station: 'm', name: 'gauge', everyParts: 1, everyH: null, minutes: 4, operator: true }];
    const night = shift({
      shift: 'night',
      startMin: 840,
      endMin: 1800,
      attended: false,
      operators: 0,
      labourPerH: 0,
    });
    const early = shift({ breaks: [{ startMin: 600, endMin: 660 }] });
    const c = cell(
      { a: { m: 360 } },
      { stops, shifts: [early, night], parts: [part('a', { contribution: 3 })] },
    );
    const [plan] = mixOf(c).patterns;
    // 7 h of a person a day make 105 parts; the machine, 10 min a part with the stop, could make 144 in 24 h.
    expect(plan!.parts[0]!.goodPerWeek).toBeCloseTo(5 * 105, 6);
    expect(plan!.resources.find((r) => r.resource === 'operators')).toMatchObject({
      availableH: 35,
      worthPerH: expect.closeTo(15 * 3, 5),
    });
  });

  test('the cheaper pattern that meets the demand is best where parts have no contribution', () => {
    const shifts = [shift(), shift({ pattern: 'long', endMin: 960 })];
    const c = two([part('a', { perShift: 10 })], { shifts });
    expect(mixOf(c).best).toBe('day');
  });
});

const randomCell = fc
  .record({
    cycles: fc.array(fc.integer({ min: 20, max: 400 }), { minLength: 1, maxLength: 4 }),
    machines: fc.array(fc.subarray(['m1', 'm2', 'm3'], { minLength: 1 }), { minLength: 4, maxLength: 4 }),
    worth: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 4, maxLength: 4 }),
    robotS: fc.integer({ min: 1, max: 30 }),
    travelS: fc.integer({ min: 1, max: 9 }),
    hands: fc.constantFrom(1 as const, 2 as const),
  })
  .map(({ cycles, machines, worth, robotS, travelS, hands }) => {
    const of = cycles.map(
      (cycleS, i) => [`p${i}`, Object.fromEntries(machines[i]!.map((m) => [m, cycleS]))] as const,
    );
    const robot = { ...ROBOT, travelS, hands };
    const parts = cycles.map((_, i) => part(`p${i}`, { contribution: worth[i]! }));
    return cell(Object.fromEntries(of), { robot, parts }, robotS);
  });

test('without stops a week is the rate bound times its hours, with one hand and with two', () => {
  fc.assert(
    fc.property(randomCell, (c) => {
      const bound = rateBound(c);
      const [plan] = mixOf(c, { hoursPerWeek: 40 }).patterns;
      expect(bound.found).toBe(true);
      expect(plan!.status).toBe('met');
      expect(plan!.valuePerWeek / (bound.found ? bound.valuePerS * 3600 * 40 : 0)).toBeCloseTo(1, 6);
    }),
    { numRuns: cases(60) },
  );
});

test('a week is never below what the schedule makes', () => {
  fc.assert(
    fc.property(randomCell, (c) => {
      const found = bestSchedule(c, { nodeLimit: 2000, improvements: false });
      if (!('order' in found)) return;
      const madePerH = c.parts.reduce((sum, p) => sum + p.contribution! * found.partsPerH[p.part]!, 0);
      const [plan] = mixOf(c, { hoursPerWeek: 40 }).patterns;
      expect(plan!.valuePerWeek).toBeGreaterThanOrEqual(40 * madePerH * (1 - 1e-7));
    }),
    { numRuns: cases(25) },
  );
});

test('a week whose demand cannot be met gets a plan that meets the same share of each part', () => {
  fc.assert(
    fc.property(
      randomCell,
      fc.array(fc.integer({ min: 100, max: 3000 }), { minLength: 4, maxLength: 4 }),
      (c, asked) => {
        const parts = c.parts.map((p, i) => ({ ...p, perShift: asked[i]! }));
        const [plan] = mixOf({ ...c, parts }, { hoursPerWeek: 40 }).patterns;
        expect(plan!.status).not.toBe('unsure');
        const least = Math.min(1, plan!.demandMetPct! / 100);
        for (const p of plan!.parts)
          expect(p.goodPerWeek).toBeGreaterThanOrEqual(p.demandPerWeek! * least * (1 - 1e-6));
      },
    ),
    { numRuns: cases(100) },
  );
});

test('a robot with time to spare makes no trip for nothing: two with each part, and at most two to it', async () => {
  const { cell: week } = await readCellFolder(join(root, 'data/weekly-jobs'));
  const [plan] = mixOf(week!, { hoursPerWeek: 40 }).patterns;
  const names = week!.stations.map(({ name }) => name);
  const travel = travelLookup(week!);
  const longestS = Math.max(...names.flatMap((a) => names.map((b) => travel(a, b)?.emptyS ?? 0)));
  const mostS = plan!.parts.reduce((sum, { part: name, goodPerWeek }) => {
    const { steps } = week!.routes.find((route) => route.part === name)!;
    const handlingS = steps.reduce((s, { loadS, unloadS }) => s + loadS + unloadS, 0);
    const share = week!.parts.find((p) => p.part === name)!.yieldPct / 100;
    return sum + (goodPerWeek / share) * (handlingS + 4 * longestS);
  }, 0);
  expect(plan!.resources.find((r) => r.resource === 'robot')!.usedH).toBeLessThanOrEqual(mostS / 3600);
});

test('150, 90 and 60 a shift where two machines make less: a plan that meets the same share of a and b', () => {
  const c = cell(
    { a: { m1: 100 }, b: { m1: 170 }, c: { m2: 230 } },
    {
      robot: { ...ROBOT, travelS: 4 },
      parts: [
        part('a', { contribution: 2, perShift: 150 }),
        part('b', { contribution: 3, perShift: 90 }),
        part('c', { contribution: 4, perShift: 60 }),
      ],
    },
    5,
  );
  const [plan] = mixOf(c).patterns;
  expect(plan).toMatchObject({ status: 'short' });
  const [a, b] = plan!.parts;
  expect(a!.goodPerWeek / b!.goodPerWeek).toBeCloseTo(150 / 90, 4);
});

test('every value is that of HiGHS, no hours are used that are not there, and parts are counted once', () => {
  let sure = 0;
  fc.assert(
    fc.property(randomCell, fc.integer({ min: 0, max: 200 }), (c, least) => {
      const demanded = { ...c, parts: c.parts.map((p, i) => (i === 0 ? { ...p, perShift: least / 5 } : p)) };
      const [plan] = mixOf(demanded, { hoursPerWeek: 40, demand: 'least' }).patterns;
      expect(plan!.status).not.toBe('unsure');
      sure++;
      const demand = new Map([['p0', { least, most: null }]]);
      const hours = { openH: 40, attendedH: 40, operatorH: null, leavings: null };
      const inputs: MixInputs = {
        cell: c,
        hours,
        demand,
        value: (p) => c.parts.find((x) => x.part === p)!.contribution!,
        goal: 'value',
      };
      const best = highsSolve(lpText(mixProgram(inputs).program));
      if (plan!.status === 'met') expect(plan!.valuePerWeek / best.ObjectiveValue).toBeCloseTo(1, 6);
      else expect(best.Status).toBe('Infeasible');
      for (const r of plan!.resources) expect(r.usedH).toBeLessThanOrEqual(r.availableH + 1e-6);
      for (const { part: name, goodPerWeek } of plan!.parts)
        expect(
          plan!.uses.filter((u) => u.part === name).reduce((sum, u) => sum + u.partsPerWeek, 0),
        ).toBeCloseTo(goodPerWeek, 5);
    }),
    { numRuns: cases(60) },
  );
  expect(sure).toBeGreaterThan((5 / 6) * cases(60));
});

/** A program in the CPLEX LP form that HiGHS reads. */
function lpText({ objective, rows, sense }: LinearProgram): string {
  const names = new Map<string, string>();
  const id = (name: string): string => names.get(name) ?? names.set(name, `x${names.size}`).get(name)!;
  const sum = (terms: Readonly<Record<string, number>>): string =>
    Object.entries(terms)
      .map(([name, by]) => `${by < 0 ? '-' : '+'} ${Math.abs(by)} ${id(name)}`)
      .join(' ');
  const lines = rows.flatMap((row) => [
    ...(row.most === undefined ? [] : [`${sum(row.terms)} <= ${row.most}`]),
    ...(row.least === undefined ? [] : [`${sum(row.terms)} >= ${row.least}`]),
  ]);
  return `${sense === 'most' ? 'Maximize' : 'Minimize'}\n obj: ${sum(objective)}\nSubject To\n${lines.map((l, i) => ` c${i}: ${l}`).join('\n')}\nEnd\n`;
}
