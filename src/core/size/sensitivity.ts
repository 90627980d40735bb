/** How the recommended number moves when every cycle, load, unload or travel is 10 % longer or shorter. */

import type { Cell } from '../model/cell.js';
import type { ScheduleOutcome } from '../schedule/result.js';
import type { Stage } from './growth.js';
import { bestRow, type SizeMeasure } from './recommend.js';
import { SCALED_ELEMENTS, type ScaledElement, scaledCell } from './scaled-cell.js';
import { type RowContext, type SizeRow, sizeRow } from './size-row.js';

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
  /** Number recommended for the figures as they are. */
  readonly machines: number;
  readonly measure: SizeMeasure;
  readonly maxWaitPct: number;
  readonly context: RowContext;
  readonly solve: (cell: Cell) => ScheduleOutcome;
}

/** Looks at the recommended number and its neighbours, and walks on while the neighbour is better. */
export function sizeSensitivity(inputs: SensitivityInputs): SizeSensitivity[] {
  return SCALED_ELEMENTS.flatMap((element) =>
    [-10, 10].flatMap((changePct) => {
      const found = moved(inputs, element, changePct);
      return found === null ? [] : [found];
    }),
  );
}

function moved(inputs: SensitivityInputs, element: ScaledElement, changePct: number): SizeSensitivity | null {
  const { stages, context, solve } = inputs;
  const known = new Map<number, SizeRow | null>();
  const rowAt = (i: number): SizeRow | null => {
    const stage = stages[i];
    if (!stage) return null;
    if (!known.has(i)) {
      const cell = scaledCell(stage.cell, element, 1 + changePct / 100);
      const outcome = solve(cell);
      const found = 'order' in outcome;
      known.set(
        i,
        found ? sizeRow(cell, stage.machines, outcome, null, { ...context, pattern: null }) : null,
      );
    }
    return known.get(i)!;
  };
  const start = stages.findIndex((s) => s.machines.length === inputs.machines);
  const row = walk(rowAt, start, inputs);
  if (row === null) return null;
  return {
    element,
    changePct,
    machines: row.machines,
    partsPerH: row.partsPerH,
    partsPerHAsRecommended: rowAt(start)?.partsPerH ?? null,
  };
}

function walk(
  rowAt: (i: number) => SizeRow | null,
  start: number,
  inputs: SensitivityInputs,
): SizeRow | null {
  let at = start;
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
  { measure, maxWaitPct }: SensitivityInputs,
): -1 | 0 | 1 {
  if (here === null) return fewer ? -1 : 0;
  if (measure === 'waiting for the robot') {
    const fits = (row: SizeRow): boolean => row.waitRobotPct <= maxWaitPct + 1e-9;
    if (more && fits(here) && fits(more)) return 1;
    return fewer && !fits(here) ? -1 : 0;
  }
  const rows = [fewer, here, more].filter((r) => r !== null);
  const best = bestRow(rows, measure);
  if (best === here) return 0;
  return best === fewer ? -1 : 1;
}
