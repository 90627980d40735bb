/** A week's job plan as tables: the patterns, the best one's jobs and hours, and what is made and set up in each shift. */
import type { JobPlan, PlannedJob, PlannedRun, PlannedSetup } from '../../core/jobs/job-plan.js';
import type { WeeklyJobs } from '../../core/jobs/weekly-jobs.js';
import { dueText, weekClock } from '../../core/model/week-time-text.js';
import { type Column, type DeclaredTable, declared, figures, words } from '../columns.js';
import { bestJobPlan, stretchText } from '../job-plan-text.js';
import { drawn, type ResultTable } from './result-table.js';

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

export const jobPatternTable = declared(
  'job-patterns.csv',
  patternColumns,
  ({ plans }) => plans,
  drawn('column', 'Set-up minutes by shift pattern', 'pattern', ['setup_min']),
);

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

export const jobTable = declared('jobs-done.csv', jobColumns, ({ jobs }) => jobs);

const HOURS: readonly Column<JobPlan['resources'][number]>[] = [
  words('resource', 'machines and people', (r) => r.resource),
  figures('used_h', 'used h', 1, (r) => r.usedH),
  figures('available_h', 'available h', 1, (r) => r.availableH),
  figures('used_pct', 'used %', 1, (r) => r.usedPct),
];

export const jobHourTable = declared(
  'job-hours.csv',
  HOURS,
  ({ resources }: JobPlan) => resources,
  drawn('bar', 'Hours used and available', 'resource', ['used_h', 'available_h']),
);

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

/** Of one plan. */
const OF_PLAN: readonly DeclaredTable<JobPlan>[] = [
  jobTable,
  jobHourTable,
  declared('jobs-by-shift.csv', madeColumns, ({ jobs }) => jobs.flatMap(madeRows)),
  declared('machines-by-shift.csv', runColumns, ({ runs }) => runs),
  declared('setups-by-shift.csv', setupColumns, ({ setups }) => setups),
];

export const JOB_TABLES = [jobPatternTable, ...OF_PLAN].map(({ file }) => file);

/** The best plan as tables for a spreadsheet; none where there is no plan. */
export function jobTables(result: WeeklyJobs): ResultTable[] {
  const plan = bestJobPlan(result);
  if (plan === null) return [];
  return [...jobPatternTable.inFile(result), ...OF_PLAN.flatMap((table) => table.inFile(plan))];
}
