/** The cell held against the other folders: figures side by side, differences, what differs in the tables. */

import type { CellComparison } from '../../core/compare/comparison.js';
import { cellPlanChart } from '../charts/cell-plan-chart.js';
import { cellDifferenceChart } from '../charts/difference-chart.js';
import { changeLines } from '../comparison.js';
import { type Block, listOf, said, section, subsection } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { movedStations } from '../moved-stations.js';
import { sideBySideTable } from '../result-tables/comparison-tables.js';
import { moneyUnit, type PartView, type ReportFacts } from './report-view.js';

/** @returns nothing where no further folder is given: there is no table that would bring it */
export function layoutBlocks(
  view: Pick<PartView<'comparison'>, 'results'> & {
    readonly facts: Pick<ReportFacts, 'currency' | 'changes'>;
  },
): Block[] {
  const { comparison } = view.results;
  if (comparison === null) return [];
  return [
    section('Which layout?'),
    said(comparison.recommendation),
    tableBlock(`Side by side${moneyUnit(view)}`, sideBySideTable(comparison)),
    ...planBlocks(comparison),
    ...(comparison.differences.length === 0 ? [] : [cellDifferenceChart(comparison)]),
    ...view.facts.changes.flatMap((of): Block[] => [
      subsection(`Changes from ${of.a} to ${of.b}`),
      listOf(changeLines(of)),
    ]),
  ];
}

/** The plan of each layout, where a station stands elsewhere or is not in every cell. */
function planBlocks(comparison: CellComparison): Block[] {
  const moved = movedStations(comparison);
  if (moved.every((names) => names.length === 0)) return [];
  return comparison.cells.flatMap((cell, i): Block[] =>
    'order' in cell.schedule
      ? [cellPlanChart(cell, cell.schedule, { name: cell.name, moved: moved[i]! })]
      : [],
  );
}
