/** A week's job plan as text and as CSV: the answer, the patterns, the jobs, the week stretch by stretch, the hours. */
import pc from 'picocolors';
import type { SetupWay } from '../core/cost/way-minutes.js';
import type { JobPlan, PlannedJob } from '../core/jobs/job-plan.js';
import type { WeeklyJobs } from '../core/jobs/weekly-jobs.js';
import { dueText, weekClock } from '../core/model/week-time-text.js';
import { type CsvValue, csvText } from './csv.js';
import { numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

const left = (heading: string) => ({ heading });

export function renderJobs(result: WeeklyJobs, currency: string, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const best = result.plans.find((plan) => plan.pattern === result.best);
  const money = currency === '' ? '' : ` (money in ${currency})`;
  const titled = (title: string, table: TableData) => `${paint.bold(title)}\n${printTable(table, style)}\n`;
  return [
    `${paragraph(result.recommendation, style.columns)}\n`,
    ...(result.plans.length > 1
      ? [titled(`The patterns side by side${money}`, jobPatternTable(result))]
      : []),
    ...(best
      ? [
          titled(`Jobs: ${best.pattern}`, jobTable(best)),
          titled(`The week: ${best.pattern}`, jobWeekTable(best)),
          titled(`Hours of the week: ${best.pattern}`, jobHourTable(best)),
        ]
      : []),
  ].join('\n');
}

export function jobPatternTable({ plans, best }: WeeklyJobs): TableData {
  return {
    columns: [
      left('pattern'),
      right('parts\nlate'),
      right('parts\nnot made'),
      right('set-ups'),
      right('set-up\nminutes'),
      right('labour\na week'),
      left('proven'),
    ],
    rows: plans.map((plan) =>
      plan.status === 'unsure'
        ? [plan.pattern, '-', '-', '-', '-', numberText(plan.labourPerWeek), 'no plan']
        : [
            `${plan.pattern}${plan.pattern === best ? ' *' : ''}`,
            numberText(plan.lateParts),
            numberText(plan.notMade),
            numberText(plan.setups.length),
            numberText(plan.setupMin),
            numberText(plan.labourPerWeek),
            plan.proven ? 'yes' : 'no',
          ],
    ),
  };
}

export function jobTable(plan: JobPlan): TableData {
  return {
    columns: [
      left('job'),
      left('part'),
      right('parts'),
      left('due by'),
      right('in time'),
      right('late'),
      right('not\nmade'),
      left('last made in'),
    ],
    rows: plan.jobs.map((job) => [
      job.job,
      job.part,
      numberText(job.quantity),
      dueText(job.dueMin),
      numberText(job.inTime),
      numberText(job.lateParts),
      numberText(job.notMade),
      lastText(plan, job),
    ]),
  };
}

function lastText(plan: JobPlan, job: PlannedJob): string {
  const last = job.made.at(-1);
  return last === undefined ? '-' : stretchText(plan, last.stretch);
}

/** What each machine does in each stretch, in order: parts of what is set up, set-ups, parts after them. */
export function jobWeekTable(plan: JobPlan): TableData {
  const rows = plan.stretches.flatMap((_, t) => {
    const runs = plan.runs.filter((run) => run.stretch === t);
    const setups = plan.setups.filter((setup) => setup.stretch === t);
    const stations = [...new Set([...setups, ...runs].map((row) => row.station))].sort();
    return stations.map((station, i) => [
      i === 0 ? stretchText(plan, t) : '',
      station,
      workText(
        setups.filter((s) => s.station === station),
        runs.filter((run) => run.station === station),
      ),
    ]);
  });
  return { columns: [left('stretch'), left('machine'), left('work, in this order')], rows };
}

function workText(
  setups: readonly JobPlan['setups'][number][],
  runs: readonly JobPlan['runs'][number][],
): string {
  const made = (part: string): string[] =>
    runs.filter((run) => run.part === part).map((run) => `${numberText(run.parts)} ${part}`);
  const later = setups.map((setup) => setup.to);
  const first = runs.filter((run) => !later.includes(run.part)).flatMap((run) => made(run.part));
  const rest = setups.flatMap((s) => [
    `set up ${s.to} (${numberText(s.minutes)} min${wayText(s.way)})`,
    ...made(s.to),
  ]);
  return [...first, ...rest].join(', ');
}

function wayText(way: SetupWay): string {
  if (way === 'left out') return '';
  return way === 'box' ? ', box' : ', harness moved';
}

export function jobHourTable({ resources }: JobPlan): TableData {
  return {
    columns: [left(''), right('used'), right('there are'), right('%')],
    rows: resources.map((r) => [
      r.resource,
      numberText(r.usedH, 1),
      numberText(r.availableH, 1),
      numberText(r.usedPct, 1),
    ]),
  };
}

/** @example 'Mon night, 14:00 to Tue 06:00' */
function stretchText(plan: JobPlan, stretch: number): string {
  const { day, shift, startS, endS } = plan.stretches[stretch]!;
  const clock = (seconds: number): string => weekClock(seconds / 60).replace(`${day} `, '');
  return `${day} ${shift}, ${clock(startS)} to ${clock(endS)}`;
}

/** The best plan as tables for a spreadsheet. @returns texts by file name; none where there is no plan */
export function jobFiles(result: WeeklyJobs): Record<string, string> {
  const plan = result.plans.find((p) => p.pattern === result.best);
  if (!plan) return {};
  const stretch = (t: number): CsvValue[] => {
    const { day, shift, startS, endS } = plan.stretches[t]!;
    return [day, shift, weekClock(startS / 60), weekClock(endS / 60)];
  };
  const stretchHead = ['day', 'shift', 'from', 'to'];
  return {
    'jobs-by-shift.csv': csvText([
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
    ]),
    'machines-by-shift.csv': csvText([
      ['pattern', 'station', ...stretchHead, 'part', 'parts_begun'],
      ...plan.runs.map((run) => [plan.pattern, run.station, ...stretch(run.stretch), run.part, run.parts]),
    ]),
    'setups-by-shift.csv': csvText([
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
    ]),
  };
}
