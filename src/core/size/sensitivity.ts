/** How the recommended number moves when every cycle, load, unload or travel is 10% longer or shorter. */

import type { Cell } from '../model/cell.js';
import { type ScaledElement, scaledCell } from '../model/scaled-cell.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import type { Stage } from './copies.js';
import { bestRow, choiceOf, keepsWaiting, type SizeMeasure } from './recommend.js';
import { type RowContext, type SizeRow, sizeRow } from './size-row.js';
import type { CellSolver } from './size-search.js';

export interface SizeSensitivity {
  readonly element: ScaledElement;
  /** -10 or +10. */
  readonly changePct: number;
  /** Number of machines to choose then; never more than were tried. */
  readonly machines: number;
  /** Rate at that number. */
  readonly partsPerH: number;
  /** Rate at the number recommended for the figures as they are; null where no order was found. */
  readonly partsPerHAsRecommended: number | null;
}

export interface SensitivityInputs {
  readonly stages: readonly Stage[];
  /** Schedule of each stage as the figures are. */
  readonly schedules: readonly ScheduleFound[];
  /** Number recommended for the figures as they are. */
  readonly machines: number;
  readonly measure: SizeMeasure;
  readonly maxWaitPct: number;
  /** Machines that the cell has already; 0 where it is made up of figures. */
  readonly owned: number;
  readonly context: RowContext;
  readonly solve: CellSolver;
}

/** Looks at the recommended number and its neighbours, and walks on while the neighbour is better. */
export function sizeSensitivity(inputs: SensitivityInputs, element: ScaledElement): SizeSensitivity[] {
  return [-10, 10].flatMap((changePct) => {
    const found = moved(inputs, element, changePct);
    return found === null ? [] : [found];
  });
}

function moved(inputs: SensitivityInputs, element: ScaledElement, changePct: number): SizeSensitivity | null {
  const { stages, schedules, solve } = inputs;
  const rowAt = onceEach((i) => {
    const cell = scaledCell(stages[i]!.cell, element, 1 + changePct / 100);
    return rowOf(inputs, i, cell, solve(cell, [schedules[i]!]));
  });
  const row = chosenRow(rowAt, inputs);
  if (row === null) return null;
  return {
    element,
    changePct,
    machines: row.machines,
    partsPerH: row.partsPerH,
    partsPerHAsRecommended: rowAt(startOf(inputs))?.partsPerH ?? null,
  };
}

/** Rows by number of the stage, each worked out once; null outside the stages and where there is no order. */
export type RowAt = (stage: number) => SizeRow | null;

export function onceEach(row: RowAt): RowAt {
  const known = new Map<number, SizeRow | null>();
  return (i) => {
    if (!known.has(i)) known.set(i, row(i));
    return known.get(i)!;
  };
}

/** The row of a stage whose cell was changed; parts per shift are those of plain hours, which the choice does not use. */
export function rowOf(
  { stages, context }: Pick<SensitivityInputs, 'stages' | 'context'>,
  stage: number,
  cell: Cell,
  outcome: ScheduleOutcome,
): SizeRow | null {
  if (!('order' in outcome)) return null;
  return sizeRow(cell, stages[stage]!.machines, outcome, null, { ...context, pattern: null });
}

function startOf({ stages, machines }: Pick<SensitivityInputs, 'stages' | 'machines'>): number {
  return stages.findIndex((s) => s.machines.length === machines);
}

/** From the recommended number on, to the neighbour while that one is better. */
export function chosenRow(
  row: RowAt,
  inputs: Omit<SensitivityInputs, 'solve' | 'schedules'>,
): SizeRow | null {
  const rowAt: RowAt = (i) => (i < 0 || i >= inputs.stages.length ? null : row(i));
  let at = startOf(inputs);
  for (;;) {
    const here = rowAt(at);
    const step = betterStep(here, rowAt(at - 1), rowAt(at + 1), inputs);
    if (step === 0) return here;
    at += step;
  }
}

/** -1, 0 or 1: where to go from here. */
function betterStep(
  here: SizeRow | null,
  fewer: SizeRow | null,
  more: SizeRow | null,
  { measure, maxWaitPct, owned }: Pick<SensitivityInputs, 'measure' | 'maxWaitPct' | 'owned'>,
): -1 | 0 | 1 {
  if (here === null) return fewer ? -1 : 0;
  if (measure === 'waiting for the robot') {
    const fits = (row: SizeRow): boolean => keepsWaiting(row, maxWaitPct);
    if (more && fits(here) && fits(more)) return 1;
    return fewer && !fits(here) ? -1 : 0;
  }
  const rows = [fewer, here, more].filter((r) => r !== null);
  const best = bestRow(choiceOf(rows, maxWaitPct, owned), measure, maxWaitPct);
  if (best === here) return 0;
  return best === fewer ? -1 : 1;
}
