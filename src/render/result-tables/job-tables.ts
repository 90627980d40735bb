/** A week's job plan as tables: the patterns, the best one's jobs and hours, and what is made and set up in each shift. */
import type { JobPlan } from '../../core/jobs/job-plan.js';
import type { WeeklyJobs } from '../../core/jobs/weekly-jobs.js';
import { dueText, weekClock } from '../../core/model/week-time-text.js';
import type { CsvValue } from '../csv.js';
import { bestJobPlan } from '../jobs.js';
import type { ResultTable } from './result-table.js';

export const JOB_TABLES = [
  'job-patterns.csv',
  'jobs-done.csv',
  'job-hours.csv',
  'jobs-by-shift.csv',
  'machines-by-shift.csv',
  'setups-by-shift.csv',
] as const;

/** The best plan as tables for a spreadsheet; none where there is no plan. */
export function jobTables(result: WeeklyJobs): ResultTable[] {
  const plan = bestJobPlan(result);
  if (plan === null) return [];
  const stretch = (t: number): CsvValue[] => {
    const { day, shift, startS, endS } = plan.stretches[t]!;
    return [day, shift, weekClock(startS / 60), weekClock(endS / 60)];
  };
  const stretchHead = ['day', 'shift', 'from', 'to'];
  return [
    ...comparedTables(result, plan),
    {
      file: 'jobs-by-shift.csv',
      rows: [
        ['pattern', 'job', 'part', ...stretchHead, 'good_parts', 'late'],
        ...plan.jobs.flatMap((job) =>
          job.made.map(({ stretch: t, parts }) => [
            plan.pattern,
            job.job,
            job.part,
            ...stretch(t),
            parts,
            plan.stretches[t]!.endS > job.dueMin * 60,
          ]),
        ),
      ],
    },
    {
      file: 'machines-by-shift.csv',
      rows: [
        ['pattern', 'station', ...stretchHead, 'part', 'parts_begun', 'machine_h'],
        ...plan.runs.map((run) => [
          ...[plan.pattern, run.station, ...stretch(run.stretch)],
          ...[run.part, run.parts, run.machineH],
        ]),
      ],
    },
    {
      file: 'setups-by-shift.csv',
      rows: [
        [
          'pattern',
          'station',
          ...stretchHead,
          'from_part',
          'to_part',
          'minutes',
          'stands_min',
          'people',
          'way',
        ],
        ...plan.setups.map((s) => [
          ...[plan.pattern, s.station, ...stretch(s.stretch), s.from, s.to],
          ...[s.minutes, s.standsMin, s.people, s.way],
        ]),
      ],
    },
  ];
}

function comparedTables({ plans, best }: WeeklyJobs, plan: JobPlan): ResultTable[] {
  return [
    {
      file: 'job-patterns.csv',
      rows: [
        [
          'pattern',
          'parts_late',
          'parts_not_made',
          'setups',
          'setup_min',
          'labour_per_week',
          'proven',
          'best',
        ],
        ...plans.map((p) => [
          ...[p.pattern, p.lateParts, p.notMade, p.setups.length, p.setupMin, p.labourPerWeek],
          ...[p.proven, p.pattern === best],
        ]),
      ],
      money: ['labour_per_week'],
      chart: {
        kind: 'column',
        title: 'Set-up minutes by shift pattern',
        of: 'pattern',
        values: ['setup_min'],
      },
    },
    {
      file: 'jobs-done.csv',
      rows: [
        ['job', 'part', 'parts', 'due', 'on_time', 'late', 'not_made', 'late_because'],
        ...plan.jobs.map((job) => [
          ...[job.job, job.part, job.quantity, dueText(job.dueMin)],
          ...[job.inTime, job.lateParts, job.notMade, job.reason],
        ]),
      ],
    },
    {
      file: 'job-hours.csv',
      rows: [
        ['resource', 'used_h', 'available_h', 'used_pct'],
        ...plan.resources.map((r) => [r.resource, r.usedH, r.availableH, r.usedPct]),
      ],
      chart: {
        kind: 'bar',
        title: 'Hours used and available',
        of: 'resource',
        values: ['used_h', 'available_h'],
      },
    },
  ];
}
