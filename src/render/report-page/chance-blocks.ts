/** What stops, scatter and people leave of it: the simulation. */
import type { Cell } from '../../core/model/cell.js';
import { programPartsChart, simulatedLossChart } from '../charts/output-charts.js';
import { type Block, beside, listOf, note, said, section } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { ruleTable, simulatedLossTable, simulatedPartTable } from '../result-tables/simulation-tables.js';
import { simulationSentences } from '../simulate.js';
import type { PartView } from './report-view.js';

export function chanceBlocks({ results }: PartView<'simulation' | 'simulatedPattern' | 'cell'>): Block[] {
  const { simulation, simulatedPattern: pattern, cell } = results;
  const { result, rules } = simulation;
  const title = section('Output with downtime and variation');
  if (result.deadlock !== null)
    return [title, said(`In the simulation the cell locks up: ${result.deadlock}`)];
  return [
    title,
    listOf(simulationSentences({ study: simulation, pattern, explanation: null })),
    simulatedLossChart(result, pattern === null ? 'day and night' : `in the pattern ${pattern}`),
    ...(rules.length > 1 ? [programPartsChart(simulation)] : []),
    beside([
      [tableBlock('Good parts a shift', simulatedPartTable(result))],
      ...(result.losses.length === 0
        ? []
        : [[tableBlock('Losses, parts a shift', simulatedLossTable(result))]]),
      ...(rules.length === 0
        ? []
        : [[tableBlock('Robot programs with the same random numbers', ruleTable(rules))]]),
    ]),
    ...lackingBlocks(cell),
  ];
}

/** Without these tables the simulation has no luck in it, or nobody who comes. */
function lackingBlocks(cell: Cell): Block[] {
  const lacking = [
    ...(cell.variation.length === 0 ? ['variation of the times (variation.csv)'] : []),
    ...(cell.stops.length === 0 ? ['planned stops (stops.csv)'] : []),
    ...(cell.stations.every((s) => s.mtbfH === null)
      ? ['random stops (mtbf_h and mttr_min in stations.csv)']
      : []),
    ...(cell.shifts.length === 0 ? ['when the cell is open and who is there (shifts.csv)'] : []),
  ];
  return lacking.length === 0
    ? []
    : [note(`Not in these runs, since the tables do not say: ${lacking.join('; ')}.`)];
}
