/** Cells side by side as tables: each cell's figures, its weeks, the differences, and what differs in the tables. */
import type { CellComparison, ComparedCell, ComparedPair } from '../../core/compare/comparison.js';
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import type { TableChange } from '../../tables/overrides/table-changes.js';
import { type Column, estimated, figures, fileTable, readAcross, readTable, words } from '../columns.js';
import { numberText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

export const COMPARISON_TABLES = ['cells.csv', 'cell-weeks.csv', 'compare.csv', 'changes.csv'] as const;

export interface FolderChanges {
  readonly a: string;
  readonly b: string;
  readonly changes: readonly TableChange[];
}

export function comparisonTables(
  comparison: CellComparison,
  changes: readonly FolderChanges[],
): ResultTable[] {
  const { cells, differences } = comparison;
  return [
    ...fileTable(
      'cells.csv',
      cellColumns(comparison),
      cells,
      drawn('column', 'Parts an hour by cell', 'cell', ['parts_per_h']),
    ),
    ...fileTable(
      'cell-weeks.csv',
      [
        words<CellWeek>('cell', undefined, (w) => w.cell),
        words<CellWeek>('pattern', undefined, (w) => w.pattern),
        ...WEEKS,
      ],
      cells.flatMap(({ name, shifts }) => (shifts?.patterns ?? []).map((p) => ({ ...p, cell: name }))),
    ),
    ...fileTable('compare.csv', DIFFERENCES, differences),
    ...fileTable(
      'changes.csv',
      CHANGES,
      changes.flatMap(({ a, b, changes: of }) => of.map((change) => ({ first: a, second: b, ...change }))),
    ),
  ];
}

function found({ schedule }: ComparedCell) {
  return 'order' in schedule ? schedule : null;
}

function cellColumns({ pattern }: CellComparison): Column<ComparedCell>[] {
  return [
    words('cell', undefined, (cell) => cell.name),
    words('robot_program', 'robot program', (cell) => cell.dispatch),
    words('sequence', 'sequence', (cell) => cell.schedule.status),
    figures('parts_per_h', 'parts an hour', 2, (cell) => found(cell)?.partsPerH.total ?? null),
    figures('s_per_part', 'robot cycle, s a part', 1, (cell) => {
      const rate = found(cell)?.partsPerH.total ?? null;
      return rate === null ? null : 3600 / rate;
    }),
    figures('robot_pct', 'robot busy %', 1, (cell) => found(cell)?.robot.utilizationPct ?? null),
    words('bottleneck', 'bottleneck', (cell) => {
      const schedule = found(cell);
      return schedule === null ? null : schedule.bottleneck.stations.join(', ') || 'robot';
    }),
    ...simulatedColumns(pattern ?? 'day and night'),
  ];
}

const SIMULATED_ROBOT = 'simulated_robot_pct';

/** Said by others in a short answer: the warnings, and parts an hour. */
const IN_FULL = ['sequence', 's_per_part', SIMULATED_ROBOT];

function simulatedColumns(when: string): Column<ComparedCell>[] {
  const total = ({ simulated }: ComparedCell) => simulated?.partsPerShift.total;
  return [
    figures(
      'simulated_parts_per_shift',
      `simulated, ${when}: parts a shift`,
      1,
      (cell) => total(cell)?.mean ?? null,
      {
        text: (cell) => {
          const { mean, ciHigh } = total(cell)!;
          return `${numberText(mean, 1)}${ciHigh === null ? '' : ` ±${numberText(ciHigh - mean, 1)}`}`;
        },
      },
    ),
    figures('simulated_low', undefined, 1, (cell) => total(cell)?.ciLow ?? null),
    figures('simulated_high', undefined, 1, (cell) => total(cell)?.ciHigh ?? null),
    figures(
      SIMULATED_ROBOT,
      'simulated: robot busy %',
      1,
      ({ simulated }) => simulated?.robot.utilizationPct.mean ?? null,
    ),
  ];
}

type CellWeek = ShiftYield & { readonly cell: string };

const PARTS_A_WEEK: Column<ShiftYield> = figures(
  'parts_per_week',
  'parts a week',
  0,
  (p) => p.partsPerWeek.total!,
);

const MONEY_A_WEEK: Column<ShiftYield> = figures(
  'margin_per_week',
  'margin a week',
  0,
  (p) => p.contributionPerWeek,
  { isMoney: true },
);

const WEEKS: readonly Column<ShiftYield>[] = [
  figures('parts_per_shift', 'parts a shift', 1, (p) => p.partsPerShift.total!),
  PARTS_A_WEEK,
  figures('labour_per_part', 'labour a part', 2, (p) => p.labourCostPerPart, { isMoney: true }),
  MONEY_A_WEEK,
];

/** The weeks of one pattern as figures of the cell. */
function weekColumns(pattern: string, shown: readonly Column<ShiftYield>[]): Column<ComparedCell>[] {
  return shown.map((column) => ({
    name: `${pattern}: ${column.name}`,
    heading: `${pattern}: ${column.heading}`,
    digits: column.digits!,
    isMoney: column.isMoney === true,
    of: ({ shifts }) => {
      const week = shifts?.patterns.find((p) => p.pattern === pattern);
      return week === undefined ? null : column.of(week);
    },
  }));
}

/**
 * @param full false: of the shift patterns only those that every cell has, and of them what is compared: parts a week, or
 * margin where the cells make unlike parts
 */
export function sideBySideTable(comparison: CellComparison, full = true): TableData & { hasMoney: boolean } {
  const { cells, incomparable } = comparison;
  const weeks = full ? WEEKS : [incomparable.length > 0 ? MONEY_A_WEEK : PARTS_A_WEEK];
  const names = cells.map(({ shifts }) => (shifts?.patterns ?? []).map((p) => p.pattern));
  const patterns = [...new Set(names.flat())].filter(
    (name) => full || names.every((own) => own.includes(name)),
  );
  const columns = cellColumns(comparison);
  const simulated = columns.findIndex(({ name }) => name === 'simulated_parts_per_shift');
  // A rule is on a line of its own.
  const headings = cells.map(({ name }) => name.replace(', ', ',\n'));
  const shown = [
    ...columns.slice(0, simulated).filter(({ name }) => full || !IN_FULL.includes(name)),
    ...patterns.flatMap((name) => weekColumns(name, weeks)),
    ...columns.slice(simulated).filter(({ name }) => full || !IN_FULL.includes(name)),
  ];
  return {
    ...readAcross('of each cell', shown, cells, headings),
    hasMoney: shown.some(({ isMoney, of }) => isMoney && cells.some((cell) => of(cell) !== null)),
  };
}

/** An interval that leaves out 0 is no proof where a better sequence could make up for the difference. */
function verdict({ clear, partsPerShift: { ciLow, ciHigh } }: ShownDifference): string {
  if (clear) return 'clear';
  const leavesOutZero = ciLow !== null && ciHigh !== null && (ciLow > 0 || ciHigh < 0);
  return leavesOutZero ? 'not clear by itself' : 'no clear difference';
}

export type ShownDifference = Pick<ComparedPair, 'a' | 'b' | 'partsPerShift' | 'clear'>;

const DIFFERENCES: readonly Column<ShownDifference>[] = [
  words('first', 'first less second', (d) => d.a, { text: (d) => `${d.a} less ${d.b}` }),
  words('second', undefined, (d) => d.b),
  ...estimated<ShownDifference>('parts_per_shift', 'mean', 2, (d) => d.partsPerShift),
  words('clear', 'verdict', (d) => d.clear, { text: verdict }),
];

export function differenceTable(differences: readonly ShownDifference[]): TableData {
  return readTable(DIFFERENCES, differences);
}

/** Read as sentences, by `changeLines`. */
const CHANGES: readonly Column<TableChange & { readonly first: string; readonly second: string }>[] = [
  words('first', undefined, (c) => c.first),
  words('second', undefined, (c) => c.second),
  words('table', undefined, (c) => c.table),
  words('what', undefined, (c) => c.path),
  words('in_first', undefined, (c) => c.a),
  words('in_second', undefined, (c) => c.b),
];
