/** Runs a floor without chance for tests, and tells what happens, line by line: second, what, station, part. */
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { FloorRun, type FloorSetup } from '../../../src/core/floor/floor-run.js';
import { orderPlan } from '../../../src/core/floor/order-plan.js';
import type { Program } from '../../../src/core/floor/robot.js';
import type { Cell } from '../../../src/core/model/cell.js';
import type { OrderEvent } from '../../../src/core/schedule/result.js';

export interface Told {
  readonly run: FloorRun;
  /** Up to the end, in the order of time. */
  readonly lines: readonly string[];
}

/** @example '37 picked mill cap' */
export function told(cell: Cell, program: Program, untilS: number, more: Partial<FloorSetup> = {}): Told {
  const events: { readonly timeS: number; readonly line: string }[] = [];
  const setup: FloorSetup = {
    ...{ program, plan: null, calendar: null, operators: 1, seed: 1, chance: false },
    trace: (timeS, what, station, part) =>
      events.push({ timeS, line: `${timeS} ${what} ${station}${part === '' ? '' : ` ${part}`}` }),
    ...more,
  };
  const run = new FloorRun(compileCell(cell), setup, 0);
  run.to(untilS);
  const lines = events
    .filter(({ timeS }) => timeS <= untilS)
    .sort((a, b) => a.timeS - b.timeS)
    .map(({ line }) => line);
  return { run, lines };
}

/** The same under a program that follows an order. */
export function toldOrder(
  { cell, order }: { readonly cell: Cell; readonly order: readonly OrderEvent[] },
  program: 'order' | 'strict',
  untilS: number,
  more: Partial<FloorSetup> = {},
): Told {
  return told(cell, program, untilS, { plan: orderPlan({ order }, cell, compileCell(cell)), ...more });
}
