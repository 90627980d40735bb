/** The cell held against the other folders: figures side by side, differences, what differs in the tables. */

import type { CellComparison, ComparedCell } from '../../core/compare/comparison.js';
import { cellPlanChart } from '../charts/cell-plan-chart.js';
import { cellDifferenceChart } from '../charts/difference-chart.js';
import { changeLines } from '../comparison.js';
import type { Block } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
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
    { kind: 'section', title: 'Which layout?' },
    { kind: 'paragraph', text: comparison.recommendation },
    tableBlock(`Side by side${moneyUnit(view)}`, sideBySideTable(comparison)),
    ...planBlocks(comparison),
    ...(comparison.differences.length === 0 ? [] : [cellDifferenceChart(comparison)]),
    ...view.facts.changes.flatMap((of): Block[] => [
      { kind: 'subsection', title: `Changes from ${of.a} to ${of.b}` },
      { kind: 'list', items: changeLines(of) },
    ]),
  ];
}

/** The plan of each layout, where a station stands elsewhere or is not in every cell. */
function planBlocks({ cells }: CellComparison): Block[] {
  const [first, ...others] = cells;
  if (first === undefined) return [];
  const apart = others.map((other) => movedStations(first, other));
  const all = [...new Set(apart.flat())];
  if (all.length === 0) return [];
  const names = (cell: ComparedCell): string[] => cell.stations.map((s) => s.name);
  return cells.flatMap((cell, i): Block[] => {
    if (!('order' in cell.schedule)) return [];
    const moved = (i === 0 ? all : apart[i - 1]!).filter((name) => names(cell).includes(name));
    return [cellPlanChart(cell, cell.schedule, { name: cell.name, moved })];
  });
}

/** Stations that are in one of the two alone, or stand elsewhere in the second. */
function movedStations(a: ComparedCell, b: ComparedCell): string[] {
  const placeOf = ({ stations }: ComparedCell, name: string): string => {
    const station = stations.find((s) => s.name === name);
    return station === undefined ? 'not there' : `${station.xM} ${station.yM}`;
  };
  const names = [...a.stations, ...b.stations].map((s) => s.name);
  return [...new Set(names)].filter((name) => placeOf(a, name) !== placeOf(b, name));
}
