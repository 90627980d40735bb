/** How the robot runs its round: moves, stations, what sets the pace, what a change would bring. */

import type { ReportResults } from '../../core/report/report-results.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { SimulationStudy } from '../../core/simulate/study-cell.js';
import { multipleActivityChart } from '../charts/multiple-activity-chart.js';
import { utilizationChart } from '../charts/utilization-chart.js';
import { type Block, beside, fold, listOf, section } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { tableBlock } from '../document/table-block.js';
import { changeTable, improvementTable, paceTable, roundTable } from '../result-tables/schedule-tables.js';
import { noGainTexts, scheduleSentences } from '../schedule.js';
import type { TableData } from '../text-table.js';
import type { PartView } from './report-view.js';

/** @param view without a simulation, the use of time is that of the steady cycle alone */
export function roundBlocks({
  results: { schedule, simulation },
  numbers,
}: Pick<PartView<never>, 'numbers'> & {
  readonly results: Pick<ReportResults, 'schedule'> & {
    readonly simulation: SimulationStudy | null;
  };
}): Block[] {
  const simulated = simulation === null || simulation.result.deadlock !== null ? null : simulation.result;
  const { improvements, periodS, bottleneck } = schedule;
  const over = bottleneck.periods > 1 ? `${bottleneck.periods} robot cycles` : 'one robot cycle';
  return [
    section('Robot sequence', true),
    listOf(scheduleSentences(schedule, numbers.currency)),
    multipleActivityChart(schedule),
    fold(`Robot cycle of ${numbers.number(periodS, 1)} s, move by move, and its critical path`, [
      beside([
        [tableBlock('Moves', roundTable(schedule))],
        [
          tableBlock(`Critical path over ${over}`, countedTable(paceTable(schedule), numbers)),
          ...(improvements.length === 0
            ? []
            : [tableBlock('Gain per second saved', improvementTable(schedule))]),
        ],
      ]),
    ]),
    utilizationChart(schedule, simulated),
    ...changeBlocks(schedule),
  ];
}

function changeBlocks(schedule: ScheduleFound): Block[] {
  const [table, items] = [changeTable(schedule), noGainTexts(schedule)];
  const caption = 'What-if, each change scheduled anew';
  return [
    ...(table.rows.length === 0 ? [] : [tableBlock(caption, table, { prose: true })]),
    ...(items.length === 0 ? [] : [listOf(items)]),
  ];
}

/** Rows that say the same, told once with how often; the last row, the sum, stays. */
function countedTable({ columns, rows }: TableData, numbers: LocaleNumbers): TableData {
  const counts = new Map<string, number>();
  for (const [what, seconds] of rows.slice(0, -1)) {
    const key = JSON.stringify([what, seconds]);
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const right = { align: 'right' } as const;
  return {
    columns: [columns[0]!, { heading: 'times', ...right }, { heading: 's each', ...right }],
    rows: [
      ...[...counts].map(([key, count]) => {
        const [what, seconds] = JSON.parse(key) as [string, string];
        return [what, numbers.number(count), seconds];
      }),
      [rows.at(-1)![0]!, '', rows.at(-1)![1]!],
    ],
  };
}
