/** Cells side by side as tables: each cell's figures, its weeks, the differences, and what differs in the tables. */
import type { CellComparison, ComparedCell } from '../../core/compare/comparison.js';
import type { FolderChanges } from '../comparison.js';
import type { CsvValue } from '../csv.js';
import { bounds, filledTable, type ResultTable } from './result-table.js';

export const COMPARISON_TABLES = ['cells.csv', 'cell-weeks.csv', 'compare.csv', 'changes.csv'] as const;

export function comparisonTables(
  { cells, differences }: CellComparison,
  changes: readonly FolderChanges[],
): ResultTable[] {
  return [
    {
      file: 'cells.csv',
      rows: cellRows(cells),
      chart: { kind: 'column', title: 'Parts an hour by cell', of: 'cell', values: ['parts_per_h'] },
    },
    ...filledTable('cell-weeks.csv', weekRows(cells), {
      money: ['labour_per_part', 'contribution_per_week'],
    }),
    ...filledTable('compare.csv', [
      ['first', 'second', 'parts_per_shift', 'ci_low', 'ci_high', 'clear'],
      ...differences.map(({ a, b, partsPerShift, clear }) => [a, b, ...bounds(partsPerShift), clear]),
    ]),
    ...filledTable('changes.csv', [
      ['first', 'second', 'table', 'what', 'in_first', 'in_second'],
      ...changes.flatMap(({ a, b, changes: of }) => of.map((c) => [a, b, c.table, c.path, c.a, c.b])),
    ]),
  ];
}

function cellRows(cells: readonly ComparedCell[]): CsvValue[][] {
  return [
    [
      'cell',
      'robot_program',
      'sequence',
      'parts_per_h',
      's_per_part',
      'robot_pct',
      'bottleneck',
      'simulated_parts_per_shift',
      'ci_low',
      'ci_high',
      'simulated_robot_pct',
    ],
    ...cells.map(({ name, dispatch, schedule, simulated }) => {
      const found = 'order' in schedule ? schedule : null;
      const rate = found?.partsPerH.total ?? null;
      return [
        name,
        dispatch,
        schedule.status,
        rate,
        rate === null ? null : 3600 / rate,
        found?.robot.utilizationPct ?? null,
        found === null ? null : found.bottleneck.stations.join(', ') || 'robot',
        ...(simulated === null ? [null, null, null] : bounds(simulated.partsPerShift.total!)),
        simulated?.robot.utilizationPct.mean ?? null,
      ];
    }),
  ];
}

function weekRows(cells: readonly ComparedCell[]): CsvValue[][] {
  return [
    ['cell', 'pattern', 'parts_per_shift', 'parts_per_week', 'labour_per_part', 'contribution_per_week'],
    ...cells.flatMap(({ name, shifts }) =>
      (shifts?.patterns ?? []).map((p) => [
        name,
        p.pattern,
        p.partsPerShift.total!,
        p.partsPerWeek.total!,
        p.labourCostPerPart,
        p.contributionPerWeek,
      ]),
    ),
  ];
}
