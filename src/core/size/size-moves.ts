/** How the answer moves with each kind of input, and where it changes; each kind can be worked out by itself. */
import type { Cell } from '../model/cell.js';
import { SCALED_ELEMENTS } from '../model/scaled-cell.js';
import { scheduleAgain } from '../schedule/best-schedule.js';
import type { ScheduleFound } from '../schedule/result.js';
import type { GrownCell, SizeOptions } from './grown-cell.js';
import { type SizeSensitivity, sizeSensitivity } from './sensitivity.js';
import { moneyBreakPoints, type SizeBreakPoint, timeBreakPoints } from './size-break-points.js';
import type { CellSolver } from './size-search.js';

/** Nodes for each cell with changed inputs: its search starts from a good order. */
const CHANGED_NODES = 2_000;

/** How the answer moves, where that is asked for. @param onMoved called after each kind of input */
export function movesOf(
  options: SizeOptions,
  grown: GrownCell,
  solve: CellSolver,
  onMoved: (inputs: number) => void = () => undefined,
): readonly SizeMoves[] {
  if (options.sensitivity === false) return [];
  return MOVED_INPUTS.map((input, k) => {
    const moves = sizeMoves(grown, input, solve, options.again);
    onMoved(k + 1);
    return moves;
  });
}

/** What can move the answer: a kind of time each, and all money with the allowed waiting. */
export const MOVED_INPUTS = [...SCALED_ELEMENTS, 'money'] as const;
export type MovedInput = (typeof MOVED_INPUTS)[number];

/** How the answer moves with one kind of input, and where it changes. */
export interface SizeMoves {
  readonly sensitivity: readonly SizeSensitivity[];
  readonly breakPoints: readonly SizeBreakPoint[];
}

/**
 * @param solve finds the best order of a cell
 * @param again what an order found before yields on a changed cell; default: the order is evaluated anew
 */
export function sizeMoves(
  grown: GrownCell,
  input: MovedInput,
  solve: CellSolver,
  again: SizeOptions['again'] = scheduleAgain,
): SizeMoves {
  const { recommended, stages, schedules, owned } = grown;
  if (recommended === null) return { sensitivity: [], breakPoints: [] };
  // Machines that are there already stay, whatever the input.
  const isOpen = (i: number): boolean => stages[i]!.machines.length >= Math.min(owned, recommended.machines);
  const inputs = {
    ...grown,
    ...recommended,
    stages: stages.filter((_, i) => isOpen(i)),
    schedules: schedules.filter((_, i) => isOpen(i)),
    solve: (cell: Cell, known?: readonly ScheduleFound[]) => solve(cell, known, CHANGED_NODES),
    again,
  };
  if (input === 'money') return { sensitivity: [], breakPoints: moneyBreakPoints(inputs) };
  return { sensitivity: sizeSensitivity(inputs, input), breakPoints: timeBreakPoints(inputs, input) };
}
