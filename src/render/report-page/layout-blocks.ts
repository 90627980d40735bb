/** The cell held against the other folders: figures side by side, differences, what differs in the tables. */
import { cellDifferenceChart } from '../charts/difference-chart.js';
import { changeLines, sideBySideTable } from '../comparison.js';
import type { Block } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
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
    { kind: 'section', title: 'Which layout?' },
    { kind: 'paragraph', text: comparison.recommendation },
    tableBlock(`Side by side${moneyUnit(view)}`, sideBySideTable(comparison)),
    ...(comparison.differences.length === 0 ? [] : [cellDifferenceChart(comparison)]),
    ...view.facts.changes.flatMap((of): Block[] => [
      { kind: 'subsection', title: `Changes from ${of.a} to ${of.b}` },
      { kind: 'list', items: changeLines(of) },
    ]),
  ];
}
