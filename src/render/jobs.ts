/** A week's job plan as text: the answer, the patterns, the jobs, the machines, the hours. */

import type { SetupWay } from '../core/cost/way-minutes.js';
import type { JobPlan, PlannedRun, PlannedSetup } from '../core/jobs/job-plan.js';
import type { WeeklyJobs } from '../core/jobs/weekly-jobs.js';
import { amountOf } from '../core/model/name-text.js';
import { weekClock } from '../core/model/week-time-text.js';
import { bestJobPlan, stretchText } from './job-plan-text.js';
import { numberText } from './numbers.js';
import { jobPatternTable, jobTable } from './result-tables/job-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { right, type TableData } from './text-table.js';

const left = (heading: string) => ({ heading });

export function renderJobs(result: WeeklyJobs, currency: string, style: TextStyle): string {
  const { said, section } = printer(style);
  const best = bestJobPlan(result);
  const money = currency === '' ? '' : ` (money in ${currency})`;
  return pieces(
    said(result.recommendation),
    result.plans.length > 1 && section(`Patterns compared${money}`, jobPatternTable(result)),
    best && section(`Jobs: ${best.pattern}`, jobTable(best)),
    best && section(`Machines: ${best.pattern}`, jobMachineTable(best)),
    best && said(hoursText(best)),
  );
}

/** For each job with late parts how many, and why. */
export function lateTexts({ jobs }: JobPlan): string[] {
  return jobs.flatMap(({ job, part, quantity, lateParts, reason }) =>
    reason === null
      ? []
      : [`${job}: ${numberText(lateParts)} of ${amountOf(numberText(quantity), part)} are late: ${reason}.`],
  );
}

/** What each machine is set up for, one part after another: when, for how long, and what it makes then. */
export function jobMachineTable(plan: JobPlan): TableData {
  const stations = [...new Set([...plan.setups, ...plan.runs].map((row) => row.station))].sort();
  const rows = stations.flatMap((station) => {
    const campaigns: { setup: PlannedSetup | null; part: string; runs: PlannedRun[] }[] = [];
    for (const t of plan.stretches.keys())
      for (const work of workInOrder(plan, t, station)) {
        const last = campaigns.at(-1);
        if (work.kind === 'set-up') campaigns.push({ setup: work.setup, part: work.setup.to, runs: [] });
        else if (last?.part === work.run.part) last.runs.push(work.run);
        else campaigns.push({ setup: null, part: work.run.part, runs: [work.run] });
      }
    return campaigns.map(({ setup, part, runs }, i) => [
      i === 0 ? station : '',
      setup === null ? 'set up before' : `${weekClock(setup.startS / 60)} to ${clockText(setup)}`,
      setup === null ? '-' : `${numberText(setup.minutes)}${wayText(setup.way)}`,
      part,
      numberText(runs.reduce((sum, run) => sum + run.parts, 0)),
      runs.length === 0 ? '-' : stretchText(plan, runs.at(-1)!.stretch),
    ]);
  });
  return {
    columns: [
      left('machine'),
      left('changeover'),
      left('min'),
      left('part'),
      right('parts\nbegun'),
      left('finished in'),
    ],
    rows,
  };
}

/** The end of a set-up, without its day where it is that of the start. */
function clockText({ startS, endS }: PlannedSetup): string {
  const [from, to] = [weekClock(startS / 60), weekClock(endS / 60)];
  return from.slice(0, 4) === to.slice(0, 4) ? to.slice(4) : to;
}

function hoursText({ resources }: JobPlan): string {
  const used = resources.map((r) => `${r.resource} ${numberText(r.usedPct)}%`).join(', ');
  return `Hours used of those available: ${used}.`;
}

/** What each machine does in each time window, in order: parts of what is set up, set-ups, parts after them. */
export function jobWeekTable(plan: JobPlan): TableData {
  const rows = plan.stretches.flatMap((_, t) => {
    const runs = plan.runs.filter((run) => run.stretch === t);
    const setups = plan.setups.filter((setup) => setup.stretch === t);
    const stations = [...new Set([...setups, ...runs].map((row) => row.station))].sort();
    return stations.map((station, i) => [
      i === 0 ? stretchText(plan, t) : '',
      station,
      workInOrder(plan, t, station).map(workText).join(', '),
    ]);
  });
  return { columns: [left('time window'), left('machine'), left('work, in this order')], rows };
}

/** One piece of a machine's work in a stretch. */
export type Work =
  | { readonly kind: 'set-up'; readonly setup: PlannedSetup }
  | { readonly kind: 'run'; readonly run: PlannedRun };

/** What a machine does in a stretch: parts of what is set up, then each set-up with the parts after it. */
export function workInOrder(plan: JobPlan, stretch: number, station: string): Work[] {
  const here = (row: { readonly stretch: number; readonly station: string }): boolean =>
    row.stretch === stretch && row.station === station;
  const [setups, runs] = [plan.setups.filter(here), plan.runs.filter(here)];
  const of = (isMeant: (run: PlannedRun) => boolean): Work[] =>
    runs.filter(isMeant).map((run) => ({ kind: 'run', run }));
  const later = setups.map((setup) => setup.to);
  return [
    ...of((run) => !later.includes(run.part)),
    ...setups.flatMap((setup): Work[] => [{ kind: 'set-up', setup }, ...of((run) => run.part === setup.to)]),
  ];
}

function workText(work: Work): string {
  if (work.kind === 'run') return `${numberText(work.run.parts)} ${work.run.part}`;
  const { to, minutes, way } = work.setup;
  return `set up ${to} (${numberText(minutes)} min${wayText(way)})`;
}

function wayText(way: SetupWay): string {
  if (way === 'left out') return '';
  return way === 'box' ? ', box' : ', harness moved';
}
