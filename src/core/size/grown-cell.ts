/**
 * The rows of the sizing table: the cell is scheduled with one machine after another, and the number that pays best is
 * picked.
 */

import { PLAIN_WEEK, patternWeek } from '../calendar/asked-amounts.js';
import { patternNames } from '../calendar/week-calendar.js';
import type { Cell } from '../model/cell.js';
import { currencyOf } from '../model/cost-value.js';
import { listText } from '../model/list-text.js';
import { usedMachines } from '../model/reduced-cell.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import { labourCostPerWeek } from '../shifts/labour-cost.js';
import type { Stage } from './copies.js';
import { cellGrowth, type Growth, identicalGrowth, MOST_TRIED, MOST_UNASKED } from './growth.js';
import type { IdenticalMachines } from './identical-machines.js';
import { keepsWaiting, type Recommendation, recommendMachines } from './recommend.js';
import { type RowContext, type SizeRow, sizeRow } from './size-row.js';
import type { CellSolver } from './size-search.js';

interface SizeSettings {
  /** Share of machine time that may be spent waiting for the robot, default 5. */
  readonly maxWaitPct?: number;
  /** Length of a shift where the cell has no shifts, hours, default 8. */
  readonly shiftH?: number;
  /** Work out how the answer moves with the inputs and where it changes, default true; it needs some 100 more schedules. */
  readonly sensitivity?: boolean;
  /** What an order found before yields on a changed cell; default: the order is evaluated anew. */
  readonly again?: (cell: Cell, found: ScheduleFound) => ScheduleFound | null;
  /** Called after each row with its machines and the most that there will be, for progress. */
  readonly onRow?: (machines: number, most: number) => void;
}

/** Size from a few figures. */
export interface SizeIdentical extends SizeSettings {
  readonly identical: IdenticalMachines;
  /** Largest number to try, 1 to 100. */
  readonly maxMachines: number;
}

/** Size a given cell; see growth.ts for how it grows. */
export interface SizeGivenCell extends SizeSettings {
  readonly cell: Cell;
  /** Order in which machines are added, default `table`. */
  readonly order?: readonly string[] | 'table' | 'best';
  /** Largest number to try, default all that the cell has (three more where copies are added). */
  readonly maxMachines?: number;
  /** Pattern for parts per shift and labour, default the first of the table. */
  readonly pattern?: string;
}

export type SizeOptions = SizeIdentical | SizeGivenCell;

/** The rows with their cells and schedules: plain data, from which all else about the size can be worked out. */
export interface GrownCell {
  readonly way: Growth['way'];
  readonly rows: readonly SizeRow[];
  readonly stages: readonly Stage[];
  readonly schedules: readonly ScheduleFound[];
  readonly context: RowContext;
  readonly maxWaitPct: number;
  /** Machines that the cell has already; 0 where it is made up of figures. */
  readonly owned: number;
  /** null where no row could be had; the warnings say why. */
  readonly recommended: Recommendation | null;
  readonly warnings: readonly string[];
}

/**
 * The rows of the table and the number to choose, without how that answer moves.
 *
 * @throws RangeError as sizeCell
 */
export function grownCell(options: SizeOptions, solve: CellSolver): GrownCell {
  checkOptions(options);
  const growth =
    'identical' in options
      ? identicalGrowth(options.identical, options.maxMachines)
      : cellGrowth(options.cell, options.order ?? 'table', options.maxMachines ?? null);
  const context = rowContext(options);
  const maxWaitPct = options.maxWaitPct ?? 5;
  const grown = grow(growth, { ...context, maxWaitPct }, solve, options.onRow);
  grown.warnings.push(...cutShort(options));
  const { way, owned } = growth;
  const recommended =
    grown.rows.length > 0
      ? recommendMachines(grown.rows, { maxWaitPct, owned, currency: context.currency })
      : null;
  return { ...grown, way, owned, context, maxWaitPct, recommended };
}

/** That the table ends before the cell does, and that not every machine was tried in every place. */
function cutShort(options: SizeOptions): string[] {
  if ('identical' in options || options.order !== 'best') return [];
  const machines = usedMachines(options.cell).length;
  if (machines <= MOST_TRIED) return [];
  const end = options.maxMachines === undefined && machines > MOST_UNASKED;
  return [
    `The cell has ${machines} machines: of those that may come next, the first ${MOST_TRIED} of the table are tried each time.${end ? ` Without \`--max\` the table ends at ${MOST_UNASKED} machines.` : ''}`,
  ];
}

interface Grown {
  readonly rows: SizeRow[];
  readonly stages: Stage[];
  readonly schedules: ScheduleFound[];
  readonly warnings: string[];
}

function grow(
  growth: Growth,
  context: RowContext & { readonly maxWaitPct: number },
  solve: CellSolver,
  onRow: SizeSettings['onRow'],
): Grown {
  const grown: Grown = { rows: [], stages: [], schedules: [], warnings: [] };
  let candidates = growth.first;
  while (candidates.length > 0) {
    // What fewer machines can do, more can do as well.
    const known = grown.schedules.slice(-1);
    const nodes = candidates.length === 1 ? [] : [TRY_NODES];
    const tried = candidates.map((stage) => ({ stage, outcome: solve(stage.cell, known, ...nodes) }));
    const before = grown.rows.at(-1) ?? null;
    const best = bestTry(tried, before, context);
    if (best === null) {
      for (const t of tried) grown.warnings.push(failureText(t.stage, t.outcome));
      // A cell that cannot run with all its machines does not run with copies of them.
      const isWhole = growth.owned > 0 && candidates[0]!.machines.length >= growth.owned;
      candidates = isWhole ? [] : growth.next(candidates[0]!);
      continue;
    }
    const again = nodes.length === 0 ? best.schedule : solve(best.stage.cell, [...known, best.schedule]);
    const schedule = 'order' in again ? again : best.schedule;
    const row = sizeRow(best.stage.cell, best.stage.machines, schedule, before, context);
    grown.rows.push(row);
    grown.stages.push(best.stage);
    grown.schedules.push(schedule);
    onRow?.(row.machines, growth.most);
    candidates = growth.next(best.stage);
  }
  const open = grown.rows.filter((row) => !row.proven).map((row) => row.machines);
  if (open.length > 0)
    grown.warnings.push(
      `With ${machinesText(open)} the search for the best sequence stopped at its limit; a better one may exist.`,
    );
  return grown;
}

/** Nodes for each of several ways to grow; the one that is taken has a full search. */
const TRY_NODES = 2000;

interface Tried {
  readonly stage: Stage;
  readonly outcome: ScheduleOutcome;
}

/**
 * Of several ways to grow, the one that brings most contribution, or where none is given, most parts for a machine;
 * first of all one with which the machines wait no more for the busy robot than is taken as fair. The choice goes by
 * steady rates: no week is run for the ways that are dropped.
 */
function bestTry(
  tried: readonly Tried[],
  before: SizeRow | null,
  { maxWaitPct, ...context }: RowContext & { readonly maxWaitPct: number },
): { stage: Stage; schedule: ScheduleFound } | null {
  const all = tried.flatMap(({ stage, outcome }) =>
    'order' in outcome
      ? [
          {
            stage,
            schedule: outcome,
            row: sizeRow(stage.cell, stage.machines, outcome, before, { ...context, pattern: null }),
          },
        ]
      : [],
  );
  const fair = all.filter((f) => keepsWaiting(f.row, maxWaitPct));
  const found = fair.length > 0 ? fair : all;
  const money = found.every((f) => f.row.contributionPerH !== null);
  const worth = (row: SizeRow): number => {
    const extra = row.machines - (before?.machines ?? 0);
    return money
      ? (row.contributionPerH! - (before?.contributionPerH ?? 0)) / extra
      : (row.partsPerH - (before?.partsPerH ?? 0)) / extra;
  };
  return found.reduce<(typeof found)[number] | null>(
    (best, f) => (best === null || worth(f.row) > worth(best.row) + 1e-9 ? f : best),
    null,
  );
}

function failureText(stage: Stage, outcome: ScheduleOutcome): string {
  const reason = 'reason' in outcome ? outcome.reason : '';
  return `With ${countText(stage.machines.length)} (${stage.machines.join(', ')}) there is no row: ${reason}`;
}

function countText(machines: number): string {
  return machines === 1 ? 'one machine' : `${machines} machines`;
}

function rowContext(options: SizeOptions): RowContext {
  const shiftH = options.shiftH ?? 8;
  const plain = { shifts: PLAIN_WEEK.shifts, hours: PLAIN_WEEK.shifts * shiftH };
  if ('identical' in options)
    return {
      labourPerH: options.identical.labourPerH ?? 0,
      week: plain,
      pattern: null,
      shiftH,
      currency: '',
    };
  const { shifts } = options.cell;
  const currency = currencyOf(options.cell);
  const names = patternNames(shifts);
  const pattern = options.pattern ?? names[0] ?? null;
  if (pattern === null) return { labourPerH: 0, week: plain, pattern, shiftH, currency };
  if (!names.includes(pattern))
    throw new RangeError(
      names.length === 0
        ? `there is no pattern ${pattern}, because the cell has no shifts`
        : `there is no pattern ${pattern}; there are ${names.join(', ')}`,
    );
  const rows = shifts.filter((s) => s.pattern === pattern);
  const week = patternWeek(shifts, pattern);
  return { labourPerH: labourCostPerWeek(rows) / week.hours, week, pattern, shiftH, currency };
}

function checkOptions(options: SizeOptions): void {
  const { maxMachines, maxWaitPct = 5, shiftH = 8 } = options;
  if (maxMachines !== undefined && !(Number.isInteger(maxMachines) && maxMachines >= 1 && maxMachines <= 100))
    throw new RangeError(
      `the largest number of machines must be a whole number from 1 to 100, found ${maxMachines}`,
    );
  if (!(maxWaitPct >= 0 && maxWaitPct <= 100))
    throw new RangeError(`the share of waiting must be from 0 to 100%, found ${maxWaitPct}`);
  if (!(shiftH > 0 && shiftH <= 24))
    throw new RangeError(`a shift must have up to 24 hours, found ${shiftH}`);
}

/** @example machinesText([2, 3, 4]) // '2, 3 and 4 machines' */
export function machinesText(counts: readonly number[]): string {
  return listText([...counts.slice(0, -1).map(String), countText(counts.at(-1)!)]);
}
