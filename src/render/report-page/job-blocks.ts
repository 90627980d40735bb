/** The jobs of a week: whether they are in time, why not, and what each machine makes when. */
import type { JobPlan } from '../../core/jobs/job-plan.js';
import { jobChart } from '../charts/job-chart.js';
import { type Block, listOf, said, section, subsection } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { bestJobPlan } from '../job-plan-text.js';
import { jobWeekTable, lateTexts } from '../jobs.js';
import { jobHourTable, jobPatternTable, jobTable } from '../result-tables/job-tables.js';
import type { TableData } from '../text-table.js';
import { moneyUnit, type PartView } from './report-view.js';

/** @returns nothing where no jobs are given: most cells make the same parts all the time */
export function jobBlocks(view: PartView<'jobs' | 'cell'>): Block[] {
  const { jobs, cell } = view.results;
  if (jobs === null) return [];
  const plan = bestJobPlan(jobs);
  const machines = cell.stations.filter(({ kind }) => kind === 'machine').map(({ name }) => name);
  return [
    section('Are the jobs of the week made in time?', true),
    said(jobs.recommendation),
    ...(jobs.plans.length > 1
      ? [tableBlock(`Shift patterns compared${moneyUnit(view)}; the best is marked`, jobPatternTable(jobs))]
      : []),
    ...(plan === null ? [] : planBlocks(plan, machines)),
  ];
}

function planBlocks(plan: JobPlan, machines: readonly string[]): Block[] {
  const late = lateTexts(plan);
  return [
    ...(late.length === 0 ? [] : [subsection('Late, and why'), listOf(late)]),
    tableBlock(`Jobs: ${plan.pattern}`, jobTable(plan), { wide: true }),
    jobChart(plan, machines),
    tableBlock(`What each machine does, by time window: ${plan.pattern}`, named(jobWeekTable(plan)), {
      prose: true,
    }),
    tableBlock(`Hours of the week: ${plan.pattern}`, jobHourTable(plan)),
  ];
}

/** Every row with the name of its stretch: in a page the first cell is read out as the name of the row. */
function named({ columns, rows }: TableData): TableData {
  let stretch = '';
  return {
    columns,
    rows: rows.map(([name, ...rest]) => {
      stretch = name || stretch;
      return [stretch, ...rest];
    }),
  };
}
