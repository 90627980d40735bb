// The jobs of a report: planned as `jobs` does it, left out with a word where something is lacking.
import { describe, expect, test } from 'vitest';
import { earlyJobs, jobsInReport } from '../../../src/core/report/report-parts.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import { jobCell } from '../jobs/job-cell.js';

const never = () => Promise.reject(new Error('the solver is loaded'));
const week = { machines: ['m1', 'm2'], shifts: ['early,Mon-Fri,06:00,14:00,,yes,1,30'] };

function cellOf(parts: number, jobs: number) {
  const names = Array.from({ length: parts }, (_, k) => `p${k}`);
  const days = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'];
  return jobCell({
    ...week,
    parts: Object.fromEntries(names.map((name) => [name, ['m1|m2', 100] as const])),
    jobs: Array.from({ length: jobs }, (_, k) => `j${k},${names[k % parts]},20,${days[k % 5]},,10`),
  });
}

const scheduleOf = (cell: ReturnType<typeof cellOf>): ScheduleFound =>
  bestSchedule(cell, { improvements: false }) as ScheduleFound;

describe('the jobs of a report', () => {
  test('are planned as `jobs` does it', async () => {
    const cell = cellOf(2, 2);
    const { plans, best } = await jobsInReport({ cell, schedule: scheduleOf(cell) }, null, {
      mixedSolver: highsSolver,
    });
    expect(best).toBe('week');
    expect(plans[0]).toMatchObject({ status: 'in time', lateParts: 0, proven: true });
  });

  test('need shifts', async () => {
    const cell = { ...cellOf(2, 2), shifts: [] };
    const { recommendation } = await jobsInReport({ cell, schedule: null }, null, { mixedSolver: never });
    expect(recommendation).toBe('The jobs are not planned: shifts.csv has no shift to make them in.');
  });
});

test('a cell without jobs has no such part', () => {
  const parts = (cell: ReturnType<typeof cellOf>) => earlyJobs(cell).map(({ part }) => part);
  const cell = cellOf(2, 2);
  expect(parts(cell)).toContain('weeklyJobs');
  expect(parts({ ...cell, jobs: [] })).not.toContain('weeklyJobs');
});
