/** A week's job plan as tables: the patterns, the best one's jobs and hours, and what is made and set up in each shift. */
import type { JobPlan, PlannedJob, PlannedRun, PlannedSetup } from '../../core/jobs/job-plan.js';
import type { WeeklyJobs } from '../../core/jobs/weekly-jobs.js';
import { dueText, weekClock } from '../../core/model/week-time-text.js';
import { type Column, figures, fileTable, readTable, words } from '../columns.js';
import { bestJobPlan, stretchText } from '../job-plan-text.js';
import type { TableData } from '../text-table.js';
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
  return [
    ...fileTable('job-patterns.csv', patternColumns(result), result.plans, {
      chart: {
        kind: 'column',
        title: 'Set-up minutes by shift pattern',
        of: 'pattern',
        values: ['setup_min'],
      },
    }),
    ...fileTable('jobs-done.csv', jobColumns(plan), plan.jobs),
    ...fileTable('job-hours.csv', HOURS, plan.resources, {
      chart: {
        kind: 'bar',
        title: 'Hours used and available',
        of: 'resource',
        values: ['used_h', 'available_h'],
      },
    }),
    ...fileTable('jobs-by-shift.csv', madeColumns(plan), plan.jobs.flatMap(madeRows)),
    ...fileTable('machines-by-shift.csv', runColumns(plan), plan.runs),
    ...fileTable('setups-by-shift.csv', setupColumns(plan), plan.setups),
  ];
}

function patternColumns({ best }: WeeklyJobs): Column<JobPlan>[] {
  return [
    words('pattern', 'pattern', (p) => p.pattern, {
      text: (p) => `${p.pattern}${p.pattern === best ? ' *' : ''}`,
    }),
    figures('parts_late', 'parts\nlate', 0, (p) => p.lateParts),
    figures('parts_not_made', 'parts\nnot made', 0, (p) => p.notMade),
    figures('setups', 'change-\novers', 0, (p) => p.setups.length),
    figures('setup_min', 'set-up\nminutes', 0, (p) => p.setupMin),
    figures('labour_per_week', 'labour\na week', 0, (p) => p.labourPerWeek, { isMoney: true }),
    words('proven', 'proven', (p) => p.proven),
    words('best', undefined, (p) => p.pattern === best),
  ];
}

export function jobPatternTable(result: WeeklyJobs): TableData {
  return readTable(patternColumns(result), result.plans);
}

function jobColumns(plan: JobPlan): Column<PlannedJob>[] {
  return [
    words('job', 'job', (job) => job.job),
    words('part', 'part', (job) => job.part),
    figures('parts', 'parts', 0, (job) => job.quantity),
    words('due', 'due by', (job) => dueText(job.dueMin)),
    figures('on_time', 'on time', 0, (job) => job.inTime),
    figures('late', 'late', 0, (job) => job.lateParts),
    figures('not_made', 'not\nmade', 0, (job) => job.notMade),
    words('finished_in', 'finished in', ({ made }) => {
      const last = made.at(-1);
      return last === undefined ? null : stretchText(plan, last.stretch);
    }),
    words('late_because', undefined, (job) => job.reason),
  ];
}

export function jobTable(plan: JobPlan): TableData {
  return readTable(jobColumns(plan), plan.jobs);
}

const HOURS: readonly Column<JobPlan['resources'][number]>[] = [
  words('resource', 'machines and people', (r) => r.resource),
  figures('used_h', 'used h', 1, (r) => r.usedH),
  figures('available_h', 'available h', 1, (r) => r.availableH),
  figures('used_pct', 'used %', 1, (r) => r.usedPct),
];

export function jobHourTable({ resources }: JobPlan): TableData {
  return readTable(HOURS, resources);
}

/** The time window of a row, in files alone: people read it in words or as a chart. */
function windowColumns<Row extends { readonly stretch: number }>(plan: JobPlan): Column<Row>[] {
  const of = (row: Row) => plan.stretches[row.stretch]!;
  return [
    words('day', undefined, (row) => of(row).day),
    words('shift', undefined, (row) => of(row).shift),
    words('from', undefined, (row) => weekClock(of(row).startS / 60)),
    words('to', undefined, (row) => weekClock(of(row).endS / 60)),
  ];
}

type MadeRow = PlannedJob['made'][number] & { readonly of: PlannedJob };

function madeRows(of: PlannedJob): MadeRow[] {
  return of.made.map((made) => ({ ...made, of }));
}

function madeColumns(plan: JobPlan): Column<MadeRow>[] {
  return [
    words('pattern', undefined, () => plan.pattern),
    words('job', undefined, ({ of }) => of.job),
    words('part', undefined, ({ of }) => of.part),
    ...windowColumns<MadeRow>(plan),
    figures('good_parts', undefined, 0, ({ parts }) => parts),
    words('late', undefined, ({ of, stretch }) => plan.stretches[stretch]!.endS > of.dueMin * 60),
  ];
}

function runColumns(plan: JobPlan): Column<PlannedRun>[] {
  return [
    words('pattern', undefined, () => plan.pattern),
    words('station', undefined, (run) => run.station),
    ...windowColumns<PlannedRun>(plan),
    words('part', undefined, (run) => run.part),
    figures('parts_begun', undefined, 0, (run) => run.parts),
    figures('machine_h', undefined, 1, (run) => run.machineH),
  ];
}

function setupColumns(plan: JobPlan): Column<PlannedSetup>[] {
  return [
    words('pattern', undefined, () => plan.pattern),
    words('station', undefined, (s) => s.station),
    ...windowColumns<PlannedSetup>(plan),
    words('from_part', undefined, (s) => s.from),
    words('to_part', undefined, (s) => s.to),
    figures('minutes', undefined, 0, (s) => s.minutes),
    figures('downtime_min', undefined, 0, (s) => s.standsMin),
    figures('people', undefined, 0, (s) => s.people),
    words('connection', undefined, (s) => s.way),
  ];
}
