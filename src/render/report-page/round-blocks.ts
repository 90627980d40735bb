/** How the robot runs its round: moves, stations, what sets the pace, what a change would bring. */
import { multipleActivityChart } from '../charts/multiple-activity-chart.js';
import { utilizationChart } from '../charts/utilization-chart.js';
import type { Block } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { roundTable } from '../robot-round.js';
import { changeTable, improvementTable, paceTable, scheduleSentences } from '../schedule.js';
import type { ReportView } from './report-view.js';

export function roundBlocks({ results: { schedule, simulation }, numbers }: ReportView): Block[] {
  const simulated = simulation.result.deadlock === null ? simulation.result : null;
  const { improvements, whatIf, periodS, bottleneck } = schedule;
  const over = bottleneck.periods > 1 ? `${bottleneck.periods} rounds` : 'one round';
  return [
    { kind: 'section', title: 'How does the robot run its round?', newPage: true },
    { kind: 'list', items: scheduleSentences(schedule) },
    multipleActivityChart(schedule),
    tableBlock(`The round of ${numbers.number(periodS, 1)} s, move by move`, roundTable(schedule)),
    utilizationChart(schedule, simulated),
    tableBlock(`What sets the pace: a chain of acts without slack that takes ${over}`, paceTable(schedule)),
    ...(improvements.length === 0
      ? []
      : [
          tableBlock(
            'What one second less would bring, as long as the same chain sets the pace',
            improvementTable(schedule),
          ),
        ]),
    ...(whatIf.length === 0
      ? []
      : [
          tableBlock('What a change would bring, each scheduled anew', changeTable(schedule), {
            prose: true,
          }),
        ]),
  ];
}
