/** A time limit ends the work, never the answer: what a plain rule makes is there however short the time is. */
import { describe, expect, it } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../src/core/schedule/bound/rate-bound.js';
import { checkSchedule } from '../../../src/core/schedule/evaluate/check-schedule.js';
import { buildPlan } from '../../../src/core/schedule/plan/plan.js';
import { goalOf } from '../../../src/core/schedule/plan/weights.js';
import { searchOrder } from '../../../src/core/schedule/search/order/search-order.js';
import { readCell } from '../../../src/tables/read-cell.js';

/** Machines that each of several parts may run on, so that there are many ways to look at. */
function wideCell(machines: number, parts: number) {
  const names = Array.from({ length: machines }, (_, i) => `m${i + 1}`);
  const rows = names.map((name) => `${name},machine\n`).join('');
  const routes = Array.from({ length: parts }, (_, i) =>
    [`p${i},1,in,0,0,4`, `p${i},2,${names.join('|')},240,8,8`, `p${i},3,out,0,4,0`].join('\n'),
  );
  return readCell({
    'stations.csv': `station,kind\nin,infeed\n${rows}out,outfeed\n`,
    'routes.csv': `part,step,stations,cycle_s,load_s,unload_s\n${routes.join('\n')}\n`,
    'robot.csv': 'setting,value\ntravel_s,3\n',
  });
}

describe('a time limit', () => {
  it('leaves what a rule makes, however short it is', () => {
    const cell = wideCell(6, 3);
    const found = bestSchedule(cell, { timeLimitS: 1e-9 });
    expect(found.status).toBe('best found');
    if (found.status !== 'best found') return;
    expect(checkSchedule(cell, found)).toEqual([]);
    expect(Object.values(found.partsPerPeriod).some((n) => n > 0)).toBe(true);
    expect(found.proven).toBe(false);
  });

  it('leaves a sequence of a line of many stations, which settles under no rule in any short time', () => {
    const machines = Array.from({ length: 60 }, (_, i) => `m${i + 1}`);
    const steps = machines.map((name, i) => `a,${i + 2},${name},${100 + i},5,5\n`).join('');
    const cell = readCell({
      'stations.csv': `station,kind\nin,infeed\n${machines.map((name) => `${name},machine\n`).join('')}out,outfeed\n`,
      'routes.csv': `part,step,stations,cycle_s,load_s,unload_s\na,1,in,0,0,4\n${steps}a,62,out,0,4,0\n`,
      'robot.csv': 'setting,value\ntravel_s,3\n',
    });
    const found = bestSchedule(cell, { timeLimitS: 1e-9 });
    expect(found.status).toBe('best found');
    if (found.status === 'best found') expect(checkSchedule(cell, found)).toEqual([]);
  });

  it('is looked at after every order that is timed, as one of large batches takes its time', () => {
    const cell = wideCell(1, 1);
    const stops = cell.routes[0]!.steps.map((step) => ({ step, station: step.stations[0]! }));
    const plan = buildPlan(cell, [{ route: 0, stops, count: 2 }]);
    const search = (untilMs: number) =>
      searchOrder(plan, { belowS: Number.POSITIVE_INFINITY, nodes: 100_000, untilMs });
    // (8 + 4 + 4 + 8) s of handling, three ways of 3 s, and the cycle of 240 s, by which the robot waits.
    expect(search(Number.POSITIVE_INFINITY)).toMatchObject({ complete: true, best: { periodS: 2 * 273 } });
    expect(search(0)).toMatchObject({ complete: false, best: { periodS: 2 * 273 } });
  });

  it('ends the bound, which then counts as unknown', () => {
    const cell = wideCell(3, 2);
    expect(rateBound(cell, goalOf(cell), Date.now() - 1)).toEqual({
      found: false,
      why: 'the time limit came first',
    });
  });
});
